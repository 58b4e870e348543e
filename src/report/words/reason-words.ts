import { listOf } from "../../findings/list-of.js";
import type { TimeSum } from "../../solve/explain/binding-times.js";
import type { Reason } from "../../solve/explain/explain-infeasible.js";
import type { Ratio } from "../../time/ratio.js";
import { showSumIn, showTimesApart, showTimesIn } from "../../time/show-in-unit.js";
import { signOf } from "../../time/show-numbers.js";
import { decimal, percent } from "../../time/show-values.js";
import type { TimeUnit } from "../../time/units.js";

/** What no plan can keep, in a clause without a full stop: "P is fixed to S1". */
export function reasonClause(unit: TimeUnit | null, reason: Reason): string {
  switch (reason.kind) {
    case "fixed":
      return `${reason.task} is fixed to ${reason.stations.join(" or ")}`;
    case "not-before":
      return `${reason.task} may not stand before ${reason.station}`;
    case "not-after":
      return `${reason.task} may not stand after ${reason.station}`;
    case "zone":
      return `${reason.task} needs the zone ${reason.zone}${holderWords(reason)}`;
    case "equipment":
      return `${reason.task} needs ${reason.equipment}${holderWords(reason)}`;
    case "skills":
      return `${reason.task} needs the skill ${reason.skills.join(" and ")}${holderWords(reason)}`;
    case "uses": {
      const inShift =
        reason.inShift === null ? "" : `, ${amountWords(reason.inShift, reason.unit)} in a shift`;
      return `${reason.task} uses ${amountWords(reason.amount, reason.unit)} of ${reason.limit}${inShift}`;
    }
    case "several-people":
      return `${reason.task} needs ${reason.people} people at once`;
    case "side":
      return `${reason.task} is done on the ${reason.side}`;
    case "together":
      return `${listOf(reason.tasks)} share a station (together)`;
    case "apart":
      return `no two of ${listOf(reason.tasks)} share a station (apart)`;
    case "wait": {
      const later =
        reason.stations === 1 ? "at a later station" : `${reason.stations} stations later or more`;
      return `${reason.to} waits for ${reason.from}, so it stands ${later}`;
    }
    case "counted-equipment":
      return `only ${reason.count} ${reason.equipment} ${reason.count === 1 ? "exists" : "exist"}`;
    case "limit":
      return reason.of.map((each) => limitWords(reason.name, each)).join(", ");
    case "people": {
      const who = reason.people.map(({ id, skills }) => `${id}: ${skills.join(", ") || "none"}`).join("; ");
      const rule = reason.several
        ? "at each task one of its people has all its skills, and nobody is at two places"
        : "at each place one person has all that its tasks need";
      return `the people listed have these skills (${who}); ${rule}`;
    }
    case "model-overload":
      return "no model may exceed its stated overload";
    case "order":
      return `${reason.from} comes before ${reason.to}`;
    case "hands": {
      const what = reason.isWorkingTime ? "the working time of a station" : "the limit of a station";
      const whose =
        reason.persons === 1 || reason.tasks.length === 1 ? "" : ` for each of ${reason.persons} people`;
      return `${sumWords(unit, reason, " against ")}, ${what}${whose}${placesWords(reason.places)}`;
    }
    case "keep-pace": {
      const show = showTimesIn(unit);
      const { asked, deviation, limit, tasks } = reason;
      const held = tasks.map(
        ({ task, time }, at) => `${task} (${show(time)}, deviation ${show(reason.deviations[at]!)})`,
      );
      const together = tasks.length === 1 ? "" : `, together ${show(reason.total)} and ${show(deviation)}`;
      const ofModel = reason.model === null ? "" : ` of ${reason.model}`;
      // What it comes to stands beside the limit: so many places of the one as it takes of the other.
      const [needed, most] = showTimesApart(unit, reason.needed, limit);
      return `${listOf(held)}${ofModel}${together}: mean + ${decimal(asked.score, 10)} x deviation = ${needed}, above ${most}, the working time of a station${placesWords(reason.places)}, which is to be kept with ${percent(asked.chance, 4)}`;
    }
    case "dwell": {
      const show = showTimesIn(unit);
      const [total, limit] = showTimesApart(unit, reason.total, reason.limit);
      const held = reason.tasks.map(({ task, time, machine }) =>
        signOf(machine) === 0
          ? `${task} (${show(time)})`
          : `${task} (${show(time)} and ${show(machine)} of machine)`,
      );
      const units = reason.holds === 1 ? "" : ` where a place holds ${reason.holds} units`;
      const places = reason.places === 1 ? "" : ` with ${reason.places} places`;
      return `for ${listOf(held)} a unit stands ${total} at the least, and it may stand ${limit} at a station${places}${units}`;
    }
    case "model": {
      const { model, overload, places } = reason;
      const more = signOf(overload) === 0 ? "" : ` and the ${percent(overload, 4)} more that is allowed`;
      return `${model} alone: ${sumWords(unit, reason, " against ")}, the working time of a station${more}${placesWords(places)}`;
    }
    case "between":
      return `${reason.task} lies between them (${reason.chain.join(" -> ")}), so it stands there too`;
    case "crowd":
      return `${sumWords(unit, reason, ", above ")}, the limit of a station${placesWords(reason.places)}`;
  }
}

/** The stations that have what a task needs. */
function holderWords({ holders }: { readonly holders: readonly string[] | null }): string {
  if (holders === null) return "";
  if (holders.length === 0) return ", which no station has";
  return `, which only ${holders.join(", ")} ${holders.length === 1 ? "has" : "have"}`;
}

/** "a station has 1.2 m of shelf", "W1 has 2000 kg of lifted-mass for a person in a shift". */
function limitWords(
  name: string,
  { station, perPerson, perShift, most, unit }: Extract<Reason, { kind: "limit" }>["of"][number],
): string {
  const who = station ?? (perPerson ? "a person" : "a station");
  const whose = station !== null && perPerson ? " for a person" : "";
  return `${who} has ${amountWords(most, unit)} of ${name}${whose}${perShift ? " in a shift" : ""}`;
}

const amountWords = (amount: Ratio, unit: string): string =>
  unit === "" ? decimal(amount, 6) : `${decimal(amount, 6)} ${unit}`;

/** "a (40 s) + b (35 s) = 75 s against 60 s". */
function sumWords(
  unit: TimeUnit | null,
  { tasks, limit }: TimeSum & { readonly limit: Ratio },
  against: string,
): string {
  const { terms, total, beside } = showSumIn(
    unit,
    tasks.map(({ time }) => time),
    limit,
  );
  const sum = tasks.map(({ task }, at) => `${task} (${terms[at]})`).join(" + ");
  return `${sum}${tasks.length === 1 ? "" : ` = ${total}`}${against}${beside[0]}`;
}

/** Says that more places are allowed than the limit before it is for. */
const placesWords = (most: number): string => (most === 1 ? "" : ` at one place (${most} are allowed)`);
