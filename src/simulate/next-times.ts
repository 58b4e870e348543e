import type { Micros } from "../time/duration.js";

const NEVER = Number.POSITIVE_INFINITY;

/**
 * When the places of a line are done, and which is first: a tree of winners (Knuth, The Art of Computer Programming 3, 5.4.1), so that a
 * line of thousands of places asks few of them. Of places that are done at the same moment that of the latest station is first, and its
 * first place.
 */
export class NextTimes {
  private readonly stations: Int32Array;
  private readonly places: Int32Array;
  /** Where the first place of each station is among all places. */
  private readonly starts: readonly number[];
  private readonly times: Float64Array;
  /** Winners, from 1 at the root; the places are the leaves. */
  private readonly winners: Int32Array;
  private readonly width: number;

  /** @param places of each station, along the line; nobody works there yet */
  constructor(places: readonly number[]) {
    const inOrder = [...places.entries()]
      .reverse()
      .flatMap(([station, count]) => Array.from({ length: count }, (_, place) => [station, place] as const));
    this.stations = Int32Array.from(inOrder, ([station]) => station);
    this.places = Int32Array.from(inOrder, ([, place]) => place);
    this.starts = places.map((_, station) => this.stations.indexOf(station));
    this.width = 2 ** Math.ceil(Math.log2(Math.max(1, inOrder.length)));
    this.times = new Float64Array(this.width).fill(NEVER);
    this.winners = new Int32Array(2 * this.width);
    for (let at = 0; at < this.width; at++) this.winners[this.width + at] = at;
    for (let node = this.width - 1; node > 0; node--) this.winners[node] = this.winners[2 * node]!;
  }

  /** Infinity where nobody works. */
  at(station: number, place: number): Micros {
    return this.times[this.starts[station]! + place]!;
  }

  set(station: number, place: number, time: Micros): void {
    const { times, winners } = this;
    const own = this.starts[station]! + place;
    times[own] = time;
    for (let node = (this.width + own) >> 1; node > 0; node >>= 1) {
      const [left, right] = [winners[2 * node]!, winners[2 * node + 1]!];
      winners[node] = times[right]! < times[left]! ? right : left;
    }
  }

  /** The station and the place that are done first; the last station where nobody works. */
  first(): { readonly station: number; readonly place: number; readonly time: Micros } {
    const first = this.winners[1]!;
    return { station: this.stations[first]!, place: this.places[first]!, time: this.times[first]! };
  }
}
