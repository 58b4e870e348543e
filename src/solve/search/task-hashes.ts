/** One pseudo-random 32-bit number a task (Zobrist 1970); always the same, so that equal input gives equal output. */
export function taskHashes(size: number): Int32Array {
  let seed = 0x9e3779b9;
  return new Int32Array(size).map(() => {
    seed = (seed + 0x6d2b79f5) | 0;
    let mixed = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return mixed ^ (mixed >>> 14);
  });
}
