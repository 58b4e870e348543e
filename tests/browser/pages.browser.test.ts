import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { HtmlValidate } from "html-validate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  DEMO,
  HOSTILE_NAMES,
  LARGE,
  reportOf,
  run,
  SMALL,
  type Subject,
  WHEELS,
  write,
} from "./demo-pages.js";
import { faultsOfPage } from "./look-at-page.js";
import { openBrowser } from "./open-browser.js";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const SIZES = [
  ["a phone", { width: 360, height: 740 }],
  ["a laptop", { width: 1366, height: 768 }],
] as const;

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

/** Shows a page, or a picture as a file of its own, and tells what the browser complains of. */
async function show(content: string, type: "text/html" | "image/svg+xml") {
  const page = await browser.newPage();
  const complaints: string[] = [];
  page.on("console", (message) => complaints.push(`console: ${message.text()}`));
  page.on("pageerror", (error) => complaints.push(`error: ${error.message}`));
  page.on("dialog", (dialog) => {
    complaints.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  const address = "http://page.invalid/";
  await page.route("**/*", (route) => {
    if (route.request().url() === address)
      return route.fulfill({ body: content, contentType: `${type}; charset=utf-8` });
    complaints.push(`request: ${route.request().url()}`);
    return route.abort();
  });
  await page.goto(address);
  return { page, complaints };
}

async function axeFaults(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: typeof import("axe-core") }).axe.run(),
  );
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
}

const PAGES: readonly (readonly [string, Subject, (subject: Subject) => Promise<string>])[] = [
  DEMO,
  SMALL,
  LARGE,
  HOSTILE_NAMES,
].flatMap((subject) => [
  [`the report of ${subject.name}`, subject, reportOf] as const,
  [`the sheets of ${subject.name}`, subject, (of: Subject) => write(of, "sheets")] as const,
]);

const SIMULATED = ["simulated days", WHEELS, (of: Subject) => write(of, "report", "--simulate")] as const;

describe.each([...PAGES, SIMULATED])("A browser shows %s", (_, subject, make) => {
  it("on a phone and on a laptop, without a fault", async () => {
    const html = await make(subject);
    const { page, complaints } = await show(html, "text/html");
    for (const [size, viewport] of SIZES) {
      await page.setViewportSize(viewport);
      expect(await page.evaluate(faultsOfPage), size).toEqual([]);
    }
    // On a phone, where parts are wider than the screen.
    await page.setViewportSize(SIZES[0][1]);
    expect(await axeFaults(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("whose markup is valid HTML", async () => {
    const validator = new HtmlValidate({
      extends: ["html-validate:recommended"], // Titles are names of lines, which are as long as they are.
      rules: { "long-title": "off" },
    });
    const { results } = await validator.validateString(await make(subject));
    const told = results.flatMap(({ messages }) => messages.map((each) => `${each.ruleId}: ${each.message}`));
    expect([...new Set(told)]).toEqual([]);
  });
});

describe("A report in a browser", () => {
  it("sorts a table by a column, up, down and as it was, with the keys alone", async () => {
    const { page, complaints } = await show(await reportOf(DEMO), "text/html");
    const table = page.locator("table[data-sorts]", { hasText: "tasks in order of work" }).first();
    const column = (at: number) =>
      table.locator(`tbody tr td:nth-child(${at})`).evaluateAll((all) => all.map((each) => each.textContent));
    const written = await column(1);
    const head = table.locator("th", { hasText: "load" });
    await head.locator("button").focus();
    const shares = async () => (await column(6)).map((each) => Number.parseFloat(each ?? ""));
    const inOrder = (await shares()).sort((one, two) => one - two);
    await page.keyboard.press("Enter");
    expect(await shares()).toEqual(inOrder);
    expect(await head.getAttribute("aria-sort")).toBe("ascending");
    await page.keyboard.press("Space");
    expect(await shares()).toEqual(inOrder.toReversed());
    await page.keyboard.press("Enter");
    expect(await column(1)).toEqual(written);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("marks a station in the table, the loads and the order of work, and takes the mark away again", async () => {
    const { page, complaints } = await show(await reportOf(DEMO), "text/html");
    const marked = () =>
      page
        .locator(".marked")
        .evaluateAll((all) =>
          all.map((each) => `${each.localName} ${each.getAttribute("data-station")}`).sort(),
        );
    await page.getByRole("button", { name: "S11", exact: true }).focus();
    await page.keyboard.press("Enter");
    expect(await marked()).toEqual(["g S11", "g S11", "tr S11"]);
    expect(await axeFaults(page)).toEqual([]);
    await page.locator('svg [data-station="S2"] text').first().click();
    expect(await marked()).toEqual(["g S2", "g S2", "tr S2"]);
    await page.getByRole("button", { name: "S2", exact: true }).press("Space");
    expect(await marked()).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("is read without a script", async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.setContent(await reportOf(DEMO));
    expect(await page.locator("button").count()).toBe(0);
    expect(await page.locator("table tbody tr").count()).toBeGreaterThan(30);
    await context.close();
  });

  it("runs no script and asks for nothing but what it brings", async () => {
    const planted = (await reportOf(SMALL)).replace(
      "</main>",
      "</main><script>document.title = 'planted'</script><img src='/x.png'>",
    );
    const { page, complaints } = await show(planted, "text/html");
    expect(await page.title()).not.toBe("planted");
    expect(complaints.filter((each) => each.startsWith("request"))).toEqual([]);
    expect(complaints.length).toBeGreaterThan(0);
    await page.close();
  });
});

/** The pictures of a subject, each by the words of its command. */
const pictures = (subject: Subject): Record<string, () => Promise<string>> => ({
  loads: () => write(subject, "chart", "--format", "svg"),
  order: () => write(subject, "chart", "--of", "order", "--against", "b.plan.yaml", "--format", "svg"),
  station: () => write(subject, "chart", "--of", "station", "--station", subject.station, "--format", "svg"),
  staff: () =>
    run(
      subject,
      "staff",
      "a.line.yaml",
      "--demand",
      "20..40/20 per hour",
      "--nodes",
      "200",
      "--format",
      "svg",
    ),
});

/** The demo has options, the drawn lines none. */
const optionsPicture = () => run(DEMO, "compare", "a.line.yaml", "--nodes", "200", "--format", "svg");

it.each([
  ...[DEMO, SMALL, LARGE, HOSTILE_NAMES].flatMap((subject) =>
    Object.entries(pictures(subject)).map(([of, make]) => ({ of, line: subject.name, make })),
  ),
  { of: "options", line: DEMO.name, make: optionsPicture },
  { of: "days", line: WHEELS.name, make: () => write(WHEELS, "simulate", "--format", "svg") },
])("A browser shows the $of of $line without a word cut, or over another", async ({ make }) => {
  const { page, complaints } = await show(await make(), "image/svg+xml");
  expect(await page.evaluate(faultsOfPage)).toEqual([]);
  expect(complaints).toEqual([]);
  await page.close();
});
