import { expect, it } from "vitest";
import { readAnswer } from "../tools/read-answer.js";
import { citation, readWorkedExamples } from "../tools/read-worked-examples.js";
import { lineOfExample } from "./line-of-example.js";

const { "measures-from-loads": examples } = readWorkedExamples();

/** In both cases no two neighbours fit together and the longest load equals the limit, so the chain keeps the loads. */
it.each(examples.cases)(
  `has the measures of the loads $loads (${citation(examples.source)})`,
  async (example) => {
    const tasks = example.loads.map((time, at) => ({
      id: `t${at + 1}`,
      time,
      after: at === 0 ? [] : [`t${at}`],
    }));
    const given = await readAnswer(lineOfExample("loads", "min", tasks), ["--cycle", String(example.limit)]);

    expect(given.stations.map(({ seconds }) => seconds / 60)).toEqual(example.loads);
    expect(given.measures.efficiencyAtPace).toBeCloseTo(example["efficiency-at-limit"], 5);
    expect(given.measures.efficiencyAtSlowest).toBeCloseTo(example["efficiency-at-limit"], 5);
    expect(given.measures.balanceDelayAtPace).toBeCloseTo(example["delay-at-limit"], 5);
    expect(given.measures.idleSecondsPerUnit).toBe(example.idle * 60);
    expect(given.measures.smoothnessSeconds / 60).toBeCloseTo(example["smoothness-at-limit"], 4);
  },
);
