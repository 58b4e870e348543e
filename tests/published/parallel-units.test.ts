import { expect, it } from "vitest";
import { parallelUnits } from "../../src/answer/staff/staff-machines.js";
import { readNumber } from "../../src/time/exact-number.js";
import { ratio, toNumber } from "../../src/time/ratio.js";
import { citation, readWorkedExamples } from "../tools/read-worked-examples.js";

const { source, cases } = readWorkedExamples()["parallel-units"];

for (const { status, quantity, available, expected, ...written } of cases) {
  it(`needs ${expected.exact} machines, so ${expected.whole}, for ${quantity} pieces of ${written.standard} min (${citation(source)}; ${status})`, () => {
    const { exact, whole } = parallelUnits({
      standard: readNumber(written.standard)!,
      quantity: ratio(quantity),
      efficiency: readNumber(written.efficiency)!,
      available: ratio(available),
      reliability: readNumber(written.reliability)!,
    });
    expect([toNumber(exact, 4), whole]).toEqual([expected.exact, expected.whole]);
  });
}
