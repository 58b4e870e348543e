import type { NamedShortage } from "../../answer/balance/obstacle.js";
import { countOf } from "../../findings/count-of.js";
import { eitherOf, listOf } from "../../findings/list-of.js";
import { showTimesApart, showTimesIn } from "../../time/show-in-unit.js";
import type { TimeUnit } from "../../time/units.js";

/** A shortage in a clause: "25 tasks must be done by A60: 1957 s of work, 6 stations hold 1752 s". */
export function shortageWords(unit: TimeUnit | null, shortage: NamedShortage): string {
  const { kind, model } = shortage;
  const [work, capacity] = showTimesApart(unit, shortage.work, shortage.capacity);
  const alone = model === null ? "" : `${model} alone: `;
  const tasks = tasksWords(shortage.tasks);
  if (kind === "machine") {
    const { name, count } = shortage;
    const verb = shortage.tasks.length === 1 ? "keeps" : "keep";
    return `${tasks} ${verb} ${name} busy: ${work} for a unit, ${count} x ${name} ${count === 1 ? "has" : "have"} ${capacity}`;
  }
  if (shortage.single !== null) {
    const least = `no two of them fit the ${showTimesIn(unit)(shortage.single)} of a station`;
    return `${tasks} ${placeWords(shortage)}: ${least}, and there ${shortage.stations.length === 1 ? "is" : "are"} ${countOf(shortage.stations.length, "station")}${heldWords(shortage)}`;
  }
  const counted = wholeWords(shortage);
  const sum = `${work} of work${counted}, ${holderWords(shortage)} ${capacity}`;
  return `${alone}${tasks} ${placeWords(shortage)}: ${sum}${heldWords(shortage)}`;
}

const MOST_NAMED = 4;

const tasksWords = (tasks: readonly string[]): string =>
  tasks.length <= MOST_NAMED ? listOf(tasks) : countOf(tasks.length, "task");

function placeWords({ kind, name, stations, tasks }: NamedShortage): string {
  const needs = tasks.length === 1 ? "needs" : "need";
  switch (kind) {
    case "due":
      return `must be done by ${stations.at(-1)}`;
    case "from":
      return `cannot be done before ${stations[0]}`;
    case "between":
      return `must be done from ${stations[0]} to ${stations.at(-1)}`;
    case "floor":
      return "must be done on the floor";
    case "zone":
      return `${needs} the zone ${name}`;
    case "stations":
      return `must be done at ${eitherOf(stations)}`;
    default:
      return `${needs} ${name}`;
  }
}

function holderWords({ kind, name, stations, count }: NamedShortage): string {
  if (count !== null) return `${count} x ${name} ${count === 1 ? "holds" : "hold"}`;
  const verb = stations.length === 1 ? "holds" : "hold";
  const which = kind === "from" ? " from there on" : kind === "zone" ? " of that zone" : "";
  return `${countOf(stations.length, "station")}${which} ${verb}`;
}

function wholeWords({ whole, count }: NamedShortage): string {
  if (whole.length === 0) return "";
  const verb = whole.length === 1 ? "counts" : "count";
  return ` (${listOf(whole)} ${verb} with ${count === null ? "a whole station" : "all places of a station"})`;
}

/** Why tasks without a rule of their own cannot stand elsewhere. */
function heldWords({ tasks, held, squeezed }: NamedShortage): string {
  const isOpen = held.length === 0 || held.length === tasks.length || held.length > MOST_NAMED;
  const by =
    held.length === 1 ? "is held there by a rule of its own" : "are held there by rules of their own";
  const arrows = isOpen ? "" : `; ${listOf(held)} ${by}, the others by what comes before or after them`;
  const isAre = squeezed.length === 1 ? "is" : "are";
  const work =
    squeezed.length === 0 || squeezed.length > MOST_NAMED
      ? ""
      : `; ${listOf(squeezed)} ${isAre} held there because that work fills other stations`;
  const many =
    squeezed.length > MOST_NAMED ? `; ${squeezed.length} of them because that work fills other stations` : "";
  return `${arrows}${work}${many}`;
}
