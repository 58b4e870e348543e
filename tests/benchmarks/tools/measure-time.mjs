/** Work as short as this, in milliseconds, is repeated, since the first runs of a program are its slowest. */
const SHORT = 1000;
const REPEATS = 5;

/**
 * The last result of a piece of work and its milliseconds: of one run where that took a second or more, or else the median of
 * at least five that took at least `together` milliseconds.
 */
export async function measureTime(work, together = 0) {
  const times = [];
  let [result, spent] = [null, 0];
  do {
    const begin = performance.now();
    result = await work();
    times.push(performance.now() - begin);
    spent += times.at(-1);
  } while (times[0] < SHORT && (times.length < REPEATS || spent < together));
  return { result, ms: median(times) };
}

export function median(numbers) {
  return numbers.toSorted((one, two) => one - two)[numbers.length >> 1];
}
