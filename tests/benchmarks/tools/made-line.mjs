/** The station limit of every made line. */
export const LIMIT = 1000;

/** How far back a predecessor may be: some 20 tasks for a long and narrow line, half of all tasks for a wide one. */
export const SHAPES = {
  narrow: () => 20,
  wide: (size) => Math.ceil(size / 2),
};

/**
 * A line of `size` tasks, the same for the same size and shape: times from 1 to 600, mostly short, and up to 3 predecessors
 * each among the tasks not far before it.
 */
export function makeLine(size, shape) {
  const draw = startDrawing(size);
  const reach = SHAPES[shape](size);
  const times = Array.from({ length: size }, () => 1 + Math.min(draw(600), draw(600)));
  const before = times.map((_, task) => {
    const chosen = Array.from(
      { length: task === 0 ? 0 : draw(4) },
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
