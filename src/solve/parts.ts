import type { Line } from "../line/line.js";
import { leastCommonMultiple, multiply, type Ratio, ratio } from "../time/ratio.js";
import { type ShowTime, showTimesIn } from "../time/show-in-unit.js";
import { sideRows, timesAgain, weightsOf } from "./side-rows.js";

/**
 * Into how many equal parts a microsecond is cut so that the load of every task is a whole number of parts: the unit of
 * times in every solver. 1 on a plain line; more where shares of failures or of models make fractions.
 */
export function partsOf(line: Line): bigint {
  const known = PARTS.get(line) ?? countParts(line);
  PARTS.set(line, known);
  return known;
}

/** Asked for with every time that is turned into parts or back. */
const PARTS = new WeakMap<Line, bigint>();

function countParts(line: Line): bigint {
  // Times of one model and runs of machines are looked at one by one, not only as a mean.
  const isSingle = line.modelOverload !== null || line.equipment.size > 0;
  const ofTasks = line.tasks.flatMap(({ load, visits }) => [
    load.den,
    ...(isSingle ? visits.map(({ den }) => den) : []),
  ]);
  const isSided = line.tasks.some(({ side }) => side !== null);
  return [...ofTasks, ...(isSided ? partsOfSides(line) : [])].reduce(leastCommonMultiple, 1n);
}

/** Worked from two sides, each model and each kind of its units counts with its share. */
function partsOfSides(line: Line): bigint[] {
  const weights = weightsOf(line);
  const densOf = (model: number, part: Ratio) => [part.den, multiply(weights[model]!, part).den];
  return [
    ...sideRows(line).flatMap(({ model, ofModel, times }) =>
      times.flatMap((each) => densOf(model, multiply(ofModel, each))),
    ),
    ...timesAgain(line).flatMap((times, model) => times.flatMap((each) => densOf(model, each))),
  ];
}

/** A number of parts as microseconds. */
export function fromParts(line: Line, parts: number): Ratio {
  return ratio(BigInt(parts), partsOf(line));
}

/** Shows times that are counted in parts, in the unit the engineer works in. */
export function showPartsOf(line: Line): ShowTime {
  const [show, parts] = [showTimesIn(line.unit), partsOf(line)];
  return (value) => {
    const exact = typeof value === "number" ? ratio(value) : value;
    return show(ratio(exact.num, exact.den * parts));
  };
}

/** The loads of all tasks in parts; exact up to 2^53, beyond that the search refuses them by name. */
export function loadsInParts(line: Line): number[] {
  const parts = partsOf(line);
  return line.tasks.map(({ load }) => Number(load.num * (parts / load.den)));
}
