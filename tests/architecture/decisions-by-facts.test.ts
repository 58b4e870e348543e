import { describe, expect, it } from "vitest";
import { type RefusedWay, sourceFiles, textOf } from "./source-files.js";

/** Folders whose code has findings in its hands. Reading files, in `line`, makes them. */
const FOLDERS = ["plan", "solve", "benches", "answer", "report", "commands"];

const files = sourceFiles.filter((file) => FOLDERS.some((folder) => file.startsWith(`src/${folder}/`)));

/** Ways to decide by the rule or the sentence of a finding, each with code that does and code that does not. */
const WAYS: readonly RefusedWay[] = [
  {
    what: "a rule is compared",
    pattern: /\brule\s*[!=]==|[!=]==\s*(?:\w+\.)*rule\b(?!\.)/u,
    planted: [
      'findings.find(({ rule }) => rule === "no-plan")',
      "before.some((own) => own.rule !== each.rule)",
    ],
    fine: ['if (rule.kind === "wait") continue;', "RULES.filter((rule) => rule.name === options.method)"],
    may: {},
  },
  {
    what: "a rule is looked up in a list or by its beginning",
    pattern:
      /\.(?:includes|has|get)\((?:\w+\.)*rule\)|\brule\.(?:startsWith|endsWith|includes|match)\(|\brule in \b|\[(?:\w+\.)*rule\]/u,
    planted: [
      "SHORT_RULES.includes(fault.rule)",
      'rule.startsWith("pace-of-")',
      "({ rule }) => rule in WHO",
      "WORDS[found.rule]",
    ],
    fine: ["rankOfRule(one.rule) - rankOfRule(two.rule)", "ranks.get(rank)"],
    may: {
      "src/plan/check/check-rules.ts":
        "the register of the rules of check: their order, and what each asks for",
      "src/plan/file/read-plan.ts": "tells a rule of line files in words of plans",
    },
  },
  {
    what: "a sentence is read",
    pattern:
      /\bmessage\s*(?:[!=]==|[<>]=?)\s|\bmessage\.(?:includes|startsWith|endsWith|match|search|split|slice|replace)\(|\.test\((?:\w+\.)*message\)|\b(?:reason|clause)\.(?:includes|startsWith|endsWith|match)\(/u,
    planted: [
      "own.message === message",
      'found.message.includes("zone")',
      "/is written here/u.test(message)",
      'answer.reason.startsWith("every way")',
    ],
    fine: ["const message = wordsOf(id);", "formatFindings(message, width)"],
    may: { "src/plan/check/check-plan.ts": "puts findings of one place in an order" },
  },
];

describe.each(WAYS)("Nothing is decided where $what", ({ pattern, planted, fine, may }) => {
  it("but where the list says why", () => {
    expect(files.filter((file) => pattern.test(textOf(file)))).toEqual(Object.keys(may).sort());
  });

  it("in code that is planted, and no other", () => {
    expect(planted.filter((code) => !pattern.test(code))).toEqual([]);
    expect(fine.filter((code) => pattern.test(code))).toEqual([]);
  });
});
