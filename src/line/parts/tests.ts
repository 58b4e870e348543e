import * as z from "zod";
import { larger, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { readShareOfSome } from "../../time/share.js";
import type { NumberOf } from "../ids.js";
import { RETESTS, type Test } from "../line.js";
import { type StandingTask, withFloorOrder } from "../order-by-floor.js";
import { type Before, isLoopFree } from "../precedence.js";
import { allFollowers } from "../reach.js";
import type { Draft, TextDraft } from "../read/draft.js";
import { choice, named, type TimeLeaf, text } from "../read/leaf.js";
import { readChoice } from "../text-values.js";
import { type UnitsOfLine, type Visits, visitsOf } from "../visits.js";
import { type ByModel, byModelSchema, valuesByModel } from "./by-model.js";
import { buildWindow, type FloorDraft, type PlaceKeys } from "./floor.js";
import { type ModelsDraft, sharesOf, sumOfAmounts } from "./models.js";
import { everyOf, modelTimes, type PieceTime } from "./piece-times.js";

/** What becomes of the units that a test finds faulty. */
export function testSchema(time: TimeLeaf) {
  return z
    .strictObject({
      fail: byModelSchema(
        text,
        "share",
        {
          all: "Share of the units tested that fail, of every model.",
          one: 'Share of its units tested that fail, or "-" where none does.',
          whole:
            "Share of the tested units that fail and are repaired, above 0 % and below 100 %. Or a map with that of every model.",
        },
        readShareOfSome,
      ).optional(),
      repair: time("other-time", "Time of one repair, beside the line. It goes with `fail`.").optional(),
      "return-to": named(
        "Where a repaired unit starts again: a task before the test, or the test itself. It goes with `fail`.",
      ).optional(),
      retest: choice(
        "choice",
        "How repaired units are tested: until-good, once (good for certain) or scrap (scrapped when they fail again). Default: until-good.",
        RETESTS,
        readChoice("a retest", RETESTS),
      ).optional(),
      scrap: text(
        "share",
        "Share of the tested units that are scrapped, in place of `fail`.",
        readShareOfSome,
      ).optional(),
    })
    .meta({
      description: "A test and its failures: {fail: 3 %, repair: 6 min, return-to: TASK}, or {scrap: 10 %}.",
    });
}

/** What tests ask of a task. */
interface TestedTask {
  readonly pieceTimes: readonly PieceTime[];
  readonly keys: PlaceKeys & {
    readonly zone?: TextDraft<string>;
    readonly every?: TextDraft<number>;
    readonly quantity?: ByModel<number>;
    readonly people?: ByModel<number>;
    readonly test?: Draft<ReturnType<typeof testSchema>>;
  };
}

/** The tests of a line as far as they make sense. */
export interface TestsDraft {
  /** For each task its test, null where there is none or it is faulty. */
  readonly tests: readonly (Test | null)[];
  /** Tests that send units back to a task which does not come before them, by task. */
  readonly wrongReturns: readonly number[];
  /** Arrows with those that the floor adds: what is done before what, in every plan. */
  readonly ordered: Before;
  /** null where loops leave no order, or where the numbers grow beyond use. */
  readonly visits: Visits | null;
}

export function draftTests(
  tasks: readonly TestedTask[],
  numberOf: NumberOf,
  before: Before,
  models: ModelsDraft,
  floor: FloorDraft,
): TestsDraft {
  const all = tasks.map((task) => draftTest(task, numberOf, models));
  if (!isLoopFree(before)) return { tests: all, wrongReturns: [], ordered: before, visits: null };
  const returns = all.map((test) => (test?.failures === "repaired" ? test.returnTo : null));
  const isBack = returns.some((to, task) => to !== null && to !== task);
  const followers = isBack ? allFollowers(before) : null;
  const wrongReturns = [...all.keys()].filter((task) => {
    const to = returns[task]!;
    return to !== null && to !== task && !followers!.has(to, task);
  });
  const tests = all.map((test, task) => (wrongReturns.includes(task) ? null : test));
  const isTest = tests.map((test) => test !== null);
  const ordered = withFloorOrder(
    before,
    isTest,
    tasks.map((task) => draftWindow(task, floor)),
    floor.stations.map(({ keys }) => keys.zone?.value ?? null),
  );
  const visits = visitsOf(before, tests, draftUnits(tasks, models), ordered);
  return { tests, wrongReturns, ordered, visits };
}

/** Where a task may stand; what could not be read says nothing. */
function draftWindow({ keys }: TestedTask, floor: FloorDraft): StandingTask {
  const { stations, notBefore, notAfter } = buildWindow(keys, floor);
  return {
    stations: stations?.some((each) => each === undefined) ? null : stations,
    notBefore: notBefore ?? null,
    notAfter: notAfter ?? null,
    zone: keys.zone?.value ?? null,
  };
}

/** Equal shares stand in for shares that could not be read. */
function draftUnits(tasks: readonly TestedTask[], models: ModelsDraft): UnitsOfLine {
  const count = Math.max(1, models.models.length);
  const sum = sumOfAmounts(models);
  const isRead = models.models.length === 0 || (sum !== null && sum.value.num > 0n);
  const shares = isRead ? sharesOf(models) : Array<Ratio>(count).fill(ratio(1, count));
  const times = tasks.map((task) => modelTimes(task, models));
  return {
    every: tasks.map(everyOf),
    models: shares.map((share, model) => ({ share, has: times.map((each) => each[model] !== null) })),
  };
}

/** A test of a task, or null where its keys do not make one. */
function draftTest({ keys: { test } }: TestedTask, numberOf: NumberOf, models: ModelsDraft): Test | null {
  if (test === undefined) return null;
  const { fail, repair, retest, scrap, "return-to": returnTo } = test.at;
  if (scrap !== undefined && fail === undefined) return { failures: "scrapped", scrap: scrap.value };
  const to = returnTo && numberOf(returnTo.value);
  if (fail === undefined || repair === undefined || to === undefined) return null;
  const fails = valuesByModel(fail, ZERO, models).map((share) => share ?? ZERO);
  return {
    failures: "repaired",
    fail: fails.reduce(larger),
    ...(fail.kind === "record" && { failByModel: fails }),
    repair: repair.value,
    returnTo: to,
    retest: retest?.value ?? "until-good",
  };
}
