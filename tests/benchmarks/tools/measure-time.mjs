/** A run as short as this is repeated, since the first runs of a program are its slowest. */
const SHORT = 1000;
const REPEATS = 5;

/**
 * The last result of a piece of work and its milliseconds: of one run, or the median of five where the first took less than
 * a second.
 */
export async function measureTime(work) {
  const times = [];
  let result;
  do {
    const begin = performance.now();
    result = await work();
    times.push(performance.now() - begin);
  } while (times[0] < SHORT && times.length < REPEATS);
  return { result, ms: median(times) };
}

export function median(numbers) {
  return numbers.toSorted((one, two) => one - two)[numbers.length >> 1];
}
