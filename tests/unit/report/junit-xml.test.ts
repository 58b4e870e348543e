import { expect, it } from "vitest";
import { judgeFindings } from "../../../src/plan/check/check-result.js";
import { planFinding } from "../../../src/plan/check/plan-finding.js";
import { refusedAnnotations } from "../../../src/report/ci/github-annotations.js";
import { refusedJunit } from "../../../src/report/ci/junit-xml.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const ODD =
  "a\u0000b\u0008c\td\ne\rf\u001b[31m \ud800 \uffff <x a='1' b=\"2\">&amp; ]]> 100 %: done, ::error::no";
const findings = judgeFindings(
  [planFinding({ rule: "zone", severity: "error", message: ODD, file: "a:b,c%d\ne.yaml" })],
  null,
  "error",
);

it("JUnit XML holds no character that XML cannot, and no text that ends its own tag", () => {
  const xml = refusedJunit("a:b,c%d\ne.yaml", findings);
  const words =
    "a␀b␈c␉d␊e␍f␛[31m \\u{d800}  &lt;x a=&apos;1&apos; b=&quot;2&quot;&gt;&amp;amp; ]]&gt; 100 %: done, ::error::no";
  expect(xml.split("\n")).toEqual([
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<testsuites name="linepoise check" tests="1" failures="0" errors="1">',
    '  <testsuite name="a:b,c%d&#10;e.yaml" tests="1" failures="0" errors="1">',
    '    <testcase classname="a:b,c%d&#10;e.yaml" name="zone">',
    `      <error type="zone" message="${words}">error: ${words}</error>`,
    "    </testcase>",
    "  </testsuite>",
    "</testsuites>",
    "",
  ]);
});

it("An annotation is one line whatever it says", () => {
  expect(refusedAnnotations(findings)).toBe(
    "::error file=a%3Ab%2Cc%25d%0Ae.yaml,title=zone::a␀b␈c␉d␊e␍f␛[31m \\u{d800} \uffff <x a='1' b=\"2\">&amp; ]]> 100 %25: done, ::error::no\n",
  );
});

it("A plan that could not be read counts once, also where a finding about it stands in the line file", async () => {
  const files = {
    "l.yaml": "unit: s\ndemand: 60 per hour\npeople: {Ana: []}\ntasks: {a: 40, b: 30}\n",
    "p.yaml":
      "format: linepoise-plan/1\nstations:\n  - {id: S1, crew: 2, tasks: [a]}\n  - {id: S2, tasks: [b]}\n",
  };
  const check = ["check", "l.yaml", "p.yaml"];
  const { stdout, stderr } = await runLinepoise({ args: check, files });
  expect(stderr).toContain("l.yaml: warning: 2 people are planned at a time, and `people` names 1");
  expect(stdout).toBe("1 plan: 1 not read (1 error, 1 warning)\n");
  const junit = (await runLinepoise({ args: [...check, "--format", "junit"], files })).stdout;
  expect(junit.match(/<testsuite name="[^"]*"/gu)).toEqual(['<testsuite name="p.yaml"']);
});
