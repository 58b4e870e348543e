/** What an unpaced line with exponential times does in the long run. */
export interface ExactLine {
  /** Units that leave it in the unit of time of the rates. */
  readonly rate: number;
  /** Units in the line, those that are worked and those that are blocked included. */
  readonly inLine: number;
}

export const exactRate = (rates: readonly number[], buffers: readonly number[]): number =>
  exactLine(rates, buffers).rate;

/**
 * The stationary distribution of the Markov chain of such a line, by powers of its matrix until nothing moves. The state is how many units each
 * station has handed on that the next one has not finished; blocking after service.
 *
 * @param rates of the stations
 * @param buffers places between each station and the next
 */
export function exactLine(rates: readonly number[], buffers: readonly number[]): ExactLine {
  const stations = rates.length;
  const isBlocked = (state: readonly number[], station: number): boolean =>
    station < stations - 1 &&
    state[station]! === buffers[station]! + 1 + (isBlocked(state, station + 1) ? 0 : 1);
  const works = (state: readonly number[], station: number) =>
    (station === 0 || state[station - 1]! > 0) && !isBlocked(state, station);
  const states = [buffers.map(() => 0)];
  const numbers = new Map([[String(states[0]), 0]]);
  const [from, to, chance]: [number[], number[], number[]] = [[], [], []];
  const fastest = rates.reduce((sum, rate) => sum + rate, 0);
  for (let at = 0; at < states.length; at++) {
    const state = states[at]!;
    for (const [station, rate] of rates.entries()) {
      if (!works(state, station)) continue;
      const next = [...state];
      if (station > 0) next[station - 1]!--;
      if (station < stations - 1) next[station]!++;
      if (!numbers.has(String(next))) {
        numbers.set(String(next), states.length);
        states.push(next);
      }
      from.push(at);
      to.push(numbers.get(String(next))!);
      chance.push(rate / fastest);
    }
  }
  const moves = [Int32Array.from(from), Int32Array.from(to), Float64Array.from(chance)] as const;
  let shares = new Float64Array(states.length).fill(1 / states.length);
  for (let moved = 1; moved > 1e-11; ) {
    const next = Float64Array.from(shares);
    for (let at = 0; at < moves[0].length; at++) {
      const part = shares[moves[0][at]!]! * moves[2][at]!;
      next[moves[0][at]!]! -= part;
      next[moves[1][at]!]! += part;
    }
    moved = shares.reduce((sum, share, at) => sum + Math.abs(next[at]! - share), 0);
    shares = next;
  }
  const meanOf = (of: (state: readonly number[]) => number) =>
    states.reduce((sum, state, at) => sum + shares[at]! * of(state), 0);
  return {
    rate: meanOf((state) => (works(state, stations - 1) ? rates.at(-1)! : 0)),
    // The first station always has a unit, which is one of those handed on while it is blocked.
    inLine: meanOf((state) => state.reduce((sum, each) => sum + each, isBlocked(state, 0) ? 0 : 1)),
  };
}
