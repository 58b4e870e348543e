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
  const draw = startDrawing(size);
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

/**
 * Whole numbers from 0 to below `end`, drawn by the multiplicative generator modulo 2^31 - 1. Source of the multiplier: S. K.
 * Park and K. W. Miller, Communications of the ACM 36 (1993) 7, p. 105.
 */
function startDrawing(seed) {
  const modulus = 2 ** 31 - 1;
  let state = seed % modulus;
  return (end) => {
    state = (state * 48271) % modulus;
    return Math.floor((state / modulus) * end);
  };
}
