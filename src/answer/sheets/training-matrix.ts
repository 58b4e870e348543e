import { compareNaturally } from "../../findings/natural-order.js";
import type { Line } from "../../line/line.js";
import { trainingFor } from "../../line/parts/training.js";
import type { Plan } from "../../plan/plan.js";
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
  /** Others who have every skill of it. */
  readonly standIns: readonly string[];
}

/** What one of the people is to a place. */
export type Fitness =
  | { readonly kind: "works-here" }
  | { readonly kind: "can" }
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
    const able = line.people.filter((each) => needs.every((skill) => each.skills.includes(skill)));
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
        const lacking = place.skills.filter((skill) => !own.includes(skill));
        if (lacking.length === 0) return { kind: "can" };
        const unlearnt = all[at]!.station.tasks.filter((task) =>
          line.tasks[task]!.skills.some((skill) => lacking.includes(skill)),
        );
        const { time, unknown } = trainingFor(line, unlearnt, new Set(own));
        return { kind: "lacks", skills: lacking, training: unknown.length > 0 ? null : time };
      }),
    })),
  };
}
