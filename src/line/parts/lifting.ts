import * as z from "zod";
import { NUMBER, readNumber } from "../../time/exact-number.js";
import { explainNumberSlip } from "../../time/number-slips.js";
import { quoted } from "../../time/quoted.js";
import {
  add,
  compare,
  divide,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import { GRIPS, LIFT_TIMES, type Lifting, type LiftTime } from "../line.js";
import type { ObjectDraft } from "../read/draft.js";
import { choice, text, textOrNumber } from "../read/leaf.js";
import { readChoice } from "../text-values.js";

/** Where the hands of a lift are, for the figures of the revised NIOSH lifting equation. */
export const liftingKeysOfTask = () => ({
  lifting: z
    .strictObject({
      reach: text(
        "distance",
        "How far the hands are from the middle between the ankles, such as 40 cm.",
        readDistance,
      ),
      from: text("distance", "Height of the hands above the floor where the lift starts.", readDistance),
      to: text("distance", "Height of the hands above the floor where it ends.", readDistance),
      turn: text(
        "angle",
        "How far the body is turned to the side, such as 30 deg. Default: 0 deg.",
        readAngle,
      ).optional(),
      grip: choice(
        "choice",
        "How well the hands hold it: good, fair or poor, as the equation says.",
        GRIPS,
        readChoice("a grip", GRIPS),
      ),
      "per-minute": textOrNumber(
        "lifts",
        "Lifts a minute. Default: as often as the task is performed at the pace.",
        readPerMinute,
      ).optional(),
      lasts: choice(
        "choice",
        "How long such lifting lasts: up to 1 h, 2 h or 8 h, with the rest that the equation asks for. Default: 8 h.",
        LIFT_TIMES,
        readChoice("a time of lifting", LIFT_TIMES),
      ).optional(),
    })
    .meta({
      description:
        "Where the hands are in a lift by one person with both hands. `sheets` shows the figures of the lifting equation. They are no verdict.",
    })
    .optional(),
});

const CENTIMETRES: Readonly<Record<string, Ratio>> = { mm: ratio(1, 10), cm: ONE, m: ratio(100) };
const DISTANCE = new RegExp(`^(${NUMBER})\\s*(mm|cm|m)$`, "u");

/** A distance such as `40 cm`, in centimetres. */
function readDistance(typed: string): Reading<Ratio> {
  const trimmed = typed.trim();
  const expected = "a number and mm, cm or m, such as 40 cm";
  if (trimmed === "") return refuse(`a distance is missing (blank is never 0): write ${expected}`);
  const [, number = "", unit = ""] = DISTANCE.exec(trimmed) ?? [];
  const value = readNumber(number);
  if (value !== null) return accept(multiply(value, CENTIMETRES[unit]!));
  return refuse(`${quoted(trimmed)} is not a distance: ${explainNumberSlip(trimmed) ?? `write ${expected}`}`);
}

const ANGLE = new RegExp(`^(${NUMBER})\\s*deg$`, "u");

/** An angle such as `30 deg`, at most half a turn. */
function readAngle(typed: string): Reading<Ratio> {
  const trimmed = typed.trim();
  const value = readNumber(ANGLE.exec(trimmed)?.[1] ?? "");
  if (value !== null && compare(value, ratio(180)) <= 0) return accept(value);
  return refuse(`${quoted(trimmed)} is not an angle: write 0 deg to 180 deg, such as 30 deg`);
}

/** Lifts a minute, above 0. */
function readPerMinute(typed: string): Reading<Ratio> {
  const value = readNumber(typed.trim());
  if (value !== null && value.num > 0n) return accept(value);
  return refuse(
    `${quoted(typed.trim())} is not a number of lifts a minute: ${explainNumberSlip(typed.trim()) ?? "write one above 0, such as 0.5"}`,
  );
}

type LiftingKeys = ObjectDraft<ReturnType<typeof liftingKeysOfTask>>["at"];

/** The lift of a task of a draft without errors; null where it says nothing of its distances. */
export function buildLifting({ lifting }: LiftingKeys, mass: string | undefined): Lifting | null {
  if (lifting === undefined || mass === undefined) return null;
  const { at } = lifting;
  return {
    mass: readNumber(mass.replace("kg", "").trim())!,
    reach: at.reach!.value,
    from: at.from!.value,
    to: at.to!.value,
    turn: at.turn?.value ?? ZERO,
    grip: at.grip!.value,
    perMinute: at["per-minute"]?.value ?? null,
    lasts: at.lasts?.value ?? "8 h",
  };
}

/** The factors of the equation at one end of a lift, each from 0 to 1, and what they make; masses in kg. */
export interface LiftFigures {
  readonly at: "start" | "end";
  readonly horizontal: Ratio;
  readonly vertical: Ratio;
  readonly distance: Ratio;
  readonly asymmetry: Ratio;
  readonly frequency: Ratio;
  readonly coupling: Ratio;
  /** The recommended weight limit: 23 kg x all factors. */
  readonly limit: Ratio;
  /** Mass / limit; null where the limit is 0, as the lift lies outside of what the equation covers. */
  readonly index: Ratio | null;
}

/** The load constant in kg. */
const LOAD_CONSTANT = ratio(23);

/**
 * The revised NIOSH lifting equation: recommended weight limit and lifting index at the start and at the end of a lift. T. R. Waters, V.
 * Putz-Anderson, A. Garg, Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, 1994, revised 2021. The
 * frequency of the table that is next above counts, which gives no higher limit.
 *
 * @param perMinute lifts a minute
 */
export function liftFigures(lift: Lifting, perMinute: Ratio): LiftFigures[] {
  const { mass, reach, from, to, turn } = lift;
  const travel = compare(to, from) >= 0 ? subtract(to, from) : subtract(from, to);
  const ends = [
    { at: "start", height: from },
    { at: "end", height: to },
  ] as const;
  return ends.map(({ at, height }) => {
    const isHigh = compare(height, ratio(75)) >= 0;
    const horizontal = compare(reach, ratio(63)) > 0 ? ZERO : divide(ratio(25), larger(reach, ratio(25)));
    const vertical =
      compare(height, ratio(175)) > 0 ? ZERO : subtract(ONE, multiply(ratio(3, 1000), fromKnuckles(height)));
    const distance =
      compare(travel, ratio(175)) > 0
        ? ZERO
        : add(ratio(82, 100), divide(ratio(45, 10), larger(travel, ratio(25))));
    const asymmetry = compare(turn, ratio(135)) > 0 ? ZERO : subtract(ONE, multiply(ratio(32, 10_000), turn));
    const frequency = frequencyMultiplier(perMinute, lift.lasts, isHigh);
    const coupling = COUPLING[lift.grip][isHigh ? 1 : 0];
    const limit = [horizontal, vertical, distance, asymmetry, frequency, coupling].reduce(
      multiply,
      LOAD_CONSTANT,
    );
    const index = limit.num === 0n ? null : divide(mass, limit);
    return { at, horizontal, vertical, distance, asymmetry, frequency, coupling, limit, index };
  });
}

/** How far a height is from 75 cm, where hands hang. */
const fromKnuckles = (height: Ratio): Ratio =>
  compare(height, ratio(75)) >= 0 ? subtract(height, ratio(75)) : subtract(ratio(75), height);

/** By grip: for hands below 75 cm, and from there on. */
const COUPLING: Readonly<Record<Lifting["grip"], readonly [Ratio, Ratio]>> = {
  good: [ONE, ONE],
  fair: [ratio(95, 100), ONE],
  poor: [ratio(90, 100), ratio(90, 100)],
};

/** Hundredths by the most lifts a minute, for up to 1 h, 2 h and 8 h; two where hands below 75 cm and from there on differ. */
const FREQUENCY: readonly (readonly [Ratio, ...(number | readonly [number, number])[]])[] = [
  [ratio(1, 5), 100, 95, 85],
  [ratio(1, 2), 97, 92, 81],
  [ratio(1), 94, 88, 75],
  [ratio(2), 91, 84, 65],
  [ratio(3), 88, 79, 55],
  [ratio(4), 84, 72, 45],
  [ratio(5), 80, 60, 35],
  [ratio(6), 75, 50, 27],
  [ratio(7), 70, 42, 22],
  [ratio(8), 60, 35, 18],
  [ratio(9), 52, 30, [0, 15]],
  [ratio(10), 45, 26, [0, 13]],
  [ratio(11), 41, [0, 23], 0],
  [ratio(12), 37, [0, 21], 0],
  [ratio(13), [0, 34], 0, 0],
  [ratio(14), [0, 31], 0, 0],
  [ratio(15), [0, 28], 0, 0],
];

function frequencyMultiplier(perMinute: Ratio, lasts: LiftTime, isHigh: boolean): Ratio {
  const row = FREQUENCY.find(([most]) => compare(perMinute, most) <= 0);
  if (row === undefined) return ZERO;
  const cell = row[1 + LIFT_TIMES.indexOf(lasts)] as number | readonly [number, number];
  return ratio(typeof cell === "number" ? cell : cell[isHigh ? 1 : 0], 100);
}
