import { distinctKinds, mostOfPerson, mostOfStation, placesAlone, type Work } from "../work.js";

/**
 * How many people and stations the blocks left need at the least. Work content: nobody works more than the best place allows a
 * person. Dual feasible functions (Martello & Toth's L2; Fekete & Schepers 2001) where every station has one place: blocks that
 * fit a station together never weigh more than 1, and a station of several people weighs each of them.
 */
export class PeopleBound {
  /** Weights of each block, one row a function, in whole numbers of `capacities`. */
  private readonly people: Float64Array[] = [];
  private readonly stations: Float64Array[] = [];
  private readonly peopleCapacity: number[] = [];
  private readonly stationCapacity: number[] = [];

  constructor(private readonly problem: Work) {
    const perPerson = mostOfPerson(problem);
    const kinds = distinctKinds(problem);
    const perStation = mostOfStation(problem);
    this.addPeople(perPerson, (block) =>
      Math.min(
        problem.work[block]!,
        perPerson * problem.people[block]! * placesAlone(kinds, problem.loads[block]!),
      ),
    );
    this.addStations(perStation, (block) => Math.min(problem.loads[block]!, perStation));
    if (kinds.some(({ limits, atOnce }) => limits.length > 1 || atOnce > 1)) return;
    const limit = perStation;
    for (const threshold of this.thresholds(limit)) {
      const weight = (block: number) => {
        const load = Math.min(problem.loads[block]!, limit);
        return load > limit - threshold ? limit : load < threshold ? 0 : load;
      };
      this.addPeople(limit, (block) => weight(block) * problem.people[block]!);
      this.addStations(limit, weight);
    }
  }

  private addPeople(capacity: number, weight: (block: number) => number): void {
    this.people.push(Float64Array.from({ length: this.problem.size }, (_, block) => weight(block)));
    this.peopleCapacity.push(capacity);
  }

  private addStations(capacity: number, weight: (block: number) => number): void {
    this.stations.push(Float64Array.from({ length: this.problem.size }, (_, block) => weight(block)));
    this.stationCapacity.push(capacity);
  }

  /** The distinct loads up to half the limit at which a function differs, a few of them, and half the limit itself. */
  private thresholds(limit: number): number[] {
    const small = [...new Set(this.problem.loads)]
      .filter((load) => load > 0 && 2 * load <= limit)
      .sort((one, two) => one - two);
    const step = Math.max(1, Math.floor(small.length / MOST_THRESHOLDS));
    return [...small.filter((_, at) => at % step === 0).slice(0, MOST_THRESHOLDS), Math.floor(limit / 2)];
  }

  /** The least people and stations for the blocks left; 0 and 0 where none is left. */
  of(left: readonly number[]): { readonly people: number; readonly stations: number } {
    if (left.length === 0) return { people: 0, stations: 0 };
    const crew = left.reduce((most, block) => Math.max(most, this.problem.people[block]!), 1);
    return {
      people: most(this.people, this.peopleCapacity, left, crew),
      stations: most(this.stations, this.stationCapacity, left, 1),
    };
  }
}

const MOST_THRESHOLDS = 12;

function most(
  weights: readonly Float64Array[],
  capacities: readonly number[],
  left: readonly number[],
  least: number,
): number {
  let bound = least;
  for (const [at, row] of weights.entries()) {
    let total = 0;
    for (const block of left) total += row[block]!;
    bound = Math.max(bound, Math.ceil(total / capacities[at]!));
  }
  return bound;
}
