import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Line, Task } from "../../../src/line/line.js";
import { cycleOfPost } from "../../../src/plan/figures/cycle.js";
import { crewOf, ONE_PERSON, type Station, type StationSide } from "../../../src/plan/plan.js";
import { postsOf } from "../../../src/plan/post.js";
import { dwellAt, equipmentTimes, meanTimeAt, modelTime } from "../../../src/plan/station-schedule.js";
import { workOfMix, workOfModel } from "../../../src/plan/verify/unit-work.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { paceFromCycle } from "../../../src/time/pace.js";
import {
  add,
  ceiling,
  compare,
  divide,
  larger,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../../src/time/ratio.js";
import { floorLine, s } from "../../tools/floor-line.js";

const SEED = 20_261;
const RUNS = { seed: SEED, numRuns: 600 };

/** A station with everything that makes it a schedule: tasks that run machines and keep rigs, arrows, models, every n-th unit, visits. */
interface StationCase {
  readonly line: Line;
  readonly station: Station;
}

const NAMES = ["a", "b", "c", "d", "e", "f"];

const anyTask = fc.record({
  time: fc.integer({ min: 0, max: 30 }),
  other: fc.option(fc.integer({ min: 0, max: 30 })),
  walking: fc.constantFrom(0, 0, 3),
  machine: fc.constantFrom(0, 0, 10, 25),
  rigs: fc.constantFrom([], [], ["rig"], ["rig"], ["jig"], ["jig", "rig"]),
  people: fc.constantFrom(1, 1, 1, 2),
  every: fc.constantFrom(1, 1, 1, 2, 3),
  again: fc.constantFrom(ONE, ONE, ratio(5, 4)),
  before: fc.array(fc.boolean(), { minLength: NAMES.length, maxLength: NAMES.length }),
  person: fc.nat(1),
  side: fc.constantFrom<StationSide>("left", "right"),
});

const anyStation: fc.Arbitrary<StationCase> = fc
  .record({
    tasks: fc.array(anyTask, { minLength: 1, maxLength: NAMES.length }),
    isMixed: fc.boolean(),
    way: fc.constantFrom("together", "shared", "sides"),
    places: fc.constantFrom(1, 1, 2),
    holds: fc.constantFrom(1, 1, 2),
    order: fc.shuffledSubarray([...NAMES.keys()], { minLength: NAMES.length }),
  })
  .map(({ tasks, isMixed, way, places, holds, order }) => {
    // Arrows lead from what is listed earlier to what is listed later.
    const listed = order.filter((at) => at < tasks.length);
    const rows = tasks.map(({ time, before }, at) => {
      const needs = listed.slice(0, listed.indexOf(at)).filter((each) => before[each] && before[5 - each]);
      return [`${NAMES[at]} ${time}`, ...needs.map((each) => NAMES[each])].join(" ");
    });
    const models = [
      { id: "city", share: ratio(2, 3) },
      { id: "cargo", share: ratio(1, 3) },
    ];
    const termsOf = ({
      time,
      other,
      walking,
      machine,
      rigs,
      people,
      every,
      again,
      side,
    }: (typeof tasks)[number]) => {
      const sideOf = way === "sides" ? ({ side } as Pick<Task, "side">) : {};
      const times = isMixed ? { times: [s(time), other === null ? null : s(other)] } : {};
      const terms = {
        walking: s(walking),
        machineTime: s(machine),
        equipment: rigs,
        people,
        every,
        visits: again,
      };
      return { ...terms, ...sideOf, ...times };
    };
    const line = floorLine(rows, {
      ...(isMixed ? { models } : {}),
      tasks: Object.fromEntries(tasks.map((task, at) => [NAMES[at], termsOf(task)])),
      equipment: { jig: 2, rig: 1 },
      maxPlaces: 2,
      maxCrew: way === "shared" ? 2 : 1,
      holds,
    });
    const own = listed.map((at) => tasks[at]!);
    const said = {
      tasks: listed,
      sides: way === "sides" ? own.map(({ people, side }) => (people > 1 ? ("both" as const) : side)) : null,
      persons:
        way === "shared" ? own.map(({ people, person }) => (people > 1 ? [1, 2] : [person + 1])) : null,
    };
    return { line, station: { ...ONE_PERSON, id: "S1", ...said, places, crew: crewOf(line, said) } };
  });

const same = ({ num, den }: Ratio) => ratio(num, den);

describe("A station as a schedule", () => {
  it("comes to the same for the figures and for the verifier, which share no code: dwell, hands and what is kept of equipment", () => {
    const seen = { together: 0, shared: 0, sides: 0, held: 0, circular: 0 };
    fc.assert(
      fc.property(anyStation, ({ line, station }) => {
        const work = workOfMix(line, station);
        if (work === null) {
          seen.circular++;
          return;
        }
        const models = line.models.length === 0 ? [0] : line.models.map((_, model) => model);
        expect(dwellAt(line, station)).toEqual(same(work.allDone));
        const held = equipmentTimes(line, station);
        expect([...held].map(([name, time]) => [name, time])).toEqual(
          [...work.held].map(([name, time]) => [name, same(time)]),
        );
        if (station.sides !== null) {
          const loads = station.tasks.map((task) => line.tasks[task]!.load);
          const ofSide = (side: string) =>
            loads.filter((_, at) => ["both", side].includes(station.sides![at]!)).reduce(add, ZERO);
          expect(meanTimeAt(line, station)).toEqual(larger(ofSide("left"), ofSide("right")));
          // Longer than a unit of the model stands, shared by the units at the place, only where a side is busy for longer.
          for (const model of models) {
            const stands = divide(same(workOfModel(line, station, model)!.allDone), ratio(line.holds));
            expect(compare(modelTime(line, station, model), stands)).toBeGreaterThanOrEqual(0);
            if (line.holds === 1) expect(modelTime(line, station, model)).toEqual(stands);
          }
        }
        seen[station.sides !== null ? "sides" : station.persons !== null ? "shared" : "together"]++;
        if ([...held.values()].some((time) => compare(time, ZERO) > 0)) seen.held++;
      }),
      RUNS,
    );
    expect(Object.values(seen).every((count) => count > 30)).toBe(true);
  });

  it("passes the verifier at the cycle of the plan, and not a microsecond below it", () => {
    let checked = 0;
    fc.assert(
      fc.property(anyStation, ({ line, station }) => {
        const isAsked = ({ rule }: { rule: string }) =>
          ["load", "sides", "dwell", "equipment-hold", "order"].includes(rule);
        const faultsAt = (micros: number) =>
          verifyPlan(line, paceFromCycle(micros), { stations: [station] }, false).filter(isAsked);
        fc.pre(faultsAt(s(100_000)).length === 0);
        // What each station has of the equipment hangs on the pace: as much as exists below all of its needs.
        const [post] = postsOf(line, paceFromCycle(1), { stations: [station] });
        const cycle = cycleOfPost(post!);
        fc.pre(compare(cycle, ONE) > 0);
        const micros = Number(ceiling(cycle));
        expect(faultsAt(micros)).toEqual([]);
        if (compare(ratio(micros - 1), cycle) < 0) {
          expect(faultsAt(micros - 1)).not.toEqual([]);
          checked++;
        }
      }),
      { ...RUNS, numRuns: 300 },
    );
    expect(checked).toBeGreaterThan(100);
  });

  it("stands for less than the sum of its times where hands work while a machine runs", () => {
    const anyOverlap = fc.record({
      load: fc.integer({ min: 1, max: 30 }),
      runs: fc.integer({ min: 1, max: 60 }),
      others: fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 4 }),
    });
    fc.assert(
      fc.property(anyOverlap, ({ load, runs, others }) => {
        const rows = [`a ${load}`, ...others.map((time, at) => `${NAMES[at + 1]} ${time}`)];
        const line = floorLine(rows, { tasks: { a: { machineTime: s(runs) } } });
        const station = { ...ONE_PERSON, id: "S1", tasks: [...line.tasks.keys()] };
        const hands = others.reduce((sum, each) => sum + each, 0);
        expect(dwellAt(line, station)).toEqual(ratio(s(load + Math.max(runs, hands))));
        expect(compare(dwellAt(line, station), ratio(s(load + runs + hands)))).toBeLessThan(0);
      }),
      RUNS,
    );
  });

  it("is never kept for longer than a unit stands there, and stands no shorter than its busiest person works", () => {
    fc.assert(
      fc.property(anyStation, ({ line, station }) => {
        fc.pre(workOfMix(line, station) !== null);
        const dwell = dwellAt(line, station);
        expect(compare(dwell, meanTimeAt(line, station))).toBeGreaterThanOrEqual(0);
        const longest = [...equipmentTimes(line, station).values()].reduce(larger, ZERO);
        expect(compare(subtract(dwell, longest), ZERO)).toBeGreaterThanOrEqual(0);
      }),
      RUNS,
    );
  });

  it("never stands longer where the tasks after a machine go to a station of their own", () => {
    let split = 0;
    fc.assert(
      fc.property(anyStation, ({ line: drawn, station }) => {
        // A rig that several tasks keep may be held once by all of them, and by each in turn without the task that joins them.
        const line = withoutSharedEquipment(drawn);
        const machine = station.tasks.find((task) => line.tasks[task]!.machineTime > 0);
        fc.pre(machine !== undefined);
        const after = followersOf(line, machine!);
        fc.pre(after.size > 0);
        split++;
        const parts = [true, false].map((isAfter) => partOf(station, (task) => after.has(task) === isAfter));
        for (const part of parts)
          expect(compare(dwellAt(line, part), dwellAt(line, station))).toBeLessThanOrEqual(0);
      }),
      RUNS,
    );
    expect(split).toBeGreaterThan(100);
  });
});

function withoutSharedEquipment(line: Line): Line {
  const isFirst = (task: number, name: string) =>
    !line.tasks.slice(0, task).some(({ equipment }) => equipment.includes(name));
  const tasks = line.tasks.map((task, at) => ({
    ...task,
    equipment: task.equipment.filter((name) => isFirst(at, name)),
  }));
  return { ...line, tasks };
}

function followersOf(line: Line, from: number): ReadonlySet<number> {
  const found = new Set<number>();
  const isBehind = (task: number) =>
    !found.has(task) && line.before[task]!.some((each) => each === from || found.has(each));
  for (let next = line.before.findIndex((_, task) => isBehind(task)); next >= 0; ) {
    found.add(next);
    next = line.before.findIndex((_, task) => isBehind(task));
  }
  return found;
}

/** Some tasks of a station, done by the same people in the same order. */
function partOf(station: Station, isIn: (task: number) => boolean): Station {
  const kept = [...station.tasks.keys()].filter((at) => isIn(station.tasks[at]!));
  const part = <Each>(all: readonly Each[] | null) => all && kept.map((at) => all[at]!);
  return {
    ...station,
    tasks: part(station.tasks)!,
    sides: part(station.sides),
    persons: part(station.persons),
  };
}
