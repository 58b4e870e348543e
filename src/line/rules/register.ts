import { calendarSum } from "./calendar-sum.js";
import { demandPeriod } from "./demand-period.js";
import { impliedArrow } from "./implied-arrow.js";
import type { LineRule } from "./line-rule.js";
import { loop } from "./loop.js";
import { lossesCountedTwice } from "./losses-counted-twice.js";
import { missingUnit } from "./missing-unit.js";
import { mixedScripts } from "./mixed-scripts.js";
import { namesItself } from "./names-itself.js";
import { noShifts } from "./no-shifts.js";
import { noTasks } from "./no-tasks.js";
import { repeatedPredecessor } from "./repeated-predecessor.js";
import { shiftLength } from "./shift-length.js";
import { shortChain } from "./short-chain.js";
import { similarIds } from "./similar-ids.js";
import { taskTimeSum } from "./task-time-sum.js";
import { unknownTask } from "./unknown-task.js";
import { zeroTime } from "./zero-time.js";

/** Every rule that a line file is checked against once its shape is read, in the order in which they are looked at. */
export const LINE_RULES: readonly LineRule[] = [
  noTasks,
  missingUnit,
  zeroTime,
  taskTimeSum,
  unknownTask,
  namesItself,
  loop,
  repeatedPredecessor,
  impliedArrow,
  shortChain,
  similarIds,
  mixedScripts,
  noShifts,
  shiftLength,
  calendarSum,
  demandPeriod,
  lossesCountedTwice,
];
