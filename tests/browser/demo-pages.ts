import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const folder = fileURLToPath(new URL("../../examples/", import.meta.url));
const example = (name: string) => readFileSync(`${folder}${name}`, "utf8");

/** A line with its plan, and the plan that stood before. */
export interface Subject {
  readonly name: string;
  readonly files: Readonly<Record<"a.line.yaml" | "a.plan.yaml" | "b.plan.yaml", string>>;
  /** A station to be drawn over time. */
  readonly station: string;
}

export const DEMO: Subject = {
  name: "the cargo bike line",
  files: {
    "a.line.yaml": example("cargo-bike.line.yaml"),
    "a.plan.yaml": example("cargo-bike.plan.yaml"),
    "b.plan.yaml": example("last-season.plan.yaml"),
  },
  station: "S11",
};

/** A line whose times vary, to be simulated. */
export const WHEELS: Subject = {
  name: "the wheel line",
  files: {
    "a.line.yaml": example("wheels.line.yaml"),
    "a.plan.yaml": example("wheels.plan.yaml"),
    "b.plan.yaml": example("wheels.plan.yaml"),
  },
  station: "W3",
};

/** A line of so many tasks in layers of arrows, so many a station; the first station held one more before. */
function drawnLine(
  name: string,
  tasks: number,
  each: number,
  nameOf: (task: number) => string,
  idOf = nameOf,
): Subject {
  const id = (task: number) => JSON.stringify(idOf(task));
  const rows = Array.from({ length: tasks }, (_, at) => {
    const after = [at - 3, at - 7].filter((before) => before >= 0).map(id);
    return `  ${id(at)}: {name: ${JSON.stringify(`Task ${at + 1}: ${nameOf(at)}`)}, time: ${7 + ((at * 11) % 24)}, spread: ${at % 3}, after: [${after.join(", ")}]}`;
  });
  const plan = (first: number) => {
    const begins = [0];
    for (let begin = first; begin < tasks; begin += each) begins.push(begin);
    const stations = begins.map((begin, at) => {
      const own = Array.from({ length: (begins[at + 1] ?? tasks) - begin }, (_, turn) => id(begin + turn));
      return `  - {id: S${at + 1}, tasks: [${own.join(", ")}]}`;
    });
    return `format: linepoise-plan/1\nline: a.line.yaml\nstations:\n${stations.join("\n")}\n`;
  };
  return {
    name,
    files: {
      "a.line.yaml": `line: ${JSON.stringify(`Line of ${nameOf(0)}`)}\nunit: s\nplan-to: 95 %\ndemand: 36 per hour\ntasks:\n${rows.join("\n")}\n`,
      "a.plan.yaml": plan(each),
      "b.plan.yaml": plan(each + 1),
    },
    station: "S1",
  };
}

export const SMALL = drawnLine("5 tasks", 5, 3, (task) => `t${task + 1}`);
export const LARGE = drawnLine("300 tasks", 300, 4, (task) => `task-${task + 1}`);

/** Names that markup, scripts, spreadsheets or the direction of writing could trip over, and words without a place to break. */
const HOSTILE = [
  `<script>alert("x")</script>`,
  `</title></style></svg><b>&amp;`,
  `"'><img src=x onerror=alert(1)>`,
  "\u202Ereversed\u202C \u2066isolated\u2069",
  "مقود الدراجة",
  "tab\tand bell\u0007 and escape\u001B[2J",
  "W".repeat(60),
  "東京ライト ⚡️ e\u0301",
  "]]> --> /* {{x}} %s",
];

/** Ids with characters that cannot be seen are refused; names may have them. */
export const HOSTILE_NAMES = drawnLine(
  "names that look like markup",
  HOSTILE.length,
  3,
  (task) => HOSTILE[task]!,
  (task) => (/[\p{Cc}\p{Cf}]/u.test(HOSTILE[task]!) ? `t${task + 1}` : HOSTILE[task]!),
);

/** What a command writes about the line and the plan of a subject. */
export const write = (subject: Subject, command: string, ...options: string[]): Promise<string> =>
  run(subject, command, "a.line.yaml", "a.plan.yaml", ...options);

/** What a command of the program writes in the folder of a subject; the same words are written once. */
export function run(subject: Subject, ...args: string[]): Promise<string> {
  const words = [subject.name, ...args].join(" ");
  const known = written.get(words) ?? runOnce(subject, args);
  written.set(words, known);
  return known;
}

const written = new Map<string, Promise<string>>();

async function runOnce({ files }: Subject, args: readonly string[]): Promise<string> {
  const { stdout, stderr, status } = await runLinepoise({ args, files });
  expect(status, stderr).toBeLessThan(2);
  return stdout;
}

export const reportOf = (subject: Subject): Promise<string> =>
  write(subject, "report", "--against", "b.plan.yaml", "--proof", "--options", "--nodes", "200");
