import { compareNaturally } from "../../findings/natural-order.js";
import type { ListedPart } from "../../line/line.js";
import type { RoundedUp } from "../../plan/figures/parts.js";
import { add, compare, type Ratio, ZERO } from "../../time/ratio.js";

/** The parts at one station, bench or table. */
interface PartsAtPost {
  readonly id: string;
  readonly parts: readonly { readonly part: ListedPart; readonly quantity: RoundedUp }[];
}

/** A quantity of a part at one station, bench or table. */
export interface QuantityAt {
  readonly post: string;
  readonly quantity: Ratio;
}

/** A part that one plan has elsewhere, or in another number, than the other. */
export interface MovedPart {
  readonly part: ListedPart;
  readonly before: readonly QuantityAt[];
  readonly after: readonly QuantityAt[];
  readonly totalBefore: Ratio;
  readonly totalAfter: Ratio;
  /** Whether both totals are the same. */
  readonly isAlike: boolean;
}

/** The parts whose places or numbers differ between two plans, by natural order of part numbers. */
export function movedParts(before: readonly PartsAtPost[], after: readonly PartsAtPost[]): MovedPart[] {
  const parts = new Map(
    [...before, ...after].flatMap((post) => post.parts).map(({ part }) => [part.id, part]),
  );
  return [...parts.values()]
    .sort((one, two) => compareNaturally(one.id, two.id))
    .map((part) => movedPart(part, before, after))
    .filter(({ before: from, after: to }) => !isSame(from, to));
}

const isSame = (one: readonly QuantityAt[], two: readonly QuantityAt[]): boolean =>
  one.length === two.length &&
  one.every(({ post, quantity }, at) => post === two[at]!.post && compare(quantity, two[at]!.quantity) === 0);

function movedPart(
  part: ListedPart,
  before: readonly PartsAtPost[],
  after: readonly PartsAtPost[],
): MovedPart {
  const placesOfPart = (posts: readonly PartsAtPost[]): QuantityAt[] =>
    posts.flatMap(({ id, parts }) =>
      parts.flatMap((each) =>
        each.part.id === part.id ? [{ post: id, quantity: each.quantity.exact }] : [],
      ),
    );
  const [from, to] = [placesOfPart(before), placesOfPart(after)];
  const [totalBefore, totalAfter] = [totalOf(from), totalOf(to)];
  return {
    part,
    before: from,
    after: to,
    totalBefore,
    totalAfter,
    isAlike: compare(totalBefore, totalAfter) === 0,
  };
}

const totalOf = (all: readonly QuantityAt[]): Ratio => all.map(({ quantity }) => quantity).reduce(add, ZERO);
