/** Sum of the squared gaps between each station time and `slowest`, exact. */
export function squaredGaps(loads: Iterable<number>, slowest: number): bigint {
  let sum = 0n;
  for (const load of loads) sum += BigInt(slowest - load) ** 2n;
  return sum;
}

/**
 * The least sum of squared gaps that `idle`, in whole steps, can be spread over so many stations: every station has
 * floor(idle / stations) steps, and as many as are left over have one more. No spread is smoother.
 */
export function evenestGaps(idle: bigint, stations: number, step: bigint): bigint {
  if (stations === 0) return 0n;
  const steps = idle / step;
  const each = steps / BigInt(stations);
  const more = steps % BigInt(stations);
  return ((BigInt(stations) - more) * each ** 2n + more * (each + 1n) ** 2n) * step ** 2n;
}
