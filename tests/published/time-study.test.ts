import { describe, expect, it, test } from "vitest";
import { meanOf, readingsNeeded, varianceOf } from "../../src/study/statistics.js";
import { readNumber } from "../../src/time/exact-number.js";
import { multiply, type Ratio, ratio } from "../../src/time/ratio.js";
import { citation, readWorkedExamples } from "../tools/read-worked-examples.js";
import { runLinepoise } from "../tools/run-linepoise.js";

const {
  "standard-times": studies,
  "readings-needed": counts,
  allowances,
} = readWorkedExamples()["time-study"];

interface StudyJson {
  readonly elements: readonly {
    readonly readings: number;
    readonly leftOut: number;
    readonly observedSeconds: number;
    readonly standardDeviationSeconds: number | null;
    readonly normalSeconds: number;
    readonly standardSeconds: number;
    readonly readingsNeeded: number | null;
    readonly quantile: number | null;
  }[];
  readonly totals: { readonly normalSeconds: number; readonly standardSeconds: number };
}

type Example = (typeof studies)[number];

async function studyOf({ elements, allowance }: Example, ...args: string[]): Promise<StudyJson> {
  const most = Math.max(...elements.map((each) => each.readings.length + (each.marked?.length ?? 0)));
  const rows = elements.map(({ readings, marked = [], rating }, at) =>
    [`E${at + 1}`, rating, ...readings, ...marked.map((each) => `${each}*`)].join(","),
  );
  const headings = ["element", "rating", ...Array.from({ length: most }, (_, at) => at + 1)].join(",");
  const short = (row: string) => row + ",".repeat(most + 1 - (row.match(/,/gu) ?? []).length);
  const run = await runLinepoise({
    args: [
      ...["study", "readings.csv", "--json", "--unit", "min", "--leave-out", "*"],
      ...["--allowance", `all ${Math.round(100 * allowance.share)} %`, "--allowance-of", allowance.of],
      ...args,
    ],
    files: { "readings.csv": [headings, ...rows.map(short)].join("\n") },
  });
  expect(run.status, run.stderr).toBe(0);
  return JSON.parse(run.stdout) as StudyJson;
}

describe("standard times come out as in", () => {
  it.each(studies.map((each) => [`${each.id}: ${citation(each.source)}`, each] as const))(
    "%s",
    async (_, study) => {
      const { expected } = study;
      const { elements, totals } = await studyOf(study);
      const minutes = (of: (element: StudyJson["elements"][number]) => number | null) =>
        elements.map((each) => Number(((of(each) ?? 0) / 60).toFixed(4)));
      expect(minutes((each) => each.observedSeconds)).toEqual(expected.observed);
      if (expected.deviation)
        expect(minutes((each) => each.standardDeviationSeconds)).toEqual(expected.deviation);
      if (expected.normal) expect(minutes((each) => each.normalSeconds)).toEqual(expected.normal);
      if (expected.standard) expect(minutes((each) => each.standardSeconds)).toEqual(expected.standard);
      if (expected["total-normal"])
        expect(totals.normalSeconds / 60).toBeCloseTo(expected["total-normal"], 4);
      expect(totals.standardSeconds / 60).toBeCloseTo(expected["total-standard"], 4);
      expect(elements.map((each) => each.leftOut)).toEqual(
        study.elements.map(({ marked = [] }) => marked.length),
      );
      const pieces = expected["pieces-in-480"];
      if (pieces) expect(Math.floor((480 * 60) / totals.standardSeconds)).toBe(pieces);
      if (expected["needed-by-t"]) {
        expect(elements[0]).toMatchObject({ readingsNeeded: expected["needed-by-t"], quantile: expected.t });
        const byZ = await studyOf(study, "--by", "z");
        expect(byZ.elements[0]!.readingsNeeded).toBe(expected["needed-by-z"]);
      }
      if (expected["total-standard-of-shift"]) {
        const ofShift = await studyOf({ ...study, allowance: { ...study.allowance, of: "shift" } });
        expect(ofShift.totals.standardSeconds / 60).toBeCloseTo(expected["total-standard-of-shift"], 4);
      }
    },
  );
});

const exact = (value: number): Ratio => readNumber(String(value))!;
const square = (value: Ratio): Ratio => multiply(value, value);

describe("the readings needed are those of", () => {
  it.each(counts.map((each) => [citation(each.source), each] as const))("%s", (_, given) => {
    const values = given.readings?.map(exact);
    // The short formula of sums takes the deviation with n.
    const variance = values
      ? multiply(varianceOf(values)!, ratio(values.length - 1, values.length))
      : square(exact(given.deviation!));
    const mean = values ? meanOf(values) : exact(given.mean!);
    const within = given.error === undefined ? multiply(exact(given.share!), mean) : exact(given.error);
    expect(readingsNeeded(variance, exact(given.quantile), within)).toBe(given.needed);
  });
});

test(`allowances of named parts add up: ${citation(allowances.source)}`, async () => {
  const parts = Object.entries(allowances.parts).flatMap(([name, share]) => [
    "--allowance",
    `${name} ${share} %`,
  ]);
  const run = await runLinepoise({
    args: ["study", "readings.csv", "--unit", "s", "--json", "--allowance-of", "job", ...parts],
    files: { "readings.csv": "element,1\nlift,100\n" },
  });
  const { allowance, totals } = JSON.parse(run.stdout) as StudyJson & {
    readonly allowance: { readonly share: number; readonly parts: readonly { readonly name: string }[] };
  };
  expect(allowance.share).toBe(allowances.total / 100);
  expect(allowance.parts.map(({ name }) => name)).toEqual(Object.keys(allowances.parts));
  expect(totals.standardSeconds).toBe(132);
});
