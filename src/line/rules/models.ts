import type { Place } from "../../findings/finding.js";
import { compare, ONE, type Ratio, ratio, subtract } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import type { LineDraft } from "../line-draft.js";
import { type ModelsDraft, sharesOf, sumOfAmounts } from "../parts/models.js";
import type { TaskKeys } from "../parts/task.js";
import type { RecordDraft, TextDraft } from "../read/draft.js";
import { found, type LineRule, refuseUnknown, type UsedName } from "./line-rule.js";

export const needsModels: LineRule = {
  name: "needs-models",
  purpose: "What is said of models stands beside `models`.",
  check(draft) {
    if (draft.models.given) return [];
    return [...usesOfLine(draft), ...usesOfTasks(draft)].map(({ where, place, task }) => {
      const message = `${where} is about models, and the line has none; give \`models: {city: 60 %, cargo: 40 %}\`, or leave it out`;
      return found("needs-models", draft, { severity: "error", message, place, task });
    });
  },
};

interface Use {
  readonly where: string;
  readonly place: Place;
  readonly task: string | null;
}

function usesOfLine({ places }: LineDraft): Use[] {
  return (["sequence", "model-overload", "spacing", "level"] as const).flatMap((key) =>
    places[key] === undefined ? [] : [{ where: `\`${key}\``, place: places[key], task: null }],
  );
}

function usesOfTasks({ tasks }: LineDraft): Use[] {
  return tasks.flatMap(({ id, keys, after }) => [
    ...mapsOf(keys).map(({ where, map }) => {
      return { where: `task ${id}, ${where}: a map by model`, place: map.place, task: id };
    }),
    ...after.flatMap(({ model }) =>
      model === undefined ? [] : [{ where: `task ${id}, after: \`model\``, place: model.place, task: id }],
    ),
  ]);
}

/** A map of a task with a value for every model. */
interface MapByModel {
  readonly where: string;
  /** What is asked of each model, for messages. */
  readonly ask: string;
  /** Whether "-" says that a model does not have the task. */
  readonly tellsWhoHas: boolean;
  readonly map: RecordDraft<TextDraft<unknown>>;
}

function mapsOf({ time, quantity, people, test, parts }: TaskKeys): MapByModel[] {
  const absent = 'say "-" where a model does not have the task';
  return [
    { where: "time", ask: `give a time, or ${absent}`, tellsWhoHas: true, map: time },
    { where: "quantity", ask: `give a quantity, or ${absent}`, tellsWhoHas: true, map: quantity },
    { where: "people", ask: `give a number of people, or ${absent}`, tellsWhoHas: true, map: people },
    {
      where: "test, fail",
      ask: 'give a share, or say "-" where none of a model fails',
      tellsWhoHas: false,
      map: test?.at.fail,
    },
    ...(parts?.entries ?? []).map(({ id, value }) => ({
      where: `parts, ${id}`,
      ask: 'give a quantity, or say "-" where a model has none of it',
      tellsWhoHas: false,
      map: value,
    })),
  ].flatMap(({ map, ...each }) => (map?.kind === "record" ? [{ ...each, map }] : []));
}

/** Shares that are rounded, such as 33.3 % three times, may miss 100 % by so much. */
const SUM_TOLERANCE = ratio(1, 200);

export const modelsSum: LineRule = {
  name: "models-sum",
  purpose: "The models are all in shares that make 100 %, or all in quantities.",
  check(draft) {
    const verdict = judge(draft.models);
    if (verdict === null) return [];
    const message = `models: ${verdict.words}`;
    return [
      found("models-sum", draft, { severity: verdict.severity, message, place: draft.keys.models!.place }),
    ];
  },
};

function judge(models: ModelsDraft): { severity: "error" | "note"; words: string } | null {
  const kinds = new Set(models.models.flatMap(({ amount }) => amount?.kind ?? []));
  if (kinds.size > 1) {
    const words = `${namesOf(models, "share")} in shares and ${namesOf(models, "units")} in quantities do not go together; give all models shares, or all of them quantities`;
    return { severity: "error", words };
  }
  const sum = sumOfAmounts(models);
  if (sum === null) return null;
  if (sum.value.num === 0n) {
    return { severity: "error", words: "they come to nothing; at least one model is built" };
  }
  if (sum.kind === "units" || compare(sum.value, ONE) === 0) return null;
  const gap = subtract(sum.value, ONE);
  const size = gap.num < 0n ? subtract(ONE, sum.value) : gap;
  const all = percent(sum.value, 3);
  if (compare(size, SUM_TOLERANCE) <= 0) {
    const words = `the shares come to ${all} and are scaled to 100 %; from 99.5 % to 100.5 % this is done`;
    return { severity: "note", words };
  }
  const words = `the shares come to ${all}, and 100 % is expected; correct them, or give quantities such as 120, which need no sum`;
  return { severity: "error", words };
}

function namesOf({ models }: ModelsDraft, kind: "share" | "units"): string {
  return models.flatMap(({ id, amount }) => (amount?.kind === kind ? [id] : [])).join(", ");
}

/** Every task has a time for each model, so that more would fill any memory. */
const MOST = 1000;

export const modelCount: LineRule = {
  name: "model-count",
  purpose: "A line has some models, not one alone and not thousands.",
  check(draft) {
    const { models } = draft.keys;
    if (models === undefined || (models.count > 1 && models.count <= MOST) || models.count === 0) return [];
    if (models.count === 1) {
      const message =
        "models: there is one model only; a line that builds one needs no `models`, and this one gives the same plan";
      return [found("model-count", draft, { severity: "note", message, place: models.place })];
    }
    const message = `models: ${models.count} models stand here, and at most ${MOST} are taken; put those of the same times together`;
    return [found("model-count", draft, { severity: "error", message, place: models.place })];
  },
};

export const unknownModel: LineRule = {
  name: "unknown-model",
  purpose: "Every model that is named is one of `models`.",
  check(draft) {
    const { given, complete, models } = draft.models;
    if (!given || !complete || models.length === 0) return [];
    const refuse = (id: string) => `no model is called ${id}`;
    const names = models.map(({ id }) => id);
    return refuseUnknown("unknown-model", draft, { names, refuse }, [
      ...namesInTasks(draft),
      ...namesInSequence(draft),
    ]);
  },
};

function namesInTasks({ tasks }: LineDraft): UsedName[] {
  return tasks.flatMap(({ id, keys, after }) => {
    return [
      ...mapsOf(keys).flatMap(({ where, map }) =>
        map.entries.map((each) => ({
          named: { text: each.id, value: each.id, place: each.place },
          where: `task ${id}, ${where}`,
          task: id,
        })),
      ),
      ...after.flatMap(({ model }) =>
        model === undefined ? [] : [{ named: model, where: `task ${id}, after, model`, task: id }],
      ),
    ];
  });
}

function namesInSequence({ keys }: LineDraft): UsedName[] {
  return (keys.sequence?.items ?? []).map((named) => ({ named, where: "sequence", task: null }));
}

export const modelTimes: LineRule = {
  name: "model-times",
  purpose: "What a task says by model names every model, and at least one model has the task.",
  check(draft) {
    const { given, complete } = draft.models;
    if (!given || !complete) return [];
    return draft.tasks.flatMap(({ id, keys }) => {
      const tell = (severity: "error" | "warning", { map: { place } }: MapByModel, message: string) =>
        found("model-times", draft, { severity, message: `task ${id}, ${message}`, place, task: id });
      const maps = mapsOf(keys);
      const ofWhole = maps.filter(({ map }) => missingModels(draft, map.entries).length === 0);
      const missing = maps
        .filter((each) => !ofWhole.includes(each))
        .map((each) => {
          const names = missingModels(draft, each.map.entries).join(", ");
          return tell("error", each, `${each.where}: nothing is said of ${names}; ${each.ask}`);
        });
      const isNone = ({ map }: MapByModel) =>
        map.entries.length > 0 && map.entries.every(({ value }) => value?.value === null);
      const none = ofWhole.filter(isNone).map((each) => {
        const words = each.tellsWhoHas
          ? "no model has the task; it is placed and takes no time"
          : "no unit of any model fails";
        return tell("warning", each, `${each.where}: ${words}`);
      });
      const [first, ...others] = ofWhole.filter(({ tellsWhoHas }) => tellsWhoHas);
      const differing = others.flatMap((each) => {
        const models = differingModels(draft, first!.map.entries, each.map.entries).join(", ");
        const words = `${each.where}: "-" here or in ${first!.where} alone says that ${models} both has the task and does not; say "-" in both, or in neither`;
        return models === "" ? [] : [tell("error", each, words)];
      });
      return [...missing, ...none, ...differing];
    });
  },
};

function missingModels({ models }: LineDraft, entries: readonly { readonly id: string }[]): string[] {
  const named = new Set(entries.map(({ id }) => models.numberOf(id)));
  return models.models.filter((_, number) => !named.has(number)).map(({ id }) => id);
}

type Entries = readonly { readonly id: string; readonly value: TextDraft<unknown> | undefined }[];

/** Models that one of two maps says to have a task and the other not; what could not be read says nothing. */
function differingModels({ models }: LineDraft, one: Entries, two: Entries): string[] {
  const ofModel = (entries: Entries, model: number) =>
    entries.find(({ id }) => models.numberOf(id) === model)?.value;
  return models.models.flatMap(({ id }, model) => {
    const [first, second] = [ofModel(one, model), ofModel(two, model)];
    if (first === undefined || second === undefined) return [];
    return (first.value === null) === (second.value === null) ? [] : [id];
  });
}

/** Shares are often rounded, so that a sequence cannot meet them closer. */
const MIX_TOLERANCE = ratio(1, 200);

export const sequenceMix: LineRule = {
  name: "sequence-mix",
  purpose: "Warns where the sequence does not hold the models in their shares.",
  check(draft) {
    const { sequence } = draft.keys;
    const sum = sumOfAmounts(draft.models);
    if (sequence === undefined || sequence.items.length === 0 || sum === null || sum.value.num === 0n)
      return [];
    const counts = countModels(draft, sequence.items);
    if (counts === null) return [];
    const rows = sharesOf(draft.models).map((share, model) => ({
      id: draft.models.models[model]!.id,
      share,
      inSequence: ratio(counts[model]!, sequence.items.length),
    }));
    if (rows.every(({ share, inSequence }) => isNear(share, inSequence))) return [];
    const told = (key: "share" | "inSequence") =>
      rows.map((each) => `${each.id} ${percent(each[key])}`).join(", ");
    const absent = rows.filter((each) => each.inSequence.num === 0n && each.share.num > 0n);
    const missing = absent.length === 0 ? "" : `; ${absent.map(({ id }) => id).join(", ")} is missing`;
    const message = `sequence: it holds ${told("inSequence")}, and \`models\` say ${told("share")}${missing}`;
    return [found("sequence-mix", draft, { severity: "warning", message, place: sequence.place })];
  },
};

/** How often each model stands there; null where a name is none of them. */
function countModels({ models }: LineDraft, items: readonly { readonly value: string }[]): number[] | null {
  const counts = models.models.map(() => 0);
  for (const { value } of items) {
    const model = models.numberOf(value);
    if (model === undefined) return null;
    counts[model]!++;
  }
  return counts;
}

function isNear(one: Ratio, two: Ratio): boolean {
  return compare(subtract(one, two), MIX_TOLERANCE) <= 0 && compare(subtract(two, one), MIX_TOLERANCE) <= 0;
}
