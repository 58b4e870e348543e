import { drawFromSeed } from "../../tools/floors/draw-from-seed.mjs";

/** The station limit of every made line. */
export const LIMIT = 1000;

/**
 * How a line is knit: up to three predecessors for a task, from `fewest` on, each among the tasks at most `reach` before it. In
 * the narrow line most tasks wait for most of the earlier ones, in the wide one few do.
 */
export const SHAPES = {
  narrow: { fewest: 1, reach: () => 20 },
  wide: { fewest: 0, reach: (size) => Math.ceil(size / 2) },
};

/** Task times: of all lengths and mostly short, or each from a quarter to half of the limit, which is hard to pack. */
const TIMES = {
  mixed: (draw) => 1 + Math.min(draw(600), draw(600)),
  hard: (draw) => LIMIT / 4 + draw(LIMIT / 4 + 1),
};

/** A line of `size` tasks, the same for the same words. */
export function makeLine(size, shape, kind = "mixed") {
  const draw = drawFromSeed(size);
  const reach = SHAPES[shape].reach(size);
  const times = Array.from({ length: size }, () => TIMES[kind](draw));
  const before = times.map((_, task) => {
    const count = SHAPES[shape].fewest + draw(4 - SHAPES[shape].fewest);
    const chosen = Array.from(
      { length: task === 0 ? 0 : count },
      () => task - 1 - draw(Math.min(task, reach)),
    );
    return [...new Set(chosen)].sort((one, two) => one - two);
  });
  return { times, before, limit: LIMIT };
}
