import type { TaskKeys } from "../line-keys.js";
import { found, type LineRule } from "./line-rule.js";

const name = "test-keys";

type TestKeys = NonNullable<TaskKeys["test"]>["keys"];

export const testKeys: LineRule = {
  name,
  purpose: "A test says what becomes of the units that fail.",
  check(draft) {
    return draft.tasks.flatMap(({ id, keys: { test } }) => {
      const problem = test === undefined ? null : problemOf(test.keys);
      if (problem === null) return [];
      const message = `task ${id}, test: ${problem}`;
      return [found(name, draft, { severity: "error", message, place: test!.place, task: id })];
    });
  },
};

function problemOf(keys: TestKeys): string | null {
  const repairKeys = (["fail", "repair", "return-to", "retest"] as const).filter((key) => keys[key]);
  const missing = (["fail", "repair", "return-to"] as const).filter((key) => !keys[key]);
  if (keys.scrap) {
    if (repairKeys.length === 0) return null;
    return `\`scrap\` stands alone, without ${inCode(repairKeys)}; units scrapped when they fail a second time are \`retest: scrap\``;
  }
  if (missing.length === 0) return null;
  if (missing.length === 3 && repairKeys.length === 0)
    return "nothing says what becomes of units; write {fail: 3 %, repair: 6 min, return-to: TASK} or {scrap: 10 %}";
  return `${inCode(missing)} ${missing.length === 1 ? "is" : "are"} missing; \`fail\`, \`repair\` and \`return-to\` go together`;
}

function inCode(keys: readonly string[]): string {
  return keys.map((key) => `\`${key}\``).join(" and ");
}
