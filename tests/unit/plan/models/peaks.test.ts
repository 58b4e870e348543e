import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Line } from "../../../../src/line/line.js";
import { findPeaks } from "../../../../src/plan/check/check-peaks.js";
import { peakTime } from "../../../../src/plan/figures/kinds-of-time.js";
import { peaksAt } from "../../../../src/plan/models/peaks.js";
import { type Plan, planOf } from "../../../../src/plan/plan.js";
import { lineOf, paceOf } from "../../../tools/line-of.js";
import { inSeconds, type MixedTask, mixedLine } from "./mixed-line.js";

const told = (line: Line, seconds: number, plan: Plan, sequence: readonly number[] = [0]): string[] =>
  findPeaks(line, paceOf(seconds), plan, sequence).map(({ severity, message }) => `${severity}: ${message}`);

const line = (...rows: string[]): Line => lineOf(["line: x", "unit: s", ...rows, ""].join("\n"));
const audited = (...rows: string[]): Line =>
  line(...rows, "tasks: {a: 55, audit: {time: 800, every: 20, after: a}}");

describe("work of 800 s on every 20th unit, beside 55 s, at 100 s", () => {
  it("is a note: 755 s are caught up in 17 units at 45 s, and 19 come before the next", () => {
    // 17 x 45 = 765 s.
    expect(told(audited(), 100, planOf([[0, 1]]))).toEqual([
      "note: every 20th unit (audit) takes 855 s at S1, 755 s over its working time of 100 s; caught up in 17 units at 45 s each, before the next one comes",
    ]);
  });

  it("is an error where the drift room of the line, or of its station, is less", () => {
    const further = "; work runs up to 755 s past the end of S1, and `drift-room` allows";
    const of = (...rows: string[]) => told(audited(...rows), 100, planOf([[0, 1]]))[0]!;
    expect(of("drift-room: 754")).toContain(`error: every 20th unit`);
    expect(of("drift-room: 754")).toContain(`${further} 754 s`);
    expect(of("drift-room: 755")).toMatch(/^note: /u);
    expect(of("drift-room: 755", "stations: [{id: S1, drift-room: 12 min}]")).toContain(`${further} 720 s`);
    expect(of("drift-room: 10", "stations: [{id: S1, drift-room: 15 min}]")).toMatch(/^note: /u);
  });

  it("is a warning at two places that take units in turn: every 20th falls to the same one", () => {
    // At 52 s a place has 104 s for each of its units, which take 55 s, and every 10th of one place 855 s: 751 s over, 9 x 49 = 441 s to spare.
    const plan = { stations: planOf([[0, 1]]).stations.map((each) => ({ ...each, places: 2 })) };
    expect(told(audited(), 52, plan)).toEqual([
      "warning: every 20th unit (audit) takes 855 s at S1, 751 s over its working time of 104 s; never caught up: in this order the station, or one of its places, gets more work than it has time for",
    ]);
  });

  it("is no finding where it stands alone at eight places, which have 800 s for it", () => {
    const plan = {
      stations: planOf([[0], [1]]).stations.map((each, at) => ({ ...each, places: at === 0 ? 1 : 8 })),
    };
    expect(told(audited(), 100, plan)).toEqual([]);
  });

  it("is no finding of its own where the station has too much work on average", () => {
    expect(told(audited(), 94, planOf([[0, 1]]))).toEqual([]);
  });
});

describe("what a machine runs by itself on every 10th unit, at 100 s", () => {
  const tested = (test: string, ...rows: string[]) =>
    line(...rows, `tasks: {a: 40, test: {${test}, after: a}}`);
  const run = "time: 10, machine-time: 200, every: 10";

  it("is a note where a unit stands 40 + 10 + 200 s: 150 s are caught up in 3 units at 60 s", () => {
    // People work 50 s on it. 3 x 60 = 180 s.
    expect(told(tested(run), 100, planOf([[0, 1]]))).toEqual([
      "note: every 10th unit (test) stands 250 s at S1, with what machines run, 150 s over the 100 s that there is for it; caught up in 3 units at 60 s each, before the next one comes",
    ]);
  });

  it("is caught up by units that stand in the same room where a place holds two: 250 s are 50 s over 200 s", () => {
    // Each of two that stand there gets every second unit, of which every 5th has the test; another has 200 - 40 s to spare.
    expect(told(tested(run, "holds: 2"), 100, planOf([[0, 1]]))).toEqual([
      "note: every 10th unit (test) stands 250 s at S1, with what machines run, 50 s over the 200 s that there is for it; caught up in 1 unit at 160 s, one in 2 of those that come, before the next one comes",
    ]);
    expect(told(tested(run, "holds: 3"), 100, planOf([[0, 1]]))).toEqual([]);
  });

  it("is still a note at 610 s: 510 s are caught up in 9 units at 60 s, all that come before the next", () => {
    // 9 x 60 = 540 s.
    const often = tested("time: 10, machine-time: 560, every: 10");
    expect(told(often, 100, planOf([[0, 1]]))).toEqual([
      "note: every 10th unit (test) stands 610 s at S1, with what machines run, 510 s over the 100 s that there is for it; caught up in 9 units at 60 s each, before the next one comes",
    ]);
  });

  it("is told of a rig that is kept 20 + 5 + 150 s where two units may stand: 75 s over 100 s, made up by one unit at 80 s", () => {
    const rig = line(
      "holds: 2",
      "equipment: {rig: 1}",
      "tasks: {hook: {time: 20, equipment: rig}, run: {time: 5, machine-time: 150, every: 10, equipment: rig, after: hook}}",
    );
    expect(told(rig, 100, planOf([[0, 1]]))).toEqual([
      "note: every 10th unit (run) keeps rig 175 s at S1, 75 s over the 100 s that there is for it; caught up in 1 unit at 80 s, before the next one comes",
    ]);
  });

  it("is told of a rare model that a machine runs 90 s for: 30 + 5 + 90 s are 25 s over", () => {
    const rare = line(
      "models: {normal: 95 %, rare: 5 %}",
      'tasks: {a: 30, oven: {time: {normal: "-", rare: 5}, machine-time: 90, after: a}}',
    );
    expect(told(rare, 100, planOf([[0, 1]]), [...Array(19).fill(0), 1])).toEqual([
      "note: a unit of rare stands 125 s at S1, with what machines run, 25 s over the 100 s that there is for it; caught up in 1 unit of normal at 70 s, before the next one comes",
    ]);
  });

  it("is told once, of what is most over: hands of 120 s beside a machine of 30 s stand 150 s", () => {
    const both = line("tasks: {a: 40, test: {time: 80, machine-time: 30, every: 10, after: a}}");
    expect(told(both, 100, planOf([[0, 1]]))).toEqual([
      "note: every 10th unit (test) stands 150 s at S1, with what machines run, 50 s over the 100 s that there is for it; caught up in 1 unit at 60 s, before the next one comes",
    ]);
  });
});

describe("a model of 1 % that takes 108 s where others take 59 s, at 60 s", () => {
  const rare = mixedLine({ normal: 99, rare: 1 }, { work: { seconds: [59, 108] } });
  const sequence = [...Array(99).fill(0), 1];

  it("is a note: 48 s are caught up in 48 units", () => {
    expect(told(rare, 60, planOf([[0]]), sequence)).toEqual([
      "note: a unit of rare takes 108 s at S1, 48 s over its working time of 60 s; caught up in 48 units of normal at 1 s each, before the next one comes",
    ]);
  });

  it("is a warning where two of them come too near each other", () => {
    const near = [1, ...Array(47).fill(0), 1, ...Array(151).fill(0)];
    expect(told(rare, 60, planOf([[0]]), near)).toEqual([
      "warning: a unit of rare takes 108 s at S1, 48 s over its working time of 60 s; the next one comes before that is caught up",
    ]);
  });

  it("is told of no model above 10 %, of which the drift of the sequence tells, unless that is too far", () => {
    const even = mixedLine({ four: 1, two: 1 }, { doors: { seconds: [80, 40] } });
    expect(told(even, 60, planOf([[0]]), [0, 0, 1, 1])).toEqual([]);
    expect(told({ ...even, driftRoom: 39_000_000 }, 60, planOf([[0]]), [0, 0, 1, 1])).toEqual([
      "error: a unit of four takes 80 s at S1, 20 s over its working time of 60 s; the next one comes before that is caught up; work runs up to 40 s past the end of S1, and `drift-room` allows 39 s",
    ]);
    expect(told({ ...even, driftRoom: 40_000_000 }, 60, planOf([[0]]), [0, 0, 1, 1])).toEqual([]);
  });
});

it("gives work that a test on every other unit has done again to those units: one in four fails, 90 s / 0.75", () => {
  const tested = line(
    "tasks: {a: 50, t: {time: 40, every: 2, after: a, test: {fail: 25 %, repair: 60, return-to: a}}}",
  );
  // With the test 120 s, without it 50 s, on average the 85 s of the station; 30 s over 90 s leave 40 s a unit to catch up.
  expect(told(tested, 90, planOf([[0, 1]]))).toEqual([
    "note: every 2nd unit (t) takes 120 s at S1, 30 s over its working time of 90 s; caught up in 1 unit at 40 s, before the next one comes",
  ]);
  expect(inSeconds(peakTime(tested, planOf([[0, 1]]).stations[0]!))).toBe(120);
});

it("tells of work of several numbers each by itself, and of the units on which all of it meets", () => {
  // 50 s each; every 4th 40 s, every 6th 60 s more, every 12th both: 30, 50 and 90 s over 60 s, and 10 s to spare on all others.
  const both = line("tasks: {a: 50, b: {time: 40, every: 4}, c: {time: 60, every: 6}}");
  // Units 4 and 8, 6, 12: the mean is 50 + 10 + 10 = 70 s, so 80 s hold it; 10, 30 and 70 s over, 30 s to spare.
  const peaks = peaksAt(both, paceOf(80), planOf([[0, 1, 2]]).stations[0]!, [0]);
  expect(
    peaks.map(({ every, tasks, over, catchUp }) => [every, tasks, inSeconds(over), catchUp?.units]),
  ).toEqual([
    [4, [1], 10, 1],
    [6, [2], 30, 1],
    [12, [1, 2], 70, 3],
  ]);
});

it("says that it is not known where the same work meets again only after too many units", () => {
  const many = line("tasks: {a: 50, b: {time: 900, every: 99991}, c: {time: 900, every: 99989}}");
  expect(told(many, 60, planOf([[0, 1, 2]])).map((each) => each.split("; ")[1])).toEqual(
    Array(3).fill(
      "whether that is caught up before the next one comes is not known: only after too many units the same work meets again",
    ),
  );
});

interface AnyStation {
  readonly quantities: readonly number[];
  readonly tasks: readonly MixedTask[];
  readonly places: number;
  readonly cycle: number;
  readonly sequence: readonly number[];
}

const anyStation: fc.Arbitrary<AnyStation> = fc.integer({ min: 1, max: 3 }).chain((models) =>
  fc.record({
    quantities: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: models, maxLength: models }),
    tasks: fc.array(
      fc.record({
        seconds: fc.array(fc.integer({ min: 0, max: 40 }), { minLength: models, maxLength: models }),
        every: fc.constantFrom(1, 1, 2, 3, 4, 6),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    places: fc.integer({ min: 1, max: 3 }),
    cycle: fc.integer({ min: 8, max: 30 }),
    sequence: fc.array(fc.nat({ max: models - 1 }), { minLength: 1, maxLength: 6 }),
  }),
);

/** A line that is simply run: what each unit takes, the drift before and after it, of every place, for a count that begins so far on. */
function runUnits({ tasks, places, cycle, sequence }: AnyStation, offset: number, units: number) {
  const drifts = Array<number>(places).fill(0);
  return Array.from({ length: units }, (_, at) => {
    const [count, model] = [at + 1, sequence[(at + offset) % sequence.length]!];
    const due = tasks.filter(({ every }) => count % every! === 0);
    const time = due.reduce((sum, { seconds }) => sum + seconds[model]!, 0);
    const [place, before] = [at % places, drifts[at % places]!];
    drifts[place] = Math.max(0, before + time - places * cycle);
    return { count, model, time, before, after: drifts[place]! };
  });
}

type Run = ReturnType<typeof runUnits>;

/** Units of the same place until the drift is what it was before the unit at `at`; null where one like it comes before. */
function unitsUntilBack(run: Run, at: number, places: number, isNext: (unit: Run[number]) => boolean) {
  for (let units = 1; ; units++) {
    const next = run[at + units * places];
    if (next === undefined || isNext(next)) return null;
    if (next.after <= run[at]!.before) return units;
  }
}

it("are caught up as soon as on a line that is run unit by unit, and drift as far", () => {
  let compared = 0;
  fc.assert(
    fc.property(anyStation, (given) => {
      const { quantities, tasks, places, cycle, sequence } = given;
      const models = Object.fromEntries(quantities.map((each, at) => [`m${at}`, each]));
      const mixed = mixedLine(models, Object.fromEntries(tasks.map((task, at) => [`t${at}`, task])));
      const station = { ...planOf([tasks.map((_, at) => at)]).stations[0]!, places };
      const peaks = peaksAt(mixed, paceOf(cycle), station, sequence);
      const part = 48 * sequence.length * places;
      const runs = sequence.map((_, offset) => runUnits(given, offset, 4 * part));
      const far = (from: number) =>
        Math.max(...runs.flatMap((run) => run.slice(from, from + part).map(({ after }) => after)));
      if (far(3 * part) > far(2 * part)) return;
      for (const peak of peaks) {
        const numbers = peak.tasks.map((at) => tasks[at]!.every!);
        const isDue = ({ count }: Run[number]) => numbers.every((every) => count % every === 0);
        const isNext = (unit: Run[number]) => (peak.every === 1 ? unit.model === peak.model : isDue(unit));
        const seen = runs.flatMap((run) =>
          run
            .map((unit, at) => ({ unit, at }))
            .slice(part, 2 * part)
            .filter(
              ({ unit }) => unit.model === peak.model && unit.time === inSeconds(peak.time) && isDue(unit),
            )
            .map(({ at }) => unitsUntilBack(run, at, places, isNext)),
        );
        const units = seen.flatMap((each) => each ?? []);
        expect(seen.length).toBeGreaterThan(0);
        expect(peak.catchUp?.units ?? null).toBe(units.length < seen.length ? null : Math.max(...units));
        compared++;
      }
      if (peaks.length > 0) expect(Math.max(...peaks.map(({ drift }) => inSeconds(drift!)))).toBe(far(part));
    }),
    { seed: 7, numRuns: 500 },
  );
  expect(compared).toBeGreaterThan(100);
});

describe("work of 200 s on every 10th unit at 120 s", () => {
  const auditOn = (label: string) =>
    told(
      line(
        "models: {a: 80 %, b: 20 %}",
        `tasks: {label: ${label}, audit: {time: 200, every: 10, after: label}}`,
      ),
      120,
      planOf([[0, 1]]),
      [0, 1, 0, 0, 0],
    ).map((message) => message.split(";")[0]);

  it("names no model where it takes as long on each", () => {
    expect(auditOn("{time: {a: 14, b: 14}}")).toEqual([
      "note: every 10th unit (audit) takes 214 s at S1, 94 s over its working time of 120 s",
    ]);
  });

  it("names the model that it takes longest on", () => {
    expect(auditOn("{time: {a: 14, b: 15}}")).toEqual([
      "note: every 10th unit (audit), when it is a b, takes 215 s at S1, 95 s over its working time of 120 s",
    ]);
  });
});

describe("two people who share a unit, at 60 s: t1 and t3 are done by one of them, u and t2 by the other", () => {
  const shared = (more: string) =>
    line(
      "max-crew: 2",
      "models: {a: 80 %, b: 20 %}",
      `${more}tasks:`,
      "  t1: {time: {a: 20, b: 40}}",
      "  t2: {time: {a: 20, b: 40}, after: t1}",
      "  t3: {time: {a: 10, b: 20}, after: t2}",
      "  u: 15",
    );
  /** Tasks in natural order: t1, t2, t3, u. */
  const plan = {
    stations: [
      { id: "S1", tasks: [3, 0, 1, 2], sides: null, persons: [[1], [2], [1], [2]], places: 1, crew: 2 },
    ],
  };

  it("a unit of b keeps nobody busy for more than 60 s, and stands 40 + 40 + 20 = 100 s: a note, caught up in 4 units of a, which stand 50 s", () => {
    expect(told(shared(""), 60, plan, [0, 0, 1, 0, 0])).toEqual([
      "note: a unit of b stands 100 s at S1, 40 s over the 60 s that there is for it; caught up in 4 units of a at 10 s each, before the next one comes",
    ]);
  });

  it("that is an error where work may run no farther than 39 s past the end of the station, and none at 40 s", () => {
    const severities = (room: number) =>
      findPeaks(shared(`drift-room: ${room}\n`), paceOf(60), plan, [0, 0, 1, 0, 0]).map(
        ({ severity }) => severity,
      );
    expect([severities(39), severities(40)]).toEqual([["error"], ["note"]]);
  });
});
