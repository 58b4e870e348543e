import type { AnswerModels } from "../../answer/balance/answer-models.js";
import type { TestFacts } from "../../answer/balance/shown-balance.js";
import type { Line } from "../../line/line.js";
import type { MixMeasures } from "../../plan/models/measure-mix.js";
import { numberJson, secondsJson } from "./number-json.js";

/** Tasks that are not done exactly once for a good unit; null where every task is. */
export function visitsJson(line: Line, { unevenVisits: uneven }: TestFacts) {
  if (uneven.length === 0) return null;
  return uneven.map(({ task, visits }) => ({ task: line.tasks[task]!.id, perGoodUnit: numberJson(visits) }));
}

/** The pace on either side of each test that scraps its failures; null where none does. */
export function scrapTestsJson(line: Line, { scrapPaces: paces }: TestFacts) {
  if (paces.length === 0) return null;
  return paces.map(({ test, scrap, before, after }) => ({
    test: line.tasks[test]!.id,
    scrap: numberJson(scrap),
    paceBeforeSeconds: secondsJson(before),
    paceAfterSeconds: secondsJson(after),
  }));
}

/** The models of a mixed line with the work and the sequence that follow from them; nulls on a line that builds one. */
export function modelsJson(line: Line, models: AnswerModels | null) {
  const idOf = (model: number) => line.models[model]!.id;
  const { work = null, mix = null } = models ?? {};
  return {
    models:
      work?.models.map(({ model, share, workContent, interval }) => ({
        model: idOf(model),
        share: numberJson(share),
        workContentSeconds: secondsJson(workContent),
        intervalSeconds: secondsJson(interval),
      })) ?? null,
    weightedWork: work && {
      seconds: secondsJson(work.workContent),
      people: numberJson(work.people.exact),
      wholePeople: work.people.whole,
    },
    sequence: mix && {
      given: mix.given?.map(idOf) ?? null,
      proposed: mix.proposed.sequence.map(idOf),
      figures: {
        quantities: mix.proposed.quantities.map((units, model) => ({ model: idOf(model), units })),
        holdsShares: mix.proposed.exact,
        levels: mix.proposed.levels,
        foundBy: mix.proposed.by,
        provedLeast: mix.proposed.isLeast,
        given: mix.proposed.given,
        parts: partsJson(line, mix.proposed),
        spacing: spacingJson(line, mix.proposed),
      },
    },
  };
}

/** What of the spacings the proposed sequence keeps; null where the line asks for none. */
function spacingJson({ spacings }: Line, { measure, isImpossible }: MixMeasures["proposed"]) {
  if (spacings.length === 0) return null;
  return {
    asked: spacings.map(({ name, most, of }) => ({ of: name, most, inUnits: of })),
    brokenRows: measure.broken,
    provedImpossible: isImpossible,
  };
}

/** Parts that are to be used evenly and their squared gaps to even use, in pieces; null where the line asks for none. */
function partsJson({ levelled, models }: Line, { partGaps }: MixMeasures["proposed"]) {
  if (partGaps === null) return null;
  return {
    uses: levelled.map(({ name, byModel }) => ({
      part: name,
      byModel: byModel.map((use, model) => ({ model: models[model]!.id, pieces: numberJson(use) })),
    })),
    squaredGaps: {
      units: partGaps.units,
      given: numberJson(partGaps.given),
      proposed: numberJson(partGaps.proposed),
      goalChasing: numberJson(partGaps.byGoalChasing),
      least: numberJson(partGaps.least),
    },
  };
}
