import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

async function show(line: string) {
  const args = ["balance", "line.yaml", "--cycle", "60"];
  const { stdout, stderr } = await runLinepoise({ args, files: { "line.yaml": line } });
  return { text: stdout.replace(/\s+/gu, " "), stderr };
}

const line = (models: string, more = "") =>
  `line: boxes\nunit: s\nmodels: {${models}}\n${more}tasks:\n  fit: {time: {city: 40, cargo: 70}}\n`;

describe("the proposed sequence of models", () => {
  it("is shown whole where it is short, equal neighbours counted", async () => {
    const { text } = await show(line("city: 80 %, cargo: 20 %"));
    expect(text).toContain("Proposed sequence, 5 units again and again:");
    expect(text).toContain(": 2 x city, cargo, 2 x city.");
  });

  it("is shown by its beginning where nobody would read it through", async () => {
    const { text } = await show(line("city: 61.3 %, cargo: 38.7 %"));
    expect(text).toContain("Proposed sequence, 199 units again and again");
    expect(text).toContain("and so on (--json has all 199). The shares come out even only over more units;");
    expect(text).toContain("these are 77 cargo, 122 city.");
  });
});

it("names no worst model at a station that takes as long on each", async () => {
  const same =
    "line: boxes\nunit: s\nmodels: {city: 50 %, cargo: 50 %}\ntasks: {fit: {time: {city: 40, cargo: 40}}}\n";
  expect((await show(same)).text).toContain("S1 40 s, 66.7 % all alike 40 s, 66.7 %");
  expect((await show(same.replace("cargo: 40}", "cargo: 42}"))).text).toContain("cargo 42 s, 70 %");
});

describe("drift that never settles", () => {
  it("has no end where the given order brings more than the working time on average", async () => {
    // The given order averages (40 + 70 + 70) / 3 = 60 s with 60 s of time: it settles; with one more 70 s it does not.
    const settled = await show(line("city: 90 %, cargo: 10 %", "sequence: [city, cargo, cargo]\n"));
    expect(settled.text).not.toContain("no end");
    const { text, stderr } = await show(
      line("city: 90 %, cargo: 10 %", "sequence: [city, cargo, cargo, cargo]\n"),
    );
    expect(text).toMatch(/cargo 70 s, 116\.7 % no end 10 s/u);
    expect(text).toContain("No end by the order");
    expect(stderr).toContain("[drift-grows]");
  });
});
