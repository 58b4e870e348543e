import { listOf } from "../../findings/list-of.js";
import { nearestWordsAmong } from "../../findings/nearest.js";
import { blankCharacters, withoutBlanks } from "../../findings/visible-text.js";
import { quoted } from "../../time/quoted.js";
import type { LineDraft } from "../line-draft.js";
import { GROUP_KEYS } from "../parts/groups.js";
import type { TextDraft } from "../read/draft.js";
import { found, type LineRule } from "./line-rule.js";

export const unknownTask: LineRule = {
  name: "unknown-task",
  purpose: "Every task that is named exists.",
  check(draft) {
    const nearest = nearestWordsAmong(draft.tasks.map((task) => task.id));
    const inTasks = draft.tasks.flatMap((task) =>
      task.after
        .filter(({ named }) => isUnknown(draft, named))
        .map(({ named }) => refuse(draft, nearest, named, `task ${task.id}, after`, task.id)),
    );
    const inChains = draft.chains
      .flat()
      .filter((named) => isUnknown(draft, named))
      .map((named) => refuse(draft, nearest, named, "chains", null));
    const inGroups = GROUP_KEYS.flatMap((key) =>
      draft.groups[key]
        .flatMap((group) => group.named)
        .filter((named) => isUnknown(draft, named))
        .map((named) => refuse(draft, nearest, named, key, null)),
    );
    const inTests = draft.tasks.flatMap(({ id, keys: { test } }) => {
      const named = test?.at["return-to"];
      if (named === undefined || !isUnknown(draft, named)) return [];
      return [refuse(draft, nearest, named, `task ${id}, test, return-to`, id)];
    });
    const inBenches = draft.benches.flatMap(({ id, named }) =>
      named
        .filter((each) => isUnknown(draft, each))
        .map((each) => refuse(draft, nearest, each, `bench ${id}, tasks`, null)),
    );
    const inOptions = draft.options.flatMap(({ name: option, offLine, times }) => [
      ...offLine
        .flatMap((block) => (block.kind === "tasks" ? block.named : []))
        .filter((each) => isUnknown(draft, each))
        .map((each) => refuse(draft, nearest, each, `option ${option}, off-line`, null)),
      ...times
        .filter(({ task }) => task === undefined)
        .map(({ named }) => refuse(draft, nearest, named, `option ${option}, times`, null)),
    ]);
    return [...inTasks, ...inChains, ...inGroups, ...inTests, ...inBenches, ...inOptions];
  },
};

function isUnknown(draft: LineDraft, named: TextDraft<string>): boolean {
  return draft.numberOf(named.value) === undefined;
}

function refuse(
  draft: LineDraft,
  nearest: (wanted: string) => string,
  named: TextDraft<string>,
  where: string,
  task: string | null,
) {
  const advice = listAdvice(draft, named.text) ?? nearest(named.text);
  const message = `${where}: no task is called ${quoted(named.text)}${advice}`;
  return found("unknown-task", draft, { severity: "error", message, place: named.place, task });
}

/** Several ids in one text: `fit-fork, true-wheel` in place of `[fit-fork, true-wheel]`. */
function listAdvice(draft: LineDraft, text: string): string | null {
  const parts = text.split(/[\s,;/+&]+/u).filter((part) => part !== "");
  const known = parts.length > 1 && parts.every((part) => draft.numberOf(part) !== undefined);
  return known ? `; for several tasks write a list: [${parts.join(", ")}]` : null;
}

export const similarIds: LineRule = {
  name: "similar-ids",
  purpose: "Warns of ids that people take for one another.",
  check(draft) {
    const seen = new Map<string, { id: string; line: number }>();
    const inFile = [...draft.tasks].sort(
      (one, two) => one.place.line - two.place.line || one.place.column - two.place.column,
    );
    return inFile.flatMap(({ id, place }) => {
      const look = lookAlike(id);
      const first = seen.get(look);
      if (first === undefined) {
        seen.set(look, { id, line: place.line });
        return [];
      }
      const isBlank = blankCharacters(id + first.id).length > 0;
      const how = isBlank ? "characters that are drawn as nothing" : "case, script or leading zeros";
      const message = `task ${id} looks like task ${first.id} (line ${first.line}): they differ only in ${how}, and are two tasks`;
      return [found("similar-ids", draft, { severity: "warning", message, place, task: id })];
    });
  },
};

export const blankCharactersInIds: LineRule = {
  name: "blank-characters",
  purpose: "Warns of ids with characters that are drawn as nothing.",
  check(draft) {
    return draft.tasks.flatMap(({ id, place }) => {
      const blank = [...new Set(blankCharacters(id))];
      if (blank.length === 0) return [];
      const message = `task ${withoutBlanks(id)} holds ${listOf(blank)}, drawn as nothing by most fonts; retype the id if that was a typing error`;
      return [found("blank-characters", draft, { severity: "warning", message, place, task: id })];
    });
  },
};

export const mixedScripts: LineRule = {
  name: "mixed-scripts",
  purpose: "Warns of ids that hide a Cyrillic or Greek letter among Latin ones.",
  check(draft) {
    return draft.tasks.flatMap(({ id, place }) => {
      const foreign = foreignLookAlikes(id);
      if (foreign.length === 0) return [];
      const message = `task ${id} mixes scripts: ${foreign.join(", ")} among Latin letters; retype the id if that was a typing error`;
      return [found("mixed-scripts", draft, { severity: "warning", message, place, task: id })];
    });
  },
};

/** Lower-case Cyrillic and Greek letters that are drawn like a Latin one; capitals are brought to them first. */
const LATIN_LOOK: Readonly<Record<string, string>> = {
  а: "a",
  в: "b",
  с: "c",
  е: "e",
  ё: "e",
  һ: "h",
  н: "h",
  і: "i",
  ї: "i",
  ј: "j",
  к: "k",
  м: "m",
  о: "o",
  р: "p",
  ѕ: "s",
  т: "t",
  у: "y",
  х: "x",
  ԁ: "d",
  ԛ: "q",
  ԝ: "w",
  α: "a",
  β: "b",
  ε: "e",
  ζ: "z",
  η: "h",
  ι: "i",
  κ: "k",
  μ: "m",
  ν: "v",
  ο: "o",
  ρ: "p",
  τ: "t",
  υ: "y",
  χ: "x",
};

/** Greek capitals that look Latin although their small letters look otherwise. */
const LATIN_LOOK_OF_CAPITALS: Readonly<Record<string, string>> = { Ν: "n", Υ: "y", Η: "h" };

/** Joiners and variation selectors change how letters are drawn together, often not at all. */
const JOINERS = /\u200c|\u200d|[\ufe00-\ufe0f]/gu;

/** What an id looks like at a glance: without case, script, width and leading zeros. Equal looks are worth a warning. */
function lookAlike(id: string): string {
  const seen = withoutBlanks(id).normalize("NFKC").replaceAll(JOINERS, "").trim();
  const letters = [...seen].map(latinLook);
  return letters.join("").replaceAll(/(?<!\d)0+(?=\d)/g, "");
}

/** The letters of an id with Latin ones that are of another script and look Latin, each with its script. */
function foreignLookAlikes(id: string): string[] {
  if (!/\p{Script=Latin}/u.test(id)) return [];
  const foreign = [...id.normalize("NFC")].filter((letter) => latinLook(letter) !== letter.toLowerCase());
  return [...new Set(foreign)].map(
    (letter) => `${/\p{Script=Greek}/u.test(letter) ? "Greek" : "Cyrillic"} ${letter}`,
  );
}

function latinLook(letter: string): string {
  const lower = letter.toLowerCase();
  return LATIN_LOOK_OF_CAPITALS[letter] ?? LATIN_LOOK[lower] ?? lower;
}
