import type { Sheet, SheetsAnswer } from "../../answer/sheets/answer-sheets.js";
import type { Fitness, TrainingMatrix } from "../../answer/sheets/training-matrix.js";
import type { Line } from "../../line/line.js";
import { CAUTION, cautionsJson, cautionsOfStation } from "../cautions.js";
import { findingJson } from "./finding-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `sheets`: the facts of each sheet, and the training matrix. */
export function sheetsDocument(
  answer: SheetsAnswer,
  sheets: readonly Sheet[],
  training: TrainingMatrix | null,
) {
  const { line, planFile, fingerprint, date, batch, findings } = answer;
  return resultDocument("sheets", {
    line: line.name,
    plan: planFile,
    fingerprint: fingerprint.ofPlan,
    fingerprintOfLine: fingerprint.ofLine,
    date,
    batch: {
      goodUnits: numberJson(batch.goodUnits),
      unitsStarted: numberJson(batch.started),
      shift: batch.shift,
    },
    sheets: sheets.map((sheet) => sheetJson(line, sheet)),
    training: training && trainingJson(training),
    findings: findings.map(findingJson),
    caution: CAUTION,
  });
}

export const sheetsJson = asText(sheetsDocument);

function sheetJson(line: Line, sheet: Sheet) {
  const { station, chart } = sheet;
  return {
    id: sheet.id,
    kind: sheet.kind,
    places: station.places,
    crew: station.crew,
    shareOfUnits: numberJson(sheet.share),
    seconds: secondsJson(sheet.stationTime),
    limitSeconds: secondsJson(sheet.stationLimit),
    workingSeconds: secondsJson(sheet.workingTime),
    handsSeconds: secondsJson(sheet.hands),
    walkingSeconds: secondsJson(sheet.walking),
    machineSeconds: secondsJson(sheet.machine),
    handOverSeconds: secondsJson(sheet.handOver),
    standardWorkInProcess: sheet.standardStock,
    cyclesPerShift: numberJson(sheet.cyclesPerShift),
    people: sheet.people,
    skills: sheet.skills,
    equipment: sheet.equipment,
    tasks: sheet.tasks.map((each) => {
      const { id, name, checks } = line.tasks[each.task]!;
      return {
        task: id,
        name,
        side: typeof each.who === "string" ? each.who : null,
        persons: typeof each.who === "string" ? null : each.who,
        seconds: secondsJson(each.time),
        machineSeconds: secondsJson(each.machine),
        runningSeconds: secondsJson(each.total),
        checks,
      };
    }),
    dwellSeconds: secondsJson(chart?.dwell ?? null),
    parts: sheet.parts.map(({ part, perUnit, quantity, packs }) => ({
      part: part.id,
      name: part.name,
      unit: part.unit,
      perGoodUnit: numberJson(perUnit),
      quantity: Number(quantity.whole),
      quantityExact: numberJson(quantity.exact),
      packs: packs === null ? null : Number(packs.whole),
    })),
    limits: sheet.limits.map(({ name, used, most, unit, per }) => ({
      limit: name,
      used: numberJson(used),
      most: numberJson(most),
      unit,
      per,
    })),
    lifts: sheet.lifts.map(({ task, lifting, perMinute, ends }) => ({
      task: line.tasks[task]!.id,
      massKilograms: numberJson(lifting.mass),
      liftsPerMinute: numberJson(perMinute),
      isAtPace: lifting.perMinute === null,
      lasts: lifting.lasts,
      grip: lifting.grip,
      ends: ends.map(({ at, limit, index, ...factors }) => ({
        at,
        recommendedKilograms: numberJson(limit),
        liftingIndex: numberJson(index),
        horizontal: numberJson(factors.horizontal),
        vertical: numberJson(factors.vertical),
        distance: numberJson(factors.distance),
        asymmetry: numberJson(factors.asymmetry),
        frequency: numberJson(factors.frequency),
        coupling: numberJson(factors.coupling),
      })),
    })),
    cautions: cautionsJson(cautionsOfStation(line, station)),
  };
}

const trainingJson = ({ skills, places, people }: TrainingMatrix) => ({
  skills,
  places: places.map(({ id, kind, skills: needs, needed, assigned, standIns }) => ({
    id,
    kind,
    skills: needs,
    people: needed,
    assigned,
    standIns,
  })),
  people: people.map(({ id, skills: own, at }) => ({
    id,
    skills: own,
    at: at.map((fitness, place) => ({ place: places[place]!.id, ...fitnessJson(fitness) })),
  })),
});

const fitnessJson = (fitness: Fitness) => ({
  fitness: fitness.kind,
  lacks: fitness.kind === "lacks" ? fitness.skills : [],
  trainingSeconds: fitness.kind === "lacks" ? secondsJson(fitness.training) : null,
  seats: fitness.kind === "can" ? fitness.as : [],
});
