import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

/** A line of so many tasks, three of a station each, in layers of arrows; times from 7 to 30 s. */
function lineAndPlan(tasks: number, name: (task: number) => string) {
  const numbers = Array.from({ length: tasks }, (_, at) => at);
  const rows = numbers.map((at) => {
    const after = [at - 3, at - 7].filter((each) => each >= 0).map((each) => JSON.stringify(name(each)));
    return `  ${JSON.stringify(name(at))}: {time: ${7 + ((at * 11) % 24)}, after: [${after.join(", ")}]}`;
  });
  const stations = numbers
    .filter((at) => at % 3 === 0)
    .map((at, station) => {
      const own = numbers.slice(at, at + 3).map((each) => JSON.stringify(name(each)));
      return `  - {id: S${station + 1}, tasks: [${own.join(", ")}]}`;
    });
  return {
    "a.line.yaml": `unit: s\nplan-to: 90 %\ndemand: 36 per hour\ntasks:\n${rows.join("\n")}\n`,
    "a.plan.yaml": `format: linepoise-plan/1\nline: a.line.yaml\nstations:\n${stations.join("\n")}\n`,
  };
}

async function chart(files: Record<string, string>, ...options: string[]) {
  const args = ["chart", "a.line.yaml", "a.plan.yaml", ...options];
  const { stdout, status, stderr } = await runLinepoise({ args, files });
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return stdout;
}

const numberIn = (tag: string, name: string): number =>
  Number(new RegExp(` ${name}="(-?[\\d.]+)"`, "u").exec(tag)?.[1] ?? Number.NaN);

interface Words {
  readonly text: string;
  readonly from: number;
  readonly to: number;
  readonly y: number;
}

/** Where words stand, taking a letter as wide as the pictures do. */
function wordsIn(svg: string): Words[] {
  return [...svg.matchAll(/<text([^>]*)>([^<]*)<\/text>/gu)].map(([, tag = "", text = ""]) => {
    const width = text.length * 7;
    const x = numberIn(tag, "x");
    const anchor = /text-anchor="(\w+)"/u.exec(tag)?.[1] ?? "start";
    const from = anchor === "start" ? x : anchor === "middle" ? x - width / 2 : x - width;
    return { text, from, to: from + width, y: numberIn(tag, "y") };
  });
}

describe.each([
  ["5 tasks", 5, (task: number) => `t${task}`],
  ["5 tasks with long names", 5, (task: number) => `a task with a long name ${task}`],
  ["300 tasks", 300, (task: number) => `task ${task}`],
])("Pictures of a plan of %s", (_, tasks, name) => {
  const files = lineAndPlan(tasks, name);

  it("have bars as long as the times they stand for", async () => {
    const svg = await chart(files, "--format", "svg");
    const loads = JSON.parse(await chart(files, "--json"));
    const longest = Math.max(
      1,
      ...loads.stations.map((each: { ofWorkingTime: number }) => each.ofWorkingTime),
    );
    const bars = [...svg.matchAll(/<rect([^>]*)fill="#fff" stroke="#000"/gu)].map(([, tag = ""]) => tag);
    const times = [...files["a.line.yaml"].matchAll(/time: (\d+)/gu)].map(([, time]) => Number(time));
    // 36 an hour are 100 s each; the last rectangle belongs to the key.
    expect(bars.length).toBe(tasks + 1);
    for (const [at, time] of times.entries())
      expect(numberIn(bars[at]!, "width")).toBeCloseTo((640 * time) / 100 / longest, 1);
  });

  it("draw each task once, at its station, and the arrows that no others imply", async () => {
    const svg = await chart(files, "--of", "order", "--format", "svg");
    const words = wordsIn(svg);
    for (let task = 0; task < tasks; task++)
      expect(words.filter(({ text }) => text === name(task)).length, name(task)).toBe(1);
    const { arrows } = JSON.parse(await chart(files, "--of", "order", "--json"));
    const reduced = reduceByBruteForce(tasks);
    expect(arrows.map(({ from, to }: Record<string, string>) => `${from} > ${to}`).sort()).toEqual(
      reduced.map(([from, to]) => `${name(from)} > ${name(to)}`).sort(),
    );
    expect(svg.split("marker-end").length - 1).toBe(reduced.length);
  });
});

/** Arrows from 3 and 7 tasks before, without those that a longer way implies. */
function reduceByBruteForce(tasks: number): [number, number][] {
  const steps = [3, 7];
  const arrows = Array.from({ length: tasks }, (_, to) =>
    steps.filter((step) => step <= to).map((step): [number, number] => [to - step, to]),
  ).flat();
  const reaches = (from: number, to: number, without: [number, number] | null): boolean =>
    from === to ||
    steps.some((step) => {
      const next = from + step;
      const isLeftOut = without !== null && without[0] === from && without[1] === next;
      return next <= to && next < tasks && !isLeftOut && reaches(next, to, null);
    });
  return arrows.filter(([from, to]) => !reaches(from, to, [from, to]));
}

describe("A picture of a plan", () => {
  it("says inside of its frame which benches it leaves out", async () => {
    const files = lineAndPlan(5, (task) => `t${task}`);
    const bench = "benches:\n  - {id: Fork bench, tasks: [extra]}\n";
    const svg = await chart(
      {
        "a.line.yaml": files["a.line.yaml"]
          .replace("tasks:\n", "tasks:\n  extra: 5\n")
          .replace("after: [t0]", "after: [t0, extra]"),
        "a.plan.yaml": `${files["a.plan.yaml"]}${bench}`,
      },
      "--format",
      "svg",
    );
    const told = wordsIn(svg).find(({ text }) => text.includes("Fork bench"))!;
    expect(told.text).toBe("The bench Fork bench stands beside the line and is not drawn.");
    expect(told.to).toBeLessThan(numberIn(svg, "width"));
    expect(told.y).toBeLessThan(numberIn(svg, "height"));
  });

  it("escapes names that look like markup", async () => {
    const files = lineAndPlan(5, (task) => `<b>&"'${task}`);
    for (const of of ["loads", "order"]) {
      const svg = await chart(files, "--of", of, "--format", "svg");
      expect(svg).not.toContain("<b>");
      expect(svg).toContain("&lt;b&gt;&amp;&quot;&#39;1");
    }
  });

  it("marks the tasks that stood elsewhere, and says where", async () => {
    const files = lineAndPlan(6, (task) => `t${task}`);
    const before = files["a.plan.yaml"].replace('"t3"', "X").replace('"t2"', '"t3"').replace("X", '"t2"');
    const args = [
      "chart",
      "a.line.yaml",
      "a.plan.yaml",
      "--of",
      "order",
      "--against",
      "b.plan.yaml",
      "--json",
    ];
    const { stdout } = await runLinepoise({ args, files: { ...files, "b.plan.yaml": before } });
    expect(JSON.parse(stdout).moved).toEqual([
      { task: "t2", from: "S2" },
      { task: "t3", from: "S1" },
    ]);
  });

  it("refuses options of another chart", async () => {
    const files = lineAndPlan(5, (task) => `t${task}`);
    for (const options of [
      ["--station", "S1"],
      ["--of", "station"],
      ["--against", "a.plan.yaml"],
    ]) {
      const args = ["chart", "a.line.yaml", "a.plan.yaml", ...options];
      const { status, stdout, stderr } = await runLinepoise({ args, files });
      expect([status, stdout]).toEqual([2, ""]);
      expect(stderr).toContain("--of");
    }
  });
});

const LINE = `unit: s
demand: 60 per hour
tasks: {a: {time: 40}, b: {time: 20, after: a}, c: {time: 30}, d: {time: 25, after: [b, c]}}
options: {c-off-line: {off-line: [[c]]}, slower: {demand: 40 per hour}}
`;

async function pictureAndFacts(...args: string[]) {
  const files = { "a.line.yaml": LINE };
  const svg = await runLinepoise({ args: [...args, "--out", "a.svg"], files });
  const json = await runLinepoise({ args: [...args, "--json"], files });
  expect([svg.status, json.status], svg.stderr).toEqual([0, 0]);
  return { svg: svg.files["a.svg"]!, facts: JSON.parse(json.stdout) };
}

describe("The picture of a staffing curve", () => {
  it("has a line from the first to the last demand of each step, at the height of its people", async () => {
    const { svg, facts } = await pictureAndFacts("staff", "a.line.yaml", "--demand", "30..90/20");
    const steps = [...svg.matchAll(/<line class="step"([^>]*)\/>/gu)].map(([, tag = ""]) => tag);
    const people = facts.steps.map((each: { people: number }) => each.people);
    expect(steps.length).toBe(people.length);
    expect(people.length).toBeGreaterThan(2);
    const [, left = "", bottom = ""] = /<path d="M([\d.]+) \d+V([\d.]+)H/u.exec(svg)!;
    for (const [at, { fromDemand: from, toDemand: to, outcome }] of facts.steps.entries()) {
      // 640 units are 60 of demand, from 30 on; a person is 18.
      const x = (demand: number) => Number(left) + ((demand - 30) / 60) * 640;
      const spare = from === to ? 1.5 : 0;
      expect(numberIn(steps[at]!, "x1")).toBeCloseTo(x(from) - spare, 1);
      expect(numberIn(steps[at]!, "x2")).toBeCloseTo(x(to) + spare, 1);
      expect(numberIn(steps[at]!, "y1")).toBeCloseTo(Number(bottom) - 18 * people[at], 1);
      expect(steps[at]!.includes("stroke-dasharray")).toBe(outcome !== "proved");
    }
    const points = [...svg.matchAll(/<circle([^>]*)\/>/gu)].map(([, tag = ""]) => tag);
    expect(points.map((tag) => (Number(bottom) - numberIn(tag, "cy")) / 18)).toEqual(
      facts.rows.map((row: { people: number }) => row.people),
    );
  });
});

describe("The picture of options", () => {
  it("has bars in proportion to the figures, the best ones aslant", async () => {
    const { svg, facts } = await pictureAndFacts("compare", "a.line.yaml");
    const bars = [...svg.matchAll(/<rect class="figure"([^>]*)\/>/gu)].map(([, tag = ""]) => tag);
    const heads = [...svg.matchAll(/font-weight="bold">([^<;]*);/gu)].map(([, head]) => head);
    expect(bars.length).toBe(3 * heads.length);
    const keys: Record<string, string> = {
      "people per shift": "peoplePerShift",
      "stations on the line": "stations",
      "cycle of the plan": "slowestCycleSeconds",
      "efficiency at the pace": "efficiencyAtPace",
    };
    for (const [head, key] of Object.entries(keys)) {
      const at = heads.indexOf(head);
      expect(at, head).toBeGreaterThanOrEqual(0);
      const values: (number | null)[] = facts.options.map(
        (option: { figures: Record<string, number | null> }) => option.figures[key] ?? null,
      );
      const most = Math.max(...values.map((value) => value ?? 0));
      for (const [option, value] of values.entries()) {
        const bar = bars[3 * at + option]!;
        expect(numberIn(bar, "width"), `${head} ${option}`).toBeCloseTo((420 * (value ?? 0)) / most, 1);
        expect(bar.includes("aslant"), head).toBe(facts.options[option].best.includes(key));
      }
    }
  });
});

describe("A load chart of a line with studied times", () => {
  it("marks how long nine units in ten take at most: 1.2816 standard deviations above the mean", async () => {
    // 52, 54, 55, 58 and 71 s have a mean of 58 s; their squared deviations, 36 + 16 + 9 + 0 + 169, are 57.5 for each of n - 1.
    const studied = await runLinepoise({
      args: ["study", "r.csv", "--unit", "s", "--into", "a.line.yaml"],
      files: {
        "r.csv": "element,1,2,3,4,5\na,52,54,55,58,71\n",
        "a.line.yaml":
          "unit: s\ndemand: 60 per hour\ntasks:\n  a: {time: 50}\n  b: {time: 30, spread: 3, after: a}\n  c: {time: 20, spread: 4, after: b}\n  d: {time: 40, after: c}\n",
        "a.plan.yaml":
          "format: linepoise-plan/1\nline: a.line.yaml\nstations: [{id: S1, tasks: [a]}, {id: S2, tasks: [b, c]}, {id: S3, tasks: [d]}]\n",
      },
    });
    expect(studied.status, studied.stderr).toBe(0);
    const files = studied.files;
    const { stations } = JSON.parse(await chart(files, "--json"));
    const shares = stations.map((station: { lanes: { nineInTenOfWorkingTime: number | null }[] }) =>
      station.lanes.map((lane) => lane.nineInTenOfWorkingTime),
    );
    // z of 90 %: NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.1. Of 3 s and 4 s together: 5 s.
    expect(shares[0][0] * 60).toBeCloseTo(58 + 1.2816 * Math.sqrt(57.5), 2);
    expect(shares[1][0] * 60).toBeCloseTo(50 + 1.2816 * 5, 2);
    expect(shares[2]).toEqual([null]);
    const svg = await chart(files, "--format", "svg");
    const whiskers = [...svg.matchAll(/class="whisker" d="M([\d.]+) [\d.]+H([\d.]+)M/gu)].map(
      ([, from, to]) => [Number(from), Number(to)],
    );
    // The last belongs to the key. The longest share takes all 640 units.
    const [, left = ""] = /<rect x="([\d.]+)"/u.exec(svg.slice(svg.indexOf("</defs>")))!;
    const at = (share: number) => Number(left) + (640 * share) / shares[0][0];
    expect(whiskers.length).toBe(3);
    for (const [station, mean] of [58 / 60, 50 / 60].entries()) {
      expect(whiskers[station]![0]).toBeCloseTo(at(mean), 1);
      expect(whiskers[station]![1]).toBeCloseTo(at(shares[station][0]), 1);
    }
    // Of each task alone at the station of two, from the end of its mean: 30 s and 3 s, then 20 s and 4 s. The last belongs to the key.
    const marks = [...svg.matchAll(/class="mark" d="M([\d.]+) [\d.]+V([\d.]+)H([\d.]+)M/gu)].map(
      ([, from, y, to]) => [from, to, y].map(Number),
    );
    expect(marks.length).toBe(3);
    for (const [task, [mean, late]] of [
      [30, 30 + 1.2816 * 3],
      [50, 50 + 1.2816 * 4],
    ].entries()) {
      expect(marks[task]![0]).toBeCloseTo(at(mean! / 60), 1);
      expect(marks[task]![1]).toBeCloseTo(at(late! / 60), 1);
    }
    const inTable = stations.flatMap(({ varying }: { varying: Record<string, string | number>[] }) =>
      varying.map(({ task, nineInTenSeconds }) => [task, nineInTenSeconds]),
    );
    expect(inTable.map(([task]: [string]) => task)).toEqual(["a", "b", "c"]);
    expect(inTable[1][1]).toBeCloseTo(30 + 1.2816 * 3, 3);
    expect(svg).toContain(">nine units in ten take no longer</text>");
    const text = await chart(files);
    expect(text).toContain("> nine units in ten take no longer");
    // Read without a pointer: the figure of each task stands in a table as well.
    expect(text).toMatch(/b +S2 +30 s +3 s +33\.845 s\n +c +S2 +20 s +4 s +25\.126 s/u);
    const page = await runLinepoise({ args: ["report", "a.line.yaml", "a.plan.yaml"], files });
    expect(page.stdout).toContain("33.845 s");
  });
});

describe("Marks of tasks whose times vary", () => {
  it("lie over no other, however long they are: those that would are drawn one below another", async () => {
    const times = Array.from({ length: 12 }, (_, at) => `t${at}: {time: 4, spread: ${at % 2 === 0 ? 6 : 1}}`);
    const files = {
      "a.line.yaml": `unit: s\ndemand: 60 per hour\ntasks: {${times.join(", ")}}\n`,
      "a.plan.yaml": `format: linepoise-plan/1\nline: a.line.yaml\nstations: [{id: S1, tasks: [${times.map((_, at) => `t${at}`).join(", ")}]}]\n`,
    };
    const svg = await chart(files, "--format", "svg");
    const marks = [...svg.matchAll(/class="mark" d="M([\d.]+) [\d.]+V([\d.]+)H([\d.]+)M/gu)]
      .map(([, from, y, to]) => ({ from: Number(from), y: Number(y), to: Number(to) }))
      .slice(0, -1);
    expect(marks.length).toBe(12);
    expect(new Set(marks.map(({ y }) => y)).size).toBeGreaterThan(1);
    for (const [at, one] of marks.entries())
      for (const two of marks.slice(at + 1))
        expect(one.y !== two.y || one.to < two.from || two.to < one.from).toBe(true);
  });
});

describe("The picture of simulated days", () => {
  it("has bars in proportion to what the stations do, end to end", async () => {
    const files = {
      "a.line.yaml":
        "unit: s\ndemand: 60 per hour\nbuffers: {after S1: 1}\nvariation: {shape: normal, cv: 20 %}\nbreakdowns: {S2: {every: 1 h, lasts: 5 min}}\ntasks: {a: 40, b: {time: 45, after: a}, c: {time: 40, after: b}}\n",
      "a.plan.yaml":
        "format: linepoise-plan/1\nline: a.line.yaml\nstations: [{id: S1, tasks: [a]}, {id: S2, tasks: [b]}, {id: S3, tasks: [c]}]\n",
    };
    const args = ["simulate", "a.line.yaml", "a.plan.yaml", "--replications", "2"];
    const { stations } = JSON.parse((await runLinepoise({ args: [...args, "--json"], files })).stdout);
    const { stdout, status } = await runLinepoise({ args: [...args, "--format", "svg"], files });
    expect(status).toBe(0);
    const drawn = stdout.split("<g>").slice(1, 4);
    const seen = new Set<string>();
    for (const [at, station] of stations.entries()) {
      let x: number | null = null;
      for (const [, state = "", tag = ""] of drawn[at]!.matchAll(/<rect class="(\w+)"([^>]*)\/>/gu)) {
        expect(numberIn(tag, "width")).toBeCloseTo(560 * station[state], 1);
        if (x !== null) expect(numberIn(tag, "x")).toBeCloseTo(x, 1);
        x = numberIn(tag, "x") + numberIn(tag, "width");
        seen.add(state);
      }
    }
    expect([...seen].sort()).toEqual(["blocked", "busy", "down", "starved"]);
    const report = await runLinepoise({
      args: ["report", ...args.slice(1, 3), "--simulate", "--json"],
      files,
    });
    expect(JSON.parse(report.stdout).simulation.stations.map(({ id }: { id: string }) => id)).toEqual(
      stations.map(({ id }: { id: string }) => id),
    );
  });
});

it("tells an arrow over more than sixty stations at its end, and draws a line however many arrows pass its stations", async () => {
  const numbers = Array.from({ length: 720 }, (_, at) => at);
  const rows = numbers.map((at) => `  t${at}: {time: 50${at < 360 ? "" : `, after: [t${at - 360}]`}}`);
  const stations = numbers.map((at) => `  - {id: S${at + 1}, tasks: [t${at}]}`);
  const svg = await chart(
    {
      "a.line.yaml": `unit: s\ndemand: 36 per hour\ntasks:\n${rows.join("\n")}\n`,
      "a.plan.yaml": `format: linepoise-plan/1\nline: a.line.yaml\nstations:\n${stations.join("\n")}\n`,
    },
    ...["--of", "order", "--format", "svg"],
  );
  for (const at of [360, 719]) expect(svg).toContain(`>t${at}, after t${at - 360}<`);
  expect(svg).not.toContain("marker-end");
});
