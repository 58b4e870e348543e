import type { Finding } from "../../findings/finding.js";
import { jsonText } from "./json-text.js";

/** A finding as in every result document; what is not known is null. */
export function findingJson({ rule, severity, message, file, place, station, task }: Finding) {
  const [line, column] = [place?.line ?? null, place?.column ?? null];
  return { rule, severity, message, file, line, column, station, task };
}

/** The document of a command that refused its input: the faults of the file, nothing else. */
export function refusedJson(command: string, findings: readonly Finding[]): string {
  const document = {
    format: "linepoise/1",
    command,
    outcome: "refused",
    findings: findings.map(findingJson),
  };
  return jsonText(document);
}
