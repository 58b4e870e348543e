import { benchTasks } from "./bench-tasks.js";
import { calendarSum } from "./calendar-sum.js";
import { demandPeriod } from "./demand-period.js";
import { duplicateStation } from "./duplicate-station.js";
import { equipmentCount } from "./equipment-count.js";
import { everyAndSides } from "./every-and-sides.js";
import { impliedArrow } from "./implied-arrow.js";
import type { LineRule } from "./line-rule.js";
import { loop } from "./loop.js";
import { lossesCountedTwice } from "./losses-counted-twice.js";
import { missingUnit } from "./missing-unit.js";
import { mixedScripts } from "./mixed-scripts.js";
import { modelCount } from "./model-count.js";
import { modelTimes } from "./model-times.js";
import { modelsSum } from "./models-sum.js";
import { namesItself } from "./names-itself.js";
import { needsModels } from "./needs-models.js";
import { noPersonFits } from "./no-person-fits.js";
import { noShifts } from "./no-shifts.js";
import { noStationFits } from "./no-station-fits.js";
import { noTasks } from "./no-tasks.js";
import { nothingListed } from "./nothing-listed.js";
import { offLineBlock } from "./off-line-block.js";
import { optionKeys } from "./option-keys.js";
import { peopleAndSkills } from "./people-and-skills.js";
import { repeatedPredecessor } from "./repeated-predecessor.js";
import { returnTo } from "./return-to.js";
import { scrapAndYield } from "./scrap-and-yield.js";
import { scrapOrder } from "./scrap-order.js";
import { sequenceMix } from "./sequence-mix.js";
import { shiftLength } from "./shift-length.js";
import { shortChain } from "./short-chain.js";
import { shortGroup } from "./short-group.js";
import { similarIds } from "./similar-ids.js";
import { stationRange } from "./station-range.js";
import { supplyPeriod } from "./supply-period.js";
import { taskTimeSum } from "./task-time-sum.js";
import { testKeys } from "./test-keys.js";
import { togetherApart } from "./together-apart.js";
import { togetherFits } from "./together-fits.js";
import { togetherWaits } from "./together-waits.js";
import { uncountableVisits } from "./uncountable-visits.js";
import { unknownEquipment } from "./unknown-equipment.js";
import { unknownModel } from "./unknown-model.js";
import { unknownSkill } from "./unknown-skill.js";
import { unknownStation } from "./unknown-station.js";
import { unknownTask } from "./unknown-task.js";
import { unknownZone } from "./unknown-zone.js";
import { zeroTime } from "./zero-time.js";

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
  noStationFits,
  noPersonFits,
  peopleAndSkills,
  everyAndSides,
  needsModels,
  modelsSum,
  modelCount,
  unknownModel,
  modelTimes,
  sequenceMix,
  benchTasks,
  offLineBlock,
  optionKeys,
  similarIds,
  mixedScripts,
  noShifts,
  shiftLength,
  calendarSum,
  demandPeriod,
  supplyPeriod,
  lossesCountedTwice,
  scrapAndYield,
];
