import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { expect, it } from "vitest";
import { READING_RULES } from "../../../src/line/read/reading-rules.js";
import { LINE_RULES } from "../../../src/line/rules/register.js";
import { CHECK_RULES } from "../../../src/plan/check/check-rules.js";

const source = new URL("../../../src/", import.meta.url);
const committed = new URL("codes.txt", import.meta.url);

/** The codes that findings may have: of the registers, and of what is told elsewhere. */
function codes(): string[] {
  const files = readdirSync(source, { recursive: true, encoding: "utf8" }).filter((path) =>
    path.endsWith(".ts"),
  );
  const written = files.flatMap((path) => {
    const text = readFileSync(new URL(path, source), "utf8");
    return [...text.matchAll(/\brule: "([a-z][a-z-]*)"|\b(?:fault|taskFault)\(\s*"([a-z][a-z-]*)"/g)];
  });
  const registered = [...LINE_RULES, ...READING_RULES, ...CHECK_RULES].map(({ name }) => name);
  return [...new Set([...registered, ...written.map(([, one, two]) => one ?? two!)])].sort();
}

/** Scripts and workflows hold on to them: within a major version codes are added only. `UPDATE=1` rewrites the list, you read. */
it("are the committed ones", () => {
  const text = `${codes().join("\n")}\n`;
  if (process.env.UPDATE === "1") writeFileSync(committed, text);
  expect(text).toBe(readFileSync(committed, "utf8"));
});
