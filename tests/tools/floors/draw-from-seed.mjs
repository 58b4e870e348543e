/**
 * Whole numbers from 0 to below `end`, the same for the same seed from 1: the multiplicative generator modulo 2^31 - 1. Source of the
 * multiplier: S. K. Park and K. W. Miller, Communications of the ACM 36 (1993) 7, p. 105.
 */
export function drawFromSeed(seed) {
  const modulus = 2 ** 31 - 1;
  let state = seed % modulus;
  return (end) => {
    state = (state * 48271) % modulus;
    return Math.floor((state / modulus) * end);
  };
}

export const pick = (draw, list) => list[draw(list.length)];

/** True once in so many draws. */
export const onceIn = (draw, many) => draw(many) === 0;
