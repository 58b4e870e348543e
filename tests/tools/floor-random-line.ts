import fc from "fast-check";
import type { Line, Side } from "../../src/line/line.js";
import type { Pace } from "../../src/time/pace.js";
import { multiply, ONE, type Ratio, ratio, subtract } from "../../src/time/ratio.js";
import { type FloorTerms, floorLine, s, type TaskTerms } from "./floor-line.js";

/** A small line with rules of the shop floor, and the pace to balance it at. */
export interface FloorCase {
  readonly line: Line;
  readonly pace: Pace;
  readonly strictLimit: boolean;
}

export interface FloorCaseTerms {
  readonly fewest: number;
  readonly most: number;
  /** Worked from two sides. */
  readonly isSided?: boolean;
  /** Without a floor, and so without anything that depends on where along it a task stands. */
  readonly isWithoutFloor?: boolean;
  /** Only so many tasks, the first ones, have rules of their own; more of them at once seldom leave a plan. */
  readonly ruledTasks?: number;
  /** One place at every station. */
  readonly hasOnePlace?: boolean;
  /** Failures have tasks done again, and units lose time to handling at each pass. */
  readonly isHandledAgain?: boolean;
  /** Every station is loaded up to its whole working time, so that no task stands alone above a limit. */
  readonly isFull?: boolean;
}

/** Seconds of the line cycle; tasks of lines with one place a station take no longer. */
export const CYCLE = 30;

/** A pace with a cycle of so many seconds. */
export function paceWith(cycle: number, handling = 0, planTo = ONE): Pace {
  const lineCycle = ratio(s(cycle));
  const workingTime = subtract(lineCycle, ratio(s(handling)));
  const stationLimit = multiply(workingTime, planTo);
  return { takt: null, lineCycle, handling: s(handling), planTo, workingTime, stationLimit };
}

/** Mostly nothing, now and then a value. */
const seldom = <T, N>(value: fc.Arbitrary<T>, none: N): fc.Arbitrary<T | N> =>
  fc.oneof({ weight: 3, arbitrary: fc.constant(none) }, { weight: 1, arbitrary: value });

const number = (min: number, max: number) => fc.integer({ min, max });
const zone = fc.constantFrom("paint", "assembly");
const skills = fc.subarray(["brakes", "wheels"], { minLength: 1 });
const share = fc.constantFrom(ratio(9, 10), ratio(3, 4));

const taskDraw = fc.record({
  seconds: fc.oneof(number(0, CYCLE), number(8, 17)),
  otherModel: fc.option(number(0, CYCLE)),
  earlier: fc.array(number(1, 4), { maxLength: 2 }),
  people: seldom(fc.constant(2), 1),
  side: fc.constantFrom<Side>("left", "right", "either", "either"),
  zone: seldom(zone, null),
  needsPress: seldom(fc.constant(true), false),
  machineSeconds: seldom(number(5, 2 * CYCLE), 0),
  skills: seldom(skills, []),
  every: seldom(number(2, 3), 1),
  at: seldom(seldom(fc.uniqueArray(number(0, 3), { minLength: 1, maxLength: 2 }), null), null),
  notBefore: seldom(number(0, 3), null),
  notAfter: seldom(seldom(number(0, 3), null), null),
});

const stationDraw = fc.record({
  zone: seldom(zone, null),
  hasPress: fc.boolean(),
  skills,
  maxPlaces: seldom(number(1, 3), null),
  planTo: seldom(share, null),
});

const pair = fc.tuple(number(0, 11), number(0, 11));

const lineDraw = fc.record({
  floor: fc.oneof(
    fc.array(stationDraw, { maxLength: 0 }),
    fc.array(stationDraw, { minLength: 2, maxLength: 4 }),
  ),
  maxPlaces: fc.constantFrom(1, 1, 2, 3),
  presses: fc.option(number(1, 3)),
  staff: fc.constantFrom("people", "floor", "nobody"),
  people: fc.array(skills, { minLength: 1, maxLength: 3 }),
  together: fc.array(pair, { maxLength: 1 }),
  apart: fc.array(pair, { maxLength: 2 }),
  waits: fc.array(fc.tuple(pair, number(1, 2)), { maxLength: 1 }),
  overload: seldom(fc.constantFrom(ratio(0), ratio(1, 5), ratio(1, 2)), null),
  handling: fc.constantFrom<number>(0, 0, 2),
  planTo: seldom(share, ONE),
  strictLimit: fc.boolean(),
  /** Kinds of rules that this line has. */
  has: fc.record({
    windows: fc.boolean(),
    zones: fc.boolean(),
    equipment: fc.boolean(),
    skills: fc.boolean(),
    groups: fc.boolean(),
    people: fc.boolean(),
  }),
});

type TaskDraw = typeof taskDraw extends fc.Arbitrary<infer T> ? T : never;
type LineDraw = typeof lineDraw extends fc.Arbitrary<infer T> ? T : never;

/** Lines on which some rules are at work at once, feasible or not; tasks t1, t2, ... with arrows to larger numbers. */
export function floorCases(terms: FloorCaseTerms): fc.Arbitrary<FloorCase> {
  const tasks = fc.array(taskDraw, { minLength: terms.fewest, maxLength: terms.most });
  if (terms.isHandledAgain) {
    const visits = fc.array(fc.constantFrom(ONE, ONE, ratio(11, 10), ratio(5, 4), ratio(3, 2)), {
      minLength: terms.most,
      maxLength: terms.most,
    });
    return fc
      .tuple(tasks, lineDraw, visits, fc.constantFrom(1, 2, 5))
      .map(([rows, drawn, often, handling]) =>
        toCase(rows, { ...drawn, handling }, { ...terms, visits: often }),
      );
  }
  if (!terms.isSided) return fc.tuple(tasks, lineDraw).map(([rows, drawn]) => toCase(rows, drawn, terms));
  // Each model has times of its own at either side, whether it is held one by one or not; some work is done again.
  return fc
    .tuple(tasks, lineDraw, fc.boolean(), fc.constantFrom(ONE, ONE, ratio(11, 10)))
    .map(([rows, drawn, isHeld, often]) => toCase(rows, drawn, { ...terms, holdsModels: isHeld, often }));
}

interface CaseTerms extends FloorCaseTerms {
  readonly holdsModels?: boolean;
  /** How often failures have every other task done that needs no machine. */
  readonly often?: Ratio;
  /** How often failures have each task done that needs no machine. */
  readonly visits?: readonly Ratio[];
}

function toCase(rows: readonly TaskDraw[], drawn: LineDraw, terms: CaseTerms): FloorCase {
  const maxPlaces = terms.hasOnePlace ? 1 : drawn.maxPlaces;
  const isModel = drawn.overload !== null;
  const floor = terms.isWithoutFloor ? [] : drawn.floor;
  const ids = rows.map((_, at) => `t${at + 1}`);
  const pairsOf = (pairs: readonly (readonly [number, number])[]) => {
    const known = new Set(
      pairs.map(([one, two]) => [one % rows.length, two % rows.length].sort((a, b) => a - b).join()),
    );
    return [...known]
      .map((each) => each.split(",").map((task) => ids[Number(task)]!))
      .flatMap(([one, two]) => (one === two ? [] : [[one!, two!] as const]));
  };
  const waits = drawn.waits.flatMap(([each, stations]) =>
    pairsOf([each]).map(([on, after]) => ({ on, after, stations })),
  );
  // Longer tasks need several places.
  const stretch = maxPlaces > 1 && floor.length === 0 ? 2 : 1;
  const fullRows = rows.map(({ seconds, earlier }, at) => {
    const before = earlier.flatMap((back) => (at - back >= 0 ? [ids[at - back]!] : []));
    const waited = waits.flatMap(({ on, after }) => (after === ids[at] ? [on] : []));
    return [ids[at], seconds * stretch, ...new Set([...before, ...waited])].join(" ");
  });
  const line = floorLine(fullRows, {
    tasks: Object.fromEntries(rows.map((row, at) => [ids[at]!, toTask(row, drawn, floor.length, terms, at)])),
    floor: floor.map((station, at) => ({
      id: `S${at + 1}`,
      zone: drawn.has.zones ? station.zone : null,
      equipment: drawn.has.equipment && station.hasPress ? ["press"] : [],
      skills: drawn.has.skills && drawn.staff === "floor" ? station.skills : null,
      maxPlaces: terms.hasOnePlace ? null : station.maxPlaces,
      planTo: terms.isFull ? null : station.planTo,
    })),
    ...staffOf(drawn),
    maxPlaces,
    equipment: drawn.presses === null ? {} : { press: drawn.presses },
    together: drawn.has.groups ? pairsOf(drawn.together) : [],
    apart: drawn.has.groups ? pairsOf(drawn.apart) : [],
    waits,
    ...(isModel ? modelsOf(drawn, terms.holdsModels ?? true) : {}),
  });
  const pace = paceWith(CYCLE, drawn.handling, terms.isFull ? ONE : drawn.planTo);
  return { line, pace, strictLimit: drawn.strictLimit };
}

const NOTHING: LineDraw["has"] = {
  windows: false,
  zones: false,
  equipment: false,
  skills: false,
  groups: false,
  people: false,
};

function toTask(row: TaskDraw, drawn: LineDraw, stations: number, terms: CaseTerms, task: number): TaskTerms {
  const has = task < (terms.ruledTasks ?? task + 1) ? drawn.has : NOTHING;
  const within = (at: number | null) => (has.windows && at !== null && at < stations ? at : null);
  const at = row.at?.filter((each) => within(each) !== null).sort((one, two) => one - two) ?? [];
  const needsPress = has.equipment && row.needsPress;
  const isModel = drawn.overload !== null;
  const other = row.otherModel === null ? null : s(row.otherModel);
  return {
    ...(isModel ? { times: [s(row.seconds), other] } : {}),
    people: has.people ? row.people : 1,
    side: terms.isSided ? row.side : null,
    zone: has.zones ? row.zone : null,
    equipment: needsPress ? ["press"] : [],
    machineTime: needsPress ? s(row.machineSeconds) : 0,
    skills: has.skills ? row.skills : [],
    every: row.every,
    ...(task % 2 === 0 && !needsPress ? { visits: terms.often ?? ONE } : {}),
    ...(terms.visits && !needsPress ? { visits: terms.visits[task]! } : {}),
    stations: at.length > 0 ? at : null,
    notBefore: within(row.notBefore),
    notAfter: within(row.notAfter),
  };
}

function staffOf({ has, staff, people }: LineDraw): Pick<FloorTerms, "people"> {
  return has.skills && staff === "people"
    ? { people: people.map((each, at) => ({ id: `person ${at + 1}`, skills: each })) }
    : {};
}

const modelsOf = ({ overload }: LineDraw, isHeld: boolean): Pick<FloorTerms, "models" | "modelOverload"> => ({
  models: [
    { id: "city", share: ratio(3, 5) },
    { id: "cargo", share: ratio(2, 5) },
  ],
  modelOverload: isHeld ? overload : null,
});
