import type { Aim, Cost } from "../cost.js";

/** What a plan that is cheaper than a ceiling may still take. */
export class Goal {
  /** The most stations that such a plan has. */
  readonly stations: number;

  /**
   * @param extraPeople people that every plan has beyond one a station
   * @param most stations that no plan exceeds
   */
  constructor(
    private readonly ceiling: Cost,
    private readonly aim: Aim,
    extraPeople: number,
    most: number,
  ) {
    this.stations = Math.min(most, this.stationsLeft(0, 0, extraPeople));
  }

  /**
   * The most stations that may follow a partial plan of so many people and stations, one person at each at least and `extra` people
   * beyond that; below 1 where none may.
   */
  stationsLeft(people: number, stations: number, extra: number): number {
    const { ceiling } = this;
    const fewer = { people: ceiling.people - 1 - people - extra, stations: ceiling.stations - 1 - stations };
    // Fewer of what comes first, or as much of it and fewer of what comes next.
    const [first, second] = this.aim.map((name) => fewer[name]) as [number, number];
    return Math.max(first, Math.min(first + 1, second));
  }

  /** The most people that may follow; endless where stations come first. */
  peopleLeft(people: number, stations: number): number {
    const { ceiling } = this;
    if (this.aim[0] !== "people") return Number.POSITIVE_INFINITY;
    return ceiling.people - people - (ceiling.stations - 1 > stations ? 0 : 1);
  }
}
