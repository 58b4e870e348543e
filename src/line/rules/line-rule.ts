import { type Finding, finding, type Severity } from "../../findings/finding.js";
import { nearestWordsAmong } from "../../findings/nearest.js";
import { quoted } from "../../time/quoted.js";
import { idKey } from "../ids.js";
import type { LineDraft } from "../line-draft.js";
import type { TextDraft } from "../read/draft.js";

/** One check of a line file. Every rule sees whatever could be read, so that no fault hides another. */
export interface LineRule {
  /** The name in brackets behind each of its findings. */
  readonly name: string;
  /** What it looks for, in one line. */
  readonly purpose: string;
  check(draft: LineDraft): Finding[];
}

/** A finding of a rule in the file of the draft. */
export function found(
  rule: string,
  draft: LineDraft,
  given: Pick<Finding, "severity" | "message" | "place"> & Partial<Finding>,
): Finding {
  return finding({ rule, file: draft.file, ...given });
}

/** Names that those in use must be among, and what is said of a name, in quotes, that is none of them. */
export interface KnownNames {
  readonly names: readonly string[];
  refuse(name: string): string;
}

/** A name where it is used; `where` are the words that a message starts with. */
export interface UsedName {
  readonly named: Pick<TextDraft<string>, "text" | "value" | "place">;
  readonly where: string;
  readonly task: string | null;
}

/** So many known names are named where none is near. */
const FEW = 6;

/** A finding for each name that is none of those known. */
export function refuseUnknown(
  rule: string,
  draft: LineDraft,
  { names, refuse }: KnownNames,
  used: readonly UsedName[],
  severity: Severity = "error",
): Finding[] {
  const keys = new Set(names.map(idKey));
  const unknown = used.filter(({ named }) => !keys.has(idKey(named.value)));
  const nearest = nearestWordsAmong(names);
  const few = keys.size > 0 && keys.size <= FEW ? `; known: ${[...new Set(names)].join(", ")}` : "";
  return unknown.map(({ named, where, task }) => {
    const message = `${where}: ${refuse(quoted(named.text))}${nearest(named.text) || few}`;
    return found(rule, draft, { severity, message, place: named.place, task });
  });
}
