/** Pseudo-random whole numbers from 0 to below `end`, the same sequence every time (Marsaglia 2003: xorshift). */
export function drawNumbers(): (end: number) => number {
  let state = 0x2545f491;
  return (end) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % end;
  };
}
