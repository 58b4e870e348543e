import { compareNaturally } from "../../findings/natural-order.js";
import type { Line } from "../../line/line.js";
import { trainingFor } from "../../line/parts/training.js";
import type { Plan, Station } from "../../plan/plan.js";
import { type Seat, skilledPlaces } from "../../plan/verify/skilled-places.js";
import { skillsNeeded, whoStandsWhere } from "../../plan/who-stands-where.js";
import type { Micros } from "../../time/units.js";

/** A station or bench whose work needs skills. */
export interface SkilledPlace {
  readonly id: string;
  readonly kind: "station" | "bench";
  readonly skills: readonly string[];
  /** People who work there at a time. */
  readonly needed: number;
  /** One way to staff it by name; empty where no names are known. */
  readonly assigned: readonly string[];
  /** Others who have every skill that somebody there needs. */
  readonly standIns: readonly string[];
}

/** What one of the people is to a place. */
export type Fitness =
  | { readonly kind: "works-here" }
  /** As whom: none where they can as anybody of the place, null as one beside others who have the skills. */
  | { readonly kind: "can"; readonly as: readonly Seat[] }
  /** Of the work of the one there that asks least of them. */
  /** Training is null where the file does not say how long it takes. */
  | { readonly kind: "lacks"; readonly skills: readonly string[]; readonly training: Micros | null };

export interface SkilledPerson {
  readonly id: string;
  readonly skills: readonly string[];
  /** By place. */
  readonly at: readonly Fitness[];
}

/** Who has which skill, against what each station and bench needs. */
export interface TrainingMatrix {
  /** Every skill that work needs or somebody has, in natural order. */
  readonly skills: readonly string[];
  readonly places: readonly SkilledPlace[];
  readonly people: readonly SkilledPerson[];
}

/** Null where no task needs a skill and nobody has one. */
export function trainingMatrix(line: Line, { stations, benches = [] }: Plan): TrainingMatrix | null {
  const named = whoStandsWhere(line, stations);
  const all = [
    ...stations.map((station) => ({ station, kind: "station" as const })),
    ...benches.map((station) => ({ station, kind: "bench" as const })),
  ].filter(({ station }) => skillsNeeded(line, station).length > 0);
  const skills = new Set([
    ...all.flatMap(({ station }) => skillsNeeded(line, station)),
    ...line.people.flatMap((each) => each.skills),
  ]);
  if (skills.size === 0) return null;
  const places = all.map(({ station, kind }): SkilledPlace => {
    const needs = skillsNeeded(line, station);
    const assigned = kind === "station" ? (named?.get(station.id) ?? []).map(({ name }) => name) : [];
    const able = line.people.filter((each) => fitnessOf(line, station, each.skills).kind === "can");
    return {
      id: station.id,
      kind,
      skills: [...needs].sort(compareNaturally),
      needed: station.crew * station.places,
      assigned,
      standIns: able.map(({ id }) => id).filter((id) => !assigned.includes(id)),
    };
  });
  return {
    skills: [...skills].sort(compareNaturally),
    places,
    people: line.people.map(({ id, skills: own }) => ({
      id,
      skills: own,
      at: places.map((place, at): Fitness => {
        if (place.assigned.includes(id)) return { kind: "works-here" };
        return fitnessOf(line, all[at]!.station, own);
      }),
    })),
  };
}

/** Somebody of a place, and the skills that they need. */
interface SeatAsked {
  readonly seat: Seat;
  readonly skills: readonly string[];
}

/** Whether somebody with these skills can be any of the people of a place, or one of them, or what they lack for that. */
function fitnessOf(line: Line, station: Station, own: readonly string[]): Fitness {
  const lackingAt = ({ skills }: SeatAsked) => skills.filter((skill) => !own.includes(skill));
  const ways = seatsAsked(line, station).map((seats) =>
    seats.map(({ seat, skills }) => ({ seat, lacking: lackingAt({ seat, skills }) })),
  );
  if (ways.every((seats) => seats.every(({ lacking }) => lacking.length === 0)))
    return { kind: "can", as: [] };
  const all = ways.flat();
  const able = all.filter(({ lacking }) => lacking.length === 0).map(({ seat }) => seat);
  if (able.length > 0) return { kind: "can", as: [...new Set(able)] };
  const { lacking } = all.reduce((one, two) => (two.lacking.length < one.lacking.length ? two : one));
  const unlearnt = station.tasks.filter((task) =>
    line.tasks[task]!.skills.some((skill) => lacking.includes(skill)),
  );
  const { time, unknown } = trainingFor(line, unlearnt, new Set(own));
  const inOrder = lacking.toSorted(compareNaturally);
  return { kind: "lacks", skills: inOrder, training: unknown.length > 0 ? null : time };
}

/** Each way in which the people of a place may have the skills of its work, those who need none among them. */
function seatsAsked(line: Line, station: Station): readonly (readonly SeatAsked[])[] {
  const [place] = skilledPlaces(line, [station]);
  // Where nobody has what some task asks, the place is judged as a whole.
  if (place === undefined || place.ways.length === 0)
    return [[{ seat: null, skills: skillsNeeded(line, station) }]];
  const { crew, persons, sides } = station;
  const everybody: readonly Seat[] = [...Array(crew).keys()].map((at) => {
    if (persons !== null) return at + 1;
    return sides === null || crew < 2 || at > 1 ? null : at === 0 ? "left" : "right";
  });
  return place.ways.map((way) => {
    const left = [...everybody];
    for (const { seat } of way) left.splice(left.indexOf(seat), 1);
    return [...way, ...left.map((seat) => ({ seat, skills: [] }))];
  });
}
