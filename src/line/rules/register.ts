import type { Finding } from "../../findings/finding.js";
import type { LineDraft } from "../line-draft.js";
import type { OptionDraft } from "../parts/options.js";
import { noShifts, noTasks, nothingListed, shortChain, shortGroup } from "./empty-lists.js";
import {
  crewAndSides,
  duplicateStation,
  equipmentCount,
  noPersonFits,
  peopleAndSkills,
  stationRange,
  unknownEquipment,
  unknownSkill,
  unknownStation,
  unknownZone,
  unusedMoveCost,
  unusedTraining,
} from "./floor.js";
import { measuredTimes, pacedBuffers, variationCv } from "./flow.js";
import { togetherApart, togetherWaits } from "./groups.js";
import { keepPaceSums, keepPaceTerms } from "./keep-pace.js";
import { learningEnds, learningShare, learningTime } from "./learning.js";
import { liftingOfOne } from "./lifting.js";
import { limitAndSides, limitPerShift, limitUnit, unknownLimit, unusedLimit } from "./limits.js";
import type { LineRule } from "./line-rule.js";
import { modelCount, modelsSum, modelTimes, needsModels, sequenceMix, unknownModel } from "./models.js";
import { benchShifts, benchTasks, offLineBlock, optionKeys } from "./off-line.js";
import { impliedArrow, loop, namesItself, repeatedPredecessor } from "./order-of-work.js";
import { calendarSum, demandPeriod, lossesCountedTwice, shiftLength, supplyPeriod } from "./pace.js";
import { partNotListed, unknownPart } from "./parts.js";
import { spacingInSequence, spacingSum, unknownSpacing } from "./spacing.js";
import { noStationFits, togetherFits } from "./station-fits.js";
import { blankCharactersInIds, mixedScripts, similarIds, unknownTask } from "./task-ids.js";
import { everyAndSides, machinePieces, missingUnit, taskTimeSum, zeroTime } from "./task-times.js";
import { returnTo, scrapAndYield, scrapOrder, testKeys, uncountableVisits } from "./tests.js";

/** Every rule that a line file is checked against once its shape is read, in the order in which they are looked at. */
export const LINE_RULES: readonly LineRule[] = [
  noTasks,
  nothingListed,
  missingUnit,
  zeroTime,
  taskTimeSum,
  unknownTask,
  namesItself,
  loop,
  repeatedPredecessor,
  impliedArrow,
  shortChain,
  testKeys,
  returnTo,
  scrapOrder,
  uncountableVisits,
  shortGroup,
  togetherApart,
  togetherWaits,
  togetherFits,
  duplicateStation,
  unknownStation,
  stationRange,
  unknownZone,
  unknownEquipment,
  equipmentCount,
  unknownSkill,
  unusedMoveCost,
  unusedTraining,
  variationCv,
  measuredTimes,
  pacedBuffers,
  keepPaceTerms,
  keepPaceSums,
  learningShare,
  learningEnds,
  learningTime,
  noStationFits,
  noPersonFits,
  peopleAndSkills,
  everyAndSides,
  crewAndSides,
  unknownLimit,
  limitUnit,
  unusedLimit,
  limitPerShift,
  limitAndSides,
  needsModels,
  modelsSum,
  modelCount,
  unknownModel,
  modelTimes,
  machinePieces,
  sequenceMix,
  unknownSpacing,
  spacingSum,
  spacingInSequence,
  unknownPart,
  partNotListed,
  liftingOfOne,
  benchTasks,
  benchShifts,
  offLineBlock,
  optionKeys,
  similarIds,
  mixedScripts,
  blankCharactersInIds,
  noShifts,
  shiftLength,
  calendarSum,
  demandPeriod,
  supplyPeriod,
  lossesCountedTwice,
  scrapAndYield,
];

/** Rules about what an option may change. */
const CHANGEABLE = [
  taskTimeSum,
  noShifts,
  shiftLength,
  calendarSum,
  benchShifts,
  demandPeriod,
  lossesCountedTwice,
  scrapAndYield,
];

/** What is wrong with the line once an option has changed it, without what was wrong before. */
export function checkOptions(draft: LineDraft): Finding[] {
  const known = new Set(CHANGEABLE.flatMap((rule) => rule.check(draft)).map(({ message }) => message));
  return draft.options.flatMap((option) => {
    const changed = withOption(draft, option);
    return CHANGEABLE.flatMap((rule) => rule.check(changed))
      .filter(({ message }) => !known.has(message))
      .map((each) => ({ ...each, message: `option ${option.name}: ${each.message}` }));
  });
}

/** The draft with the calendar, the demand, the losses and the times of the option. */
function withOption(draft: LineDraft, { keys, times, offLine: _, ...option }: OptionDraft): LineDraft {
  const { calendar, demand, uptime, yield: good } = keys;
  const given = { calendar, demand, uptime, yield: good };
  const changes = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined));
  const places = Object.fromEntries(Object.keys(changes).map((key) => [key, option.place]));
  const timeOf = new Map(times.map(({ task, given: time }) => [task, time]));
  return {
    ...draft,
    keys: { ...draft.keys, ...changes },
    places: { ...draft.places, ...places },
    tasks: draft.tasks.map((task, number) => {
      const time = timeOf.get(number);
      return time === undefined ? task : { ...task, pieceTimes: [{ model: null, given: time }] };
    }),
  };
}
