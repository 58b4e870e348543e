import { found, type LineRule } from "./line-rule.js";

const name = "scrap-and-yield";

export const scrapAndYield: LineRule = {
  name,
  purpose: "Scrap is counted at its test or in the yield of the line, never twice.",
  check(draft) {
    const place = draft.places.yield;
    if (place === undefined) return [];
    return draft.tasks.flatMap(({ id, keys: { test } }) => {
      const scrap = test?.keys.scrap ?? (test?.at.retest?.value === "scrap" ? test.keys.retest : undefined);
      if (scrap === undefined) return [];
      const message = `task ${id}, test: units are scrapped here, and \`yield\` (line ${place.line}) takes scrap off the whole line; each unit is lost once, so take one of the two out`;
      return [found(name, draft, { severity: "error", message, place: scrap, task: id })];
    });
  },
};
