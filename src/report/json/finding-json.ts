import type { Finding, Severity } from "../../findings/finding.js";
import { asText, resultDocument } from "./result-document.js";

/** Something worth telling of an input or an answer, as in the JSON of every command; what is not known is null. */
export interface FindingFacts {
  /** The code of the check, in kebab-case: it stays the same within a major version. */
  readonly rule: string;
  /** An error makes the input or the answer wrong, a warning may, a note only informs. */
  readonly severity: Severity;
  /** What was found, what was expected and what is near, in a sentence or two. */
  readonly message: string;
  /** The name of the file, as it was given when its text was read. */
  readonly file: string | null;
  /** Counted from 1. */
  readonly line: number | null;
  /** Counted from 1, in UTF-16 code units. */
  readonly column: number | null;
  /** The id of a station or bench. */
  readonly station: string | null;
  /** The id of a task. */
  readonly task: string | null;
}

/** A finding as in every result document. */
export function findingJson({ rule, severity, message, file, place, station, task }: Finding): FindingFacts {
  const [line, column] = [place?.line ?? null, place?.column ?? null];
  return { rule, severity, message, file, line, column, station, task };
}

/** The document of a command that refused its input: the faults of the file, nothing else. */
export const refusedDocument = <Command extends string>(command: Command, findings: readonly Finding[]) =>
  resultDocument(command, { outcome: "refused" as const, findings: findings.map(findingJson) });

export const refusedJson = asText(refusedDocument);
