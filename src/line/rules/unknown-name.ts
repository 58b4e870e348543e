import type { Finding, Severity } from "../../findings/finding.js";
import { nearestWordsAmong } from "../../findings/nearest.js";
import { quoted } from "../../time/quoted.js";
import type { KnownNames } from "../floor-names.js";
import { idKey } from "../ids.js";
import type { LineDraft } from "../line-draft.js";
import type { TextDraft } from "../schema/draft.js";
import { found } from "./line-rule.js";

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
