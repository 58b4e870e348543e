/**
 * The exact rate of an unpaced line with exponential times: the stationary distribution of its Markov chain. The state is how many units each
 * station has handed on that the next one has not finished; blocking after service.
 *
 * @param rates of the stations
 * @param buffers places between each station and the next
 */
export function exactRate(rates: readonly number[], buffers: readonly number[]): number {
  const stations = rates.length;
  const isBlocked = (state: readonly number[], station: number): boolean =>
    station < stations - 1 &&
    state[station]! === buffers[station]! + 1 + (isBlocked(state, station + 1) ? 0 : 1);
  const works = (state: readonly number[], station: number) =>
    (station === 0 || state[station - 1]! > 0) && !isBlocked(state, station);
  const states = [buffers.map(() => 0)];
  const numbers = new Map([[String(states[0]), 0]]);
  const moves: { from: number; to: number; rate: number }[] = [];
  for (let from = 0; from < states.length; from++) {
    const state = states[from]!;
    for (const [station, rate] of rates.entries()) {
      if (!works(state, station)) continue;
      const next = [...state];
      if (station > 0) next[station - 1]!--;
      if (station < stations - 1) next[station]!++;
      if (!numbers.has(String(next))) {
        numbers.set(String(next), states.length);
        states.push(next);
      }
      moves.push({ from, to: numbers.get(String(next))!, rate });
    }
  }
  const fastest = rates.reduce((sum, rate) => sum + rate, 0);
  let shares = states.map(() => 1 / states.length);
  for (let turn = 0; turn < 5000; turn++) {
    const next = [...shares];
    for (const { from, to, rate } of moves) {
      const part = (shares[from]! * rate) / fastest;
      next[from]! -= part;
      next[to]! += part;
    }
    shares = next;
  }
  return states.reduce(
    (sum, state, at) => sum + (works(state, stations - 1) ? shares[at]! * rates.at(-1)! : 0),
    0,
  );
}
