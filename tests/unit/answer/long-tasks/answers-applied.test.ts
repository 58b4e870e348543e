import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

/** What `balance --json` says of a line file. */
async function balance(text: string, ...options: string[]) {
  const args = ["balance", "line.yaml", "--json", ...options];
  const { stdout } = await runLinepoise({ args, files: { "line.yaml": text } });
  return JSON.parse(stdout);
}

/** The answers to the first task that is too long, by what they begin with. */
async function answersTo(text: string, ...options: string[]): Promise<Map<string, string>> {
  const { outcome, offLine } = await balance(text, ...options);
  expect(outcome).toBe("infeasible");
  const parts: string[] = offLine[0].reason.split("; ");
  return new Map(parts.map((part) => [part.split(":")[0]!, part]));
}

/** "4 stations and 5 people in all" of a balance, as answers word it. */
async function sizeOf(text: string, ...options: string[]): Promise<string> {
  const { measures, outcome } = await balance(text, ...options);
  if (measures === null) return outcome;
  const [stations, people] = [measures.stations, measures.peopleInAll];
  return `${stations} ${stations === 1 ? "station" : "stations"} and ${people} ${people === 1 ? "person" : "people"} in all`;
}

const RESERVE = `line: Reserve
unit: s
demand: 30 per hour
plan-to: 85 %
`;

describe("A task of 210 s at a line cycle of 120 s loaded to 85 %, where a task alone may take the working time", () => {
  // Two places have 240 s; loaded to 85 % they would have 204 s, and three be needed.
  const tasks = "tasks: {motor: {time: 210, on-base: true}, seat: {time: 90, after: motor}}\n";
  const floor = "stations: [{id: L1}, {id: L2}, {id: L3}]\n";

  it("has two parallel places, with the stations and people that a balance of the line with them has", async () => {
    const words = (await answersTo(RESERVE + tasks)).get("parallel workplaces")!;
    const size = await sizeOf(`${RESERVE}max-places: 2\n${tasks}`);
    expect(size).toBe("2 stations and 3 people in all");
    expect(words).toContain(`parallel workplaces: 2, units taken in turn (${size}`);
  });

  it("has the same where stations stand on the floor", async () => {
    const words = (await answersTo(RESERVE + floor + tasks)).get("parallel workplaces")!;
    const size = await sizeOf(`${RESERVE}max-places: 2\n${floor}${tasks}`);
    expect(words).toContain(`parallel workplaces: 2, units taken in turn (${size}`);
  });

  it("needs three where nothing may exceed the station limit", async () => {
    const words = (await answersTo(RESERVE + tasks, "--strict-limit")).get("parallel workplaces")!;
    const size = await sizeOf(`${RESERVE}max-places: 3\n${tasks}`, "--strict-limit");
    expect(words).toContain(`parallel workplaces: 3, units taken in turn (${size}`);
    expect(await sizeOf(`${RESERVE}max-places: 2\n${tasks}`, "--strict-limit")).toBe("infeasible");
  });

  it("sets a pace of 210 s, at which it stands alone, and none faster", async () => {
    // 3600 / 210 = 17.142 good units an hour.
    for (const text of [RESERVE + tasks, RESERVE + floor + tasks]) {
      const words = (await answersTo(text)).get("slower pace")!;
      expect(words).toContain("a line cycle of 210 s, 17.14 good units per hour instead of 30");
      expect((await balance(text, "--demand", "17.14 per hour")).outcome).toBe("proved");
      expect((await balance(text, "--demand", "17.15 per hour")).outcome).toBe("infeasible");
    }
  });

  it("sets a pace of 247.059 s where nothing may exceed the station limit", async () => {
    // 210 / 0.85 = 247.059 s: 14.571 good units an hour.
    for (const text of [RESERVE + tasks, RESERVE + floor + tasks]) {
      const words = (await answersTo(text, "--strict-limit")).get("slower pace")!;
      expect(words).toContain("a line cycle of 247.059 s, 14.57 good units per hour instead of 30");
      const at = (demand: string) => balance(text, "--strict-limit", "--demand", demand);
      expect((await at("14.57 per hour")).outcome).toBe("proved");
      expect((await at("14.58 per hour")).outcome).toBe("infeasible");
    }
  });
});

describe("A task of 140 s that shares its station with one of 20 s, at 120 s loaded to 85 %", () => {
  // Together 160 s, which is not one task alone: 160 / 0.85 = 188.235 s, or two places with 204 s.
  const text = `${RESERVE}together: [[motor, bell]]\ntasks: {motor: {time: 140, on-base: true}, bell: {time: 20, after: motor}}\n`;

  it("sets a pace of 188.235 s, as both must keep the station limit", async () => {
    expect((await answersTo(text)).get("slower pace")).toContain(
      "a line cycle of 188.235 s, 19.12 good units per hour",
    );
    expect((await balance(text, "--demand", "19.12 per hour")).outcome).toBe("proved");
    expect((await balance(text, "--demand", "19.13 per hour")).outcome).toBe("infeasible");
  });
});

describe("Places that work beside a long task fills", () => {
  const text = "line: x\nunit: s\ntasks: {a: {time: 6, on-base: true}, b: {time: 4, after: a}}\n";

  it("are counted as a balance of the line with them counts them: 2 people in place of 3", async () => {
    // 6 s at two places of 5 s leave 4 s, which b fills.
    const words = (await answersTo(text, "--cycle", "5")).get("parallel workplaces")!;
    const size = await sizeOf(`${text}max-places: 2\n`, "--cycle", "5");
    expect(size).toBe("1 station and 2 people in all");
    expect(words).toContain(`parallel workplaces: 2, units taken in turn (${size}`);
  });
});

describe("People who repair beside the line", () => {
  const file = (demand: string, more = "") => `line: x
unit: s
demand: ${demand}
${more}tasks:
  build: {time: 130, on-base: true}
  try: {time: 40, after: build, test: {fail: 10 %, repair: 9 min, return-to: try}}
`;

  it("are among the people in all of every answer", async () => {
    // 0.1111 repairs of 540 s = 60 s of repair a unit: one person at 120 s and at 130 s.
    // 130 s + 40 s x 1.1111 = 174.4 s of work fill two places of one station.
    const answers = await answersTo(file("30 per hour"));
    const size = await sizeOf(file("30 per hour", "max-places: 2\n"));
    expect(size).toBe("1 station and 3 people in all");
    expect(answers.get("parallel workplaces")).toContain(`(${size}`);
  });

  it("are among them on a line with rules of the shop floor", async () => {
    const floor = "stations: [{id: L1}, {id: L2}]\n";
    const answers = await answersTo(file("30 per hour", floor));
    const size = await sizeOf(file("30 per hour", `${floor}max-places: 2\n`));
    expect(answers.get("parallel workplaces")).toContain(`(${size}`);
    const slower = await sizeOf(file("27 per hour", floor));
    expect(answers.get("slower pace")).toContain(`(${slower}`);
  });
});

describe("A tester loaded for 8 s that runs 25 s at a line cycle of 30 s, of which one exists", () => {
  const file = (testers: number) =>
    `line: x\nunit: s\nequipment: {tester: ${testers}}\nholds: 2\ntasks:\n  build: {time: 20, on-base: true}\n  test: {time: 8, machine-time: 25, equipment: tester, after: build}\n`;

  it("needs a second tester, with the stations and people that a balance with two has", async () => {
    const words = (await answersTo(file(1), "--cycle", "30")).get("more equipment")!;
    expect(words).toContain(`2 x tester (1 exists) (${await sizeOf(file(2), "--cycle", "30")}`);
  });

  it("or a pace of 33 s, and none faster", async () => {
    const words = (await answersTo(file(1), "--cycle", "30")).get("slower pace")!;
    expect(words).toContain(
      `a line cycle of 33 s, 109.09 good units per hour (${await sizeOf(file(1), "--cycle", "33")}`,
    );
    expect(await sizeOf(file(1), "--cycle", "32.9")).toBe("infeasible");
  });
});

describe("A task of 150 s with one jig at a line cycle of 120 s", () => {
  const file = (more: string) =>
    `line: x\nunit: s\n${more}\ntasks: {lace: {time: 150, equipment: jig, on-base: true}, seat: {time: 40, after: lace}}\n`;

  it("needs two places and two jigs, as a balance of the line with them has", async () => {
    const words = (await answersTo(file("equipment: {jig: 1}"), "--cycle", "120")).get(
      "parallel workplaces",
    )!;
    const size = await sizeOf(file("equipment: {jig: 2}\nmax-places: 2"), "--cycle", "120");
    expect(words).toContain(`parallel workplaces: 2 and 2 x jig (1 exists), units taken in turn (${size}`);
    expect(await sizeOf(file("equipment: {jig: 1}\nmax-places: 2"), "--cycle", "120")).toBe("infeasible");
  });
});

describe("A task of 150 s with one jig where stations may have two places of 120 s", () => {
  const file = (jigs: number) =>
    `line: x\nunit: s\nmax-places: 2\nequipment: {jig: ${jigs}}\ntasks: {lace: {time: 150, equipment: jig, on-base: true}, seat: {time: 100, after: lace}}\n`;

  it("needs a second jig, as a balance of the line with it has, or a pace of 150 s", async () => {
    const answers = await answersTo(file(1), "--cycle", "120");
    const size = await sizeOf(file(2), "--cycle", "120");
    expect(answers.get("more equipment")).toContain(`2 x jig (1 exists) (${size}`);
    const slower = await sizeOf(file(1), "--cycle", "150");
    expect(answers.get("slower pace")).toContain(`a line cycle of 150 s, 24 good units per hour (${slower}`);
    expect(await sizeOf(file(1), "--cycle", "149")).toBe("infeasible");
  });
});

describe("A model of 90 s at a task, at 60 s with 20 % of overload", () => {
  // On average 0.5 x 20 s + 0.5 x 90 s = 55 s fit the station; cargo alone may take 72 s there.
  const file = (overload: string, more = "") =>
    `line: x\nunit: s\nmodels: {city: 50 %, cargo: 50 %}\nmodel-overload: ${overload}\n${more}tasks: {box: {time: {city: 20, cargo: 90}, on-base: true}, seat: {time: 30, after: box}}\n`;

  it("needs an overload of 50 %, two places, or a pace of 75 s, each as a balance has it", async () => {
    const answers = await answersTo(file("20 %"), "--cycle", "60");
    const size = await sizeOf(file("50 %"), "--cycle", "60");
    expect(answers.get("more overload")).toContain(`\`model-overload: 50 %\` (${size}`);
    expect(await sizeOf(file("49 %"), "--cycle", "60")).toBe("infeasible");
    const places = await sizeOf(file("20 %", "max-places: 2\n"), "--cycle", "60");
    expect(answers.get("parallel workplaces")).toContain(
      `parallel workplaces: 2, units taken in turn (${places}`,
    );
    // 90 / 1.2 = 75 s.
    const slower = await sizeOf(file("20 %"), "--cycle", "75");
    expect(answers.get("slower pace")).toContain(`a line cycle of 75 s, 48 good units per hour (${slower}`);
    expect(await sizeOf(file("20 %"), "--cycle", "74.9")).toBe("infeasible");
    // Two parts of 45 s and 10 s.
    expect(answers.get("split")).toContain("split: 2 parts of which no model takes more than 72 s");
  });
});

describe("Reasons that keep every answer from helping", () => {
  it("are said once", async () => {
    const text = `line: x
unit: s
people: {early-1: [brakes, press], early-2: [wheels]}
apart: [[a, b]]
tasks: {a: {time: 50, skill: brakes, on-base: true}, b: {time: 50, skill: press, after: a}, c: {time: 200, after: b}}
`;
    const answers = await answersTo(text, "--cycle", "120");
    expect(answers.get("parallel workplaces")).toContain("the people listed have these skills");
    const same = "(no plan then either, for the same reasons)";
    expect(answers.get("slower pace")).toBe(`slower pace: no pace helps ${same}`);
    expect(answers.get("split")).toBe(`split: 2 parts of at most 120 s ${same}`);
  });
});

describe("One task for which a model takes too long, and one for which a machine is busy too long", () => {
  const text = `line: x
unit: s
models: {city: 50 %, cargo: 50 %}
model-overload: 10 %
equipment: {rig: 1}
tasks:
  a: {time: {city: 10, cargo: 70}, on-base: true}
  c: {time: {city: 10, cargo: 30}, machine-time: 50 s, equipment: rig, after: a}
`;

  it("are both told, each with its sum, and answered together", async () => {
    const { findings, offLine } = await balance(text, "--cycle", "60");
    const told = findings.map(({ task, message }: { task: string; message: string }) => [task, message]);
    expect(told.slice(-2)).toEqual([
      [
        "a",
        "a: cargo takes 70 s, above 66 s, what a station has for one model (model-overload 10 %): no station can hold it",
      ],
      [
        "c",
        "c: 2 x rig needed: 20 s of loading + 50 s of running = 70 s, above the line cycle of 60 s; 1 exists; a unit stands 70 s for it (20 s and 50 s of machine), and it may stand 60 s at a station (holds: 1): no station can hold it",
      ],
    ]);
    const places = offLine[0].reason.split("; ")[0];
    const size = await sizeOf(`${text.replace("rig: 1", "rig: 2")}max-places: 2\n`, "--cycle", "60");
    expect(places).toContain(
      `parallel workplaces: 2 for a, 2 for c and 2 x rig (1 exists), units taken in turn (${size}`,
    );
  });
});
