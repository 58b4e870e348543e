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

/** Chances of failing and of being repaired in a cycle. */
interface FailingMachine {
  readonly fails: number;
  readonly repaired: number;
}

/**
 * Two machines of equal, sure cycles that fail only while they work, in discrete time: what both make in a cycle, and the units between them. All
 * places between the two count, that of the second machine and that of a unit which the first one cannot hand on among them.
 *
 * @param most units between them
 */
export function exactFailing(first: FailingMachine, second: FailingMachine, most: number): ExactLine {
  interface State {
    readonly units: number;
    readonly isUp: readonly boolean[];
  }
  const works = ({ units }: State, machine: number) => (machine === 0 ? units < most : units > 0);
  const chanceUp = (state: State, machine: number) => {
    const { fails, repaired } = machine === 0 ? first : second;
    if (!state.isUp[machine]) return repaired;
    return works(state, machine) ? 1 - fails : 1;
  };
  // Only what can come to be: a machine without units does not fail.
  const states: State[] = [{ units: 1, isUp: [true, true] }];
  const numbers = new Map([[JSON.stringify(states[0]), 0]]);
  const to: (readonly [number, number])[][] = [];
  for (const state of states) {
    const own: [number, number][] = [];
    for (const one of [true, false])
      for (const two of [true, false]) {
        const [upOne, upTwo] = [chanceUp(state, 0), chanceUp(state, 1)];
        const chance = (one ? upOne : 1 - upOne) * (two ? upTwo : 1 - upTwo);
        if (chance === 0) continue;
        const made = Number(one && works(state, 0)) - Number(two && works(state, 1));
        const next = { units: state.units + made, isUp: [one, two] };
        const key = JSON.stringify(next);
        if (!numbers.has(key)) {
          numbers.set(key, states.length);
          states.push(next);
        }
        own.push([numbers.get(key)!, chance]);
      }
    to.push(own);
  }
  const moves = to.map((own) => {
    const row = new Float64Array(states.length);
    for (const [at, chance] of own) row[at]! += chance;
    return row;
  });
  const shares = stationary(moves);
  const meanOf = (of: (state: State) => number) =>
    states.reduce((sum, state, at) => sum + shares[at]! * of(state), 0);
  return {
    rate: meanOf((state) => (works(state, 1) ? chanceUp(state, 1) : 0)),
    inLine: meanOf(({ units }) => units),
  };
}

/** By elimination of the states from the last on: W. K. Grassmann, M. I. Taksar, D. P. Heyman, Operations Research 33 (1985), from memory. */
function stationary(moves: readonly Float64Array[]): number[] {
  for (let last = moves.length - 1; last > 0; last--) {
    const row = moves[last]!;
    let out = 0;
    for (let to = 0; to < last; to++) out += row[to]!;
    for (let from = 0; from < last; from++) {
      const part = moves[from]![last]! / out;
      moves[from]![last] = part;
      if (part > 0) for (let to = 0; to < last; to++) moves[from]![to]! += part * row[to]!;
    }
  }
  const shares = [1];
  for (let at = 1; at < moves.length; at++)
    shares.push(shares.reduce((sum, share, from) => sum + share * moves[from]![at]!, 0));
  const whole = shares.reduce((sum, share) => sum + share, 0);
  return shares.map((share) => share / whole);
}
