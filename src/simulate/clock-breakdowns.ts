import type { Breakdowns } from "../line/line.js";
import type { Micros } from "../time/duration.js";
import { drawTime, type Stream } from "./draw-times.js";

/** Told of each stretch of a while in which a place is up or down. */
type Tell = (isDown: boolean, from: Micros, to: Micros) => void;

/**
 * Breakdowns of the places of a station that come by the clock of the line, whether it works or not: up times and down times follow each
 * other. Each place is asked in order of time.
 */
export class ClockBreakdowns {
  /** The breakdown of each place that goes on, or comes next. */
  private readonly next: { from: Micros; to: Micros }[];

  constructor(
    private readonly means: Breakdowns,
    places: number,
    private readonly stream: Stream,
  ) {
    this.next = Array.from({ length: places }, () => this.after(0));
  }

  /** A while in which the place has nothing to work. */
  pass(place: number, from: Micros, to: Micros, tell: Tell): void {
    let now = from;
    while (now < to) {
      const { from: begins, to: ends } = this.at(place, now);
      const until = Math.min(to, now < begins ? begins : ends);
      tell(now >= begins, now, until);
      now = until;
    }
  }

  /** Works so long while it is up; gives when that is done. */
  work(place: number, from: Micros, takes: Micros, tell: Tell): Micros {
    let [now, left] = [from, takes];
    while (left > 0) {
      const { from: begins, to: ends } = this.at(place, now);
      const isDown = now >= begins;
      const until = isDown ? ends : Math.min(now + left, begins);
      tell(isDown, now, until);
      if (!isDown) left -= until - now;
      now = until;
    }
    return now;
  }

  private at(place: number, now: Micros): { from: Micros; to: Micros } {
    while (this.next[place]!.to <= now) this.next[place] = this.after(this.next[place]!.to);
    return this.next[place]!;
  }

  private after(now: Micros): { from: Micros; to: Micros } {
    const from = now + drawTime(this.means.every, this.stream);
    return { from, to: from + drawTime(this.means.lasts, this.stream) };
  }
}
