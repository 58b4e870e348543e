import type {
  Kit,
  PartAtPost,
  PartInAll,
  PartsAnswer,
  PartsAtPost,
} from "../../answer/parts/answer-parts.js";
import type { MovedPart, QuantityAt } from "../../answer/parts/moved-parts.js";
import type { Line, ListedPart } from "../../line/line.js";
import type { RoundedUp } from "../../plan/figures/parts.js";
import { CAUTION, cautionsJson, cautionsOfPlan } from "../cautions.js";
import { findingJson } from "./finding-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `parts`: what comes to each station, bench and table, and all of it together. */
export function partsDocument(answer: PartsAnswer) {
  const { line, plan, planFile, fingerprint, batch, posts, totals, handler, against, findings } = answer;
  return resultDocument("parts", {
    line: line.name,
    plan: planFile,
    fingerprint: fingerprint.ofPlan,
    fingerprintOfLine: fingerprint.ofLine,
    batch: {
      goodUnits: numberJson(batch.goodUnits),
      unitsStarted: numberJson(batch.started),
      shift: batch.shift,
      model: modelJson(line, batch.model),
      availableSeconds: secondsJson(batch.time),
    },
    places: posts.map((post) => postJson(line, post)),
    totals: totals.map(totalJson),
    handling: {
      packs: handler.packs === null ? null : Number(handler.packs),
      partsWithoutPack: handler.withoutPack,
      trips: wholeJson(handler.trips),
      tripsExact: exactJson(handler.trips),
      tripsBy: handler.tripsBy,
      seconds: secondsJson(handler.time),
      people: wholeJson(handler.people),
      peopleExact: exactJson(handler.people),
    },
    against: against && {
      plan: against.file,
      totalsAgree: against.isAlike,
      moved: against.moved.map(movedJson),
    },
    cautions: cautionsJson(cautionsOfPlan(line, plan)),
    findings: findings.map(findingJson),
    caution: CAUTION,
  });
}

export const partsJson = asText(partsDocument);

const modelJson = ({ models }: Line, model: number | null) => (model === null ? null : models[model]!.id);
const wholeJson = (value: RoundedUp | null) => (value === null ? null : Number(value.whole));
const exactJson = (value: RoundedUp | null) => numberJson(value?.exact ?? null);

function postJson(line: Line, { id, kind, places, parts, limits, kits }: PartsAtPost) {
  return {
    id,
    kind,
    places,
    parts: parts.map(partJson),
    limits: limits.map(({ name, used, most, unit, per }) => ({
      limit: name,
      used: numberJson(used),
      most: numberJson(most),
      unit,
      per,
    })),
    kits: kits.map((kit) => kitJson(line, kit)),
  };
}

const listedJson = ({ id, name, unit, pack, from }: ListedPart) => ({ part: id, name, unit, pack, from });

const partJson = ({
  part,
  perUnit,
  quantity,
  packs,
  packLasts,
  containers,
  containersToRun: toRun,
}: PartAtPost) => ({
  ...listedJson(part),
  perGoodUnit: numberJson(perUnit),
  quantity: wholeJson(quantity),
  quantityExact: exactJson(quantity),
  packs: wholeJson(packs),
  packsExact: exactJson(packs),
  packLastsSeconds: secondsJson(packLasts),
  containers: wholeJson(containers),
  containersExact: exactJson(containers),
  /** What `simulate` has there: where `containers` is null, by what it takes for the terms that the file leaves out, and where it has others. */
  containersToRun: toRun,
});

const kitJson = (line: Line, { model, count, parts }: Kit) => ({
  model: modelJson(line, model),
  kits: wholeJson(count),
  kitsExact: exactJson(count),
  parts: parts.map(({ part, perUnit }) => ({ ...listedJson(part), inOneKit: numberJson(perUnit) })),
});

const totalJson = ({ part, quantity, packs }: PartInAll) => ({
  ...listedJson(part),
  quantity: wholeJson(quantity),
  quantityExact: exactJson(quantity),
  packs: packs === null ? null : Number(packs),
});

const placesJson = (all: readonly QuantityAt[]) =>
  all.map(({ post, quantity }) => ({ place: post, quantityExact: numberJson(quantity) }));

const movedJson = ({ part, before, after, totalBefore, totalAfter, isAlike }: MovedPart) => ({
  part: part.id,
  before: placesJson(before),
  after: placesJson(after),
  totalBefore: numberJson(totalBefore),
  totalAfter: numberJson(totalAfter),
  totalsAgree: isAlike,
});
