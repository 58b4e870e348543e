import type { Place } from "../../findings/finding.js";
import type { LineDraft } from "../line-draft.js";
import { found, type LineRule } from "./line-rule.js";

export const keepPaceTerms: LineRule = {
  name: "keep-pace-terms",
  purpose: "Where a chance says how far stations are loaded, nothing else does, and times vary.",
  check(draft) {
    const { keys, floor } = draft;
    const refuse = (message: string, place: Place) =>
      found("keep-pace-terms", draft, { severity: "error", message, place });
    const all = askedOf(draft);
    const besides = [
      { where: "", keys },
      ...floor.stations.map((station) => ({ where: `station ${station.id}: `, keys: station.keys })),
    ].flatMap(({ where, keys: { "plan-to": planTo, "keep-pace": asked } }) =>
      planTo === undefined || asked === undefined
        ? []
        : [
            refuse(
              `${where}\`keep-pace\` and \`plan-to\` both say how far a station is loaded; leave one of them out`,
              asked.place,
            ),
          ],
    );
    const ofOptions = draft.options.flatMap(({ name, keys: { "plan-to": planTo, stations } }) => [
      ...(planTo === undefined || keys["keep-pace"] === undefined
        ? []
        : [
            refuse(
              `option ${name}: \`plan-to\` has no use where \`keep-pace\` says how far stations are loaded; leave it out`,
              planTo.place,
            ),
          ]),
      ...(stations === undefined || all.length === 0
        ? []
        : [
            refuse(
              `option ${name}: a fixed number of stations sets its own pace, which \`keep-pace\` cannot hold; leave one of them out`,
              stations.place,
            ),
          ]),
    ]);
    const [first] = all;
    const varies =
      keys.variation !== undefined ||
      draft.tasks.some(
        (task) => (task.keys.variation ?? task.keys.measured ?? task.keys.spread) !== undefined,
      );
    const message =
      "`keep-pace`: no time varies, so stations are loaded up to their working time; say with `variation` how far times vary";
    const still =
      first === undefined || varies
        ? []
        : [found("keep-pace-terms", draft, { severity: "warning", message, place: first })];
    return [...besides, ...ofOptions, ...still];
  },
};

export const keepPaceSums: LineRule = {
  name: "keep-pace-sums",
  purpose: "Where a chance says how far stations are loaded, their work is a sum of times on every unit.",
  check(draft) {
    const [first] = askedOf(draft);
    if (first === undefined) return [];
    return whatIsNoSum(draft).map((what) => {
      const message = `\`keep-pace\` adds up times of one person or crew on every unit, and ${what}; use \`plan-to\` here, and \`simulate\` shows how often each station runs over the pace`;
      return found("keep-pace-sums", draft, { severity: "error", message, place: first });
    });
  },
};

/** Where `keep-pace` stands, that of the line first. */
const askedOf = ({ keys, floor }: LineDraft): Place[] =>
  [keys, ...floor.stations.map((station) => station.keys)].flatMap(({ "keep-pace": asked }) =>
    asked === undefined ? [] : [asked.place],
  );

/** Everything that keeps the work of stations from being such a sum, each by its first case. */
function whatIsNoSum(draft: LineDraft): string[] {
  const { keys, floor, tasks } = draft;
  const task = (has: (each: LineDraft["tasks"][number]) => boolean) => tasks.find(has)?.id ?? null;
  const floors = floor.stations.map((station) => station.keys);
  const most = (key: "max-crew" | "max-places" | "holds") =>
    Math.max(...[keys, ...floors].map((each) => each[key]?.value ?? 1));
  const machine = task((each) => (each.keys["machine-time"]?.value ?? 0) > 0);
  const side = task((each) => each.keys.side !== undefined);
  const every = task((each) => (each.keys.every?.value ?? 1) > 1);
  const counted = keys.equipment?.entries.length ?? 0;
  return [
    ...(machine === null ? [] : [`a machine runs by itself at ${machine}`]),
    ...(side === null ? [] : [`${side} has a side`]),
    ...(most("max-crew") > 1 ? ["people share the work of a unit (`max-crew`)"] : []),
    ...(every === null ? [] : [`${every} is done on some units only (\`every\`)`]),
    ...(counted > 0 && (most("holds") > 1 || most("max-places") > 1)
      ? ["several units may share counted equipment"]
      : []),
  ];
}
