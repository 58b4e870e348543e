import { quoted } from "../../time/quoted.js";
import { idKey } from "../ids.js";
import type { LineDraft } from "../line-draft.js";
import { type Amount, isPerPerson, isPerShift } from "../parts/limits.js";
import type { TextDraft } from "../read/draft.js";
import { found, type LineRule, refuseUnknown } from "./line-rule.js";

export const unknownLimit: LineRule = {
  name: "unknown-limit",
  purpose: "Every limit that a task uses is one of `limits`, of the line or of a station.",
  check(draft) {
    if (draft.places.limits !== undefined && draft.keys.limits === undefined) return [];
    const names = limitsOf(draft).map(({ name }) => name);
    const refuse = (name: string) => `no limit is called ${name}`;
    return refuseUnknown(
      "unknown-limit",
      draft,
      { names, refuse },
      usesOf(draft).map(({ name, place, task }) => ({
        named: { text: name, value: name, place },
        where: `task ${task}, uses`,
        task,
      })),
    );
  },
};

export const limitUnit: LineRule = {
  name: "limit-unit",
  purpose: "A limit and all that is taken of it are in one unit.",
  check(draft) {
    const limits = limitsOf(draft);
    const amounts = [
      ...limits.map(({ name, most, where }) => ({ name, amount: most, where, task: null })),
      ...usesOf(draft).map(({ name, amount, task }) => ({ name, amount, where: `task ${task}, uses`, task })),
    ];
    const firsts = new Map<string, TextDraft<Amount>>();
    for (const { name, most } of limits)
      if (most !== undefined && !firsts.has(idKey(name))) firsts.set(idKey(name), most);
    return amounts.flatMap(({ name, amount, where, task }) => {
      const first = firsts.get(idKey(name));
      if (amount === undefined || first === undefined || amount.value.unit === first.value.unit) return [];
      const [own, expected] = [unitWords(amount), unitWords(first)];
      const message = `${where}: ${quoted(amount.text)} of ${name} is ${own}, and the limit in line ${first.place.line} is ${expected}; write both in the same unit, which is never converted`;
      return [found("limit-unit", draft, { severity: "error", message, place: amount.place, task })];
    });
  },
};

export const unusedLimit: LineRule = {
  name: "unused-limit",
  purpose: "Warns of limits of which no task uses anything.",
  check(draft) {
    const used = new Set(usesOf(draft).map(({ name }) => idKey(name)));
    return limitsOf(draft).flatMap(({ name, where, place }) => {
      if (used.has(idKey(name))) return [];
      const message = `${where}: no task uses ${name}, so it limits nothing; say with \`uses\` what tasks take of it`;
      return [found("unused-limit", draft, { severity: "warning", message, place })];
    });
  },
};

export const limitPerShift: LineRule = {
  name: "limit-per-shift",
  purpose: "Limits per shift have a demand and a calendar that say what a shift makes.",
  check(draft) {
    const missing = (["demand", "calendar"] as const).filter((key) => draft.places[key] === undefined);
    if (missing.length === 0) return [];
    const needs = missing.map((key) => `\`${key}:\``).join(" and ");
    return limitsOf(draft).flatMap(({ name, where, per }) => {
      if (per === undefined || !isPerShift(per.value)) return [];
      const message = `${where}: ${name} is per shift, and ${needs} ${missing.length === 1 ? "is" : "are"} missing, which ${missing.length === 1 ? "says" : "say"} how much a shift makes`;
      return [found("limit-per-shift", draft, { severity: "error", message, place: per.place })];
    });
  },
};

export const limitAndSides: LineRule = {
  name: "limit-and-sides",
  purpose: "Limits per person stand on lines where the people at a place share its work.",
  check(draft) {
    const sided = draft.tasks.find(({ keys: { side } }) => side !== undefined);
    if (sided === undefined) return [];
    return limitsOf(draft).flatMap(({ name, where, per }) => {
      if (per === undefined || !isPerPerson(per.value)) return [];
      const message = `${where}: ${name} is per person, and this line is worked from its sides (task ${sided.id}), where nobody shares what the other side takes; give it per station, or leave out the sides`;
      return [found("limit-and-sides", draft, { severity: "error", message, place: per.place })];
    });
  },
};

/** Every limit that is written, those of the line first, as far as it could be read. */
function limitsOf({ keys, floor }: LineDraft) {
  const written = (limits: LineDraft["keys"]["limits"], where: string) =>
    (limits?.entries ?? []).map(({ id, place, value }) => ({
      name: id,
      where,
      place,
      per: value?.at.per,
      most: value?.at.most,
    }));
  return [
    ...written(keys.limits, "limits"),
    ...floor.stations.flatMap((station) => written(station.keys.limits, `station ${station.id}, limits`)),
  ];
}

/** Everything that tasks take of limits, as far as it could be read. */
function usesOf({ tasks }: LineDraft) {
  return tasks.flatMap(({ id, keys: { uses } }) =>
    (uses?.entries ?? []).map(({ id: name, place, value }) => ({ name, place, amount: value, task: id })),
  );
}

const unitWords = ({ value: { unit } }: TextDraft<Amount>): string =>
  unit === "" ? "without a unit" : `in ${unit}`;
