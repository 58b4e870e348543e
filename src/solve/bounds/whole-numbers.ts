/** amount / divisor rounded down; exact for whole numbers up to 2^53, where a plain quotient may round up. */
export function wholeDivision(amount: number, divisor: number): number {
  return (amount - (amount % divisor)) / divisor;
}

/** amount / divisor rounded up, exact in the same way. */
export function ceilingDivision(amount: number, divisor: number): number {
  return wholeDivision(amount, divisor) + (amount % divisor > 0 ? 1 : 0);
}
