import type { FloorQuestions, LineSize } from "../../answer/order/ask-floor.js";
import type { Finding } from "../../findings/finding.js";
import type { LearntOrder, Witness } from "../../import-tables/learn-order.js";
import type { ReadFile } from "../../import-tables/read-orders.js";
import type { Line } from "../../line/line.js";
import { CAUTION } from "../cautions.js";
import { findingJson } from "./finding-json.js";
import type { IntoJson } from "./import-json.js";
import { asText, resultDocument } from "./result-document.js";

/** Orders of work of a line, and what became of them: the whole answer of `order`. */
export interface OrderAnswer {
  readonly line: Line;
  readonly files: readonly ReadFile[];
  readonly learnt: LearntOrder;
  /** Null where none were asked, or where nothing gives the pace. */
  readonly questions: FloorQuestions | null;
  /** How many of them are shown. */
  readonly most: number;
  /** The line file that took the precedences; null where none did. */
  readonly into: IntoJson | null;
}

/** The result document of `order`: precedences in the order of the tasks of the line, pairs as ids. */
export function orderDocument(
  { line, files, learnt, questions, most, into }: OrderAnswer,
  findings: readonly Finding[],
) {
  const id = (task: number) => line.tasks[task]!.id;
  return resultDocument("order", {
    line: line.name,
    outcome: "found",
    files,
    units: learnt.units.map(({ label, table, steps, lacks }) => ({
      unit: label,
      file: table.file,
      order: steps.map(({ task }) => id(task)),
      lacks: lacks.map(id),
    })),
    precedences: learnt.arrows.map(({ before, after, isKnown, seenIn }) => ({
      before: id(before),
      after: id(after),
      inLine: isKnown,
      unitsWithBoth: seenIn,
    })),
    pairs: {
      ordered: learnt.ordered,
      eitherOrder: learnt.free.count,
      oneUnitAlone: learnt.alone,
      neverSeenTogether: learnt.unseen.count,
      onNoUnit: learnt.apart,
    },
    eitherOrder: learnt.freePairs.map(({ tasks, forth, back, counts }) => ({
      tasks: tasks.map(id),
      units: counts,
      forth: witnessJson(forth),
      back: witnessJson(back),
    })),
    neverSeenTogether: learnt.unseen.first.map((pair) => pair.map(id)),
    inNoOrder: learnt.unseenTasks.map(id),
    questions: questions && {
      now: sizeJson(questions.size),
      asked: questions.questions.slice(0, most).map(({ precedences, without }) => ({
        precedences: precedences.map(({ before, after }) => ({ before: id(before), after: id(after) })),
        without: sizeJson(without),
      })),
      found: questions.questions.length,
      candidates: questions.candidates,
      provedToSaveNothing: questions.ruledOut,
      notSettled: questions.open + questions.notLookedAt,
      pairs: questions.pairs,
      balances: questions.balances,
      nodes: questions.nodes,
      notLookedAt: questions.notLookedAt,
    },
    into: into && { file: into.file, written: into.isWritten, tasks: into.line.tasks },
    caution: CAUTION,
    findings: findings.map(findingJson),
  });
}

export const orderJson = asText(orderDocument);

const sizeJson = (size: LineSize | null) =>
  size && { people: size.people, stations: size.stations, proved: size.isProved };

const witnessJson = ({ unit, file, first, second }: Witness) => ({
  unit,
  file,
  rows: [first.row, second.row],
});
