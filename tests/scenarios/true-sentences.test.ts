import { describe, expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

/** What a command says of a line, on one line of text each stream, without the words of the caution. */
async function say(command: string, lines: readonly string[], plan = ""): Promise<string> {
  const files = { "l.yaml": lines.join("\n"), ...(plan === "" ? {} : { "p.yaml": plan }) };
  const { stdout, stderr } = await runLinepoise({ args: command.split(" "), files });
  return `${stdout} ${stderr}`.replace(/\s+/gu, " ");
}

const plan = (stations: string) => `format: linepoise-plan/1\nstations: [${stations}]\n`;

describe("a sentence shows the digits that make it true", () => {
  it("says that 109.091 s is over 10 h / 330, which is 109.090909 s", async () => {
    const calendar = "calendar: {shifts: {day: {length: 10 h}}}";
    const line = ["unit: s", "demand: 330 per day", calendar, "tasks: {A: 109.091, B: 60}"];
    const said = await say("balance l.yaml --proof", line);
    expect(said).toContain("A takes 109.091 s, 100.0001 % of the working time (109.090909 s)");
    expect(said).toContain("split: 2 parts of at most 109.09 s");
  });

  it("says the same of a line with rules of the floor", async () => {
    const calendar = "calendar: {shifts: {day: {length: 10 h}}}";
    const tasks = "tasks: {A: {time: 109.091, people: 2}, B: 60}";
    const said = await say("balance l.yaml --proof", ["unit: s", "demand: 330 per day", calendar, tasks]);
    expect(said).toContain("A takes 109.091 s, 100.0001 % of the working time (109.090909 s)");
  });

  it("says that 53.580001 s is more than 95 % of 56.4 s, which is 53.58 s", async () => {
    const calendar = "calendar: {shifts: {day: {length: 7 h 3 min}}}";
    const rest = ["policy: {max-load: 95 %}", "tasks: {A: 53.580001, B: 50}"];
    const line = ["unit: s", "demand: 450 per day", calendar, ...rest];
    const said = await say("check l.yaml p.yaml", line, plan("{id: S1, tasks: [A]}, {id: S2, tasks: [B]}"));
    expect(said).toContain(
      "S1 takes 53.580001 s, 95.000002 % of its working time of 56.4 s; the policy allows 95 %, which is 53.58 s",
    );
  });

  it("says that 144.1 s / 72 s is 2.0014 before it is rounded up to 3", async () => {
    const said = await say("balance l.yaml --proof", [
      "unit: s",
      "demand: 50 per hour",
      "tasks: {a: 72, b: 72, c: 0.1}",
    ]);
    expect(said).toContain("144.1 s of work / 72 s a station = 2.0014, rounded up");
  });
});

describe("a sum that is shown", () => {
  it("of units to start names the yield and what passes the tests: 165 / (99 % x 100 %) = 166.67", async () => {
    const calendar = "calendar: {shifts: {day: {length: 8 h}}}";
    const tasks = "tasks: {a: 20, t: {time: 9, after: a, test: {fail: 4 %, repair: 60, return-to: a}}}";
    const line = ["unit: s", "demand: 165 per day", "yield: 99 %", calendar, tasks];
    expect(await say("takt l.yaml", line)).toContain(
      "to start 167 units per day: 165 / (99 % yield x 100 % passing) = 166.67, rounded up",
    );
  });
});

describe("work that is done too early in a plan", () => {
  const line = ["unit: s", "demand: 50 per hour", "tasks: {A: 20, B: {time: 20, after: A}}"];

  it("is told with both stations", async () => {
    const said = await say("check l.yaml p.yaml", line, plan("{id: S1, tasks: [B]}, {id: S2, tasks: [A]}"));
    expect(said).toContain("A is in S2 but B, which needs it, is in S1 [precedence]");
  });

  it("within one station is told as an order of its tasks", async () => {
    const said = await say("check l.yaml p.yaml", line, plan("{id: S1, tasks: [B, A]}"));
    expect(said).toContain("S1 lists B before A, which B needs [precedence]");
  });
});

describe("the reason why fewer people are impossible", () => {
  it("is the task that needs them at once, where the work alone would take fewer", async () => {
    const tasks = "tasks: {lift: {time: 10, people: 2}, sign: {time: 5, after: lift}}";
    const said = await say("balance l.yaml --proof", ["unit: s", "demand: 50 per hour", tasks]);
    expect(said).toContain("Proved: at least 2 people are needed: lift needs 2 people at once.");
  });

  it("is the smallest set of tasks that exceed a station, without the one that lies between them", async () => {
    const tasks = "tasks: {t1: 26, t3: {time: 36, after: t1}, t4: {time: 34, after: t3}}";
    const said = await say("balance l.yaml --proof --cycle 55.836", [
      "unit: s",
      tasks,
      "together: [[t1, t4]]",
    ]);
    expect(said).toContain("t1 (26 s) + t4 (34 s) = 60 s, above 55.836 s, the limit of a station");
    expect(said).not.toContain("t3 (36 s)");
  });
});

describe("one figure for people by work alone", () => {
  // 540 s of work; takt 80 s, plan-to 90 %: 540 / 72 = 7.5, of which 540 / 80 = 6.75 would make another number.
  const tasks = "tasks: {a: {time: {x: 70, y: 50}}, b: 60, c: 60, d: 60, e: 60, f: 60, g: 60, h: 60, i: 60}";
  const line = ["unit: s", "demand: 45 per hour", "plan-to: 90 %", "models: {x: 50 %, y: 50 %}", tasks];

  it("is told by balance and by staff: 540 s of work at a station limit of 72 s", async () => {
    expect(await say("balance l.yaml --proof", line)).toContain(
      "540 s of work for a unit / 72 s station limit = 7.5, so 8 people",
    );
    expect(await say("staff l.yaml --demand 45..50/5", line)).toContain(
      "45 per hour 7.5 -> 8 people at 72 s each",
    );
  });
});

describe("a stock that nobody has stated", () => {
  it("is not stated in a comparison, and is no best of its row", async () => {
    const tasks = "tasks: {frame: {time: 50, on-base: true}, bag: 30, fit: {time: 40, after: [frame, bag]}}";
    const options = "options: {beside: {off-line: [[bag]]}}";
    const said = await say("compare l.yaml", ["unit: s", "demand: 60 per hour", tasks, options]);
    expect(said).toMatch(/stock, units 0 not stated/u);
  });
});

describe("the best mark of labour per unit wanted", () => {
  // 50 + 20 + 30 + 50 s at 80 s: two stations; three could make more than is wanted, and that makes no unit cheaper.
  const tasks = "tasks: {a: 50, b: {time: 20, after: a}, c: {time: 30, after: b}, d: {time: 50, after: c}}";
  const calendar = "calendar: {shifts: {day: {length: 8 h}}}";
  const line = ["unit: s", "demand: 360 per day", calendar, tasks, "options: {three: {stations: 3}}"];

  it("does not go to the option with more people, whatever it could make", async () => {
    const files = { "l.yaml": line.join("\n") };
    const { stdout } = await runLinepoise({ args: "compare l.yaml --format markdown".split(" "), files });
    const row = (label: string) => stdout.split("\n").find((each) => each.startsWith(`| ${label} |`));
    // 2 x 8 h / 360 = 2.67 min and 3 x 8 h / 360 = 4 min; 28,800 / 80 = 360 and 28,800 / 50 = 576 units a shift.
    expect(row("labour per unit wanted")).toBe(
      "| labour per unit wanted | **2.67 min** ✓ | 4 min (+1.33 min) |",
    );
    expect(row("output per shift")).toBe("| output per shift | 360 | **576** ✓ (+216) |");
  });
});

describe("a plan that is slower than its pace by less than is usually shown", () => {
  it("is not called 100 % of the line cycle", async () => {
    const tasks = "tasks: {a: 72.000001, b: {time: 60, after: a}}";
    const said = await say(
      "rebalance l.yaml --from p.yaml --nodes 1000",
      ["unit: s", "demand: 50 per hour", "max-places: 2", tasks],
      plan("{id: S1, tasks: [a]}, {id: S2, tasks: [b]}"),
    );
    expect(said).toContain("100.000001 % of the line cycle: too slow");
  });
});

describe("a line on which every 20th unit runs 755 s past the end of its station, where 720 s are allowed", () => {
  // 55 s + 800 s are 855 s of the 100 s that an hour / 36 is.
  const line =
    "unit: s\ndemand: 36 per hour\ndrift-room: 12 min\ntasks: {a: 55, audit: {time: 800, every: 20, after: a}}\n";
  const why = "work runs up to 755 s past the end of S1, and `drift-room` allows 720 s";
  const ask = (...args: string[]) =>
    runLinepoise({ args, files: { "l.yaml": line, "p.yaml": plan("{id: S1, tasks: [a, audit]}") } });

  it.each([
    "balance l.yaml",
    "balance l.yaml --proof",
    "show l.yaml p.yaml",
    "rebalance l.yaml --from p.yaml",
  ])("has a plan of which %s says first that it fails, and why", async (command) => {
    const { status, stdout } = await ask(...command.split(" "));
    expect(status).toBe(1);
    const first = stdout.slice(0, stdout.indexOf("1 station, 1 person")).replaceAll(/\s+/gu, " ");
    expect(first).toContain("The plan fails: every 20th unit (audit) takes 855 s at S1");
    expect(first).toContain(`${why}.`);
  });

  it.each([
    ["staff l.yaml --demand 30..36/6", "the plan for 36 per hour fails"],
    ["off-line l.yaml", "the plan with everything on the line fails"],
  ])("has a plan of which %s warns", async (command, which) => {
    const { stderr } = await ask(...command.split(" "));
    const told = stderr.split("\n").filter((each) => each.includes(why));
    expect(told.at(-1)).toContain(`warning: ${which}: every 20th unit`);
  });
});

describe("a rebalance of a line on which a unit runs past the end of a station farther than its room", () => {
  // B 60 s, C 30 s and D 40 s of a cargo are 130 s of the 100 s that 10 h / 360 are; the plan of `balance` has A and B together.
  const line = [
    "unit: s",
    "demand: 360 per shift",
    "calendar: {shifts: {day: {length: 10 h}}}",
    "models: {city: 80 %, cargo: 20 %}",
    "sequence: [city, city, city, city, cargo]",
    "drift-room: 10 s",
    "tasks:",
    "  A: {time: {city: 40, cargo: 80}}",
    "  B: {time: {city: 20, cargo: 60}}",
    "  C: {time: 30, after: [A, B]}",
    "  D: {time: 40, after: C}",
    "  E: {time: 45, after: D}",
    "  F: 20",
  ].join("\n");
  const today = plan(
    "{id: S1, tasks: [A, F]}, {id: S2, tasks: [B, C]}, {id: S3, tasks: [D]}, {id: S4, tasks: [E]}",
  );
  const files = { "l.yaml": line, "p.yaml": today };

  it("says so of the plan that it shows, with the status and the words of check", async () => {
    const args = ["rebalance", "l.yaml", "--from", "p.yaml", "--write", "new.yaml"];
    const { status, stderr, files: written } = await runLinepoise({ args, files });
    expect(status).toBe(1);
    expect(stderr).toBe(
      "l.yaml: a unit of cargo takes 130 s at S2, 30 s over its working time of 100 s; caught up in 3 units of city at 10 s each, before the next one comes; work runs up to 30 s past the end of S2, and `drift-room` allows 10 s [peak]\n",
    );
    const checked = await runLinepoise({
      args: ["check", "l.yaml", "new.yaml"],
      files: written,
    });
    expect(checked.status).toBe(1);
    expect(checked.stdout).toContain(stderr);
  });

  it("says of which of several demands it is", async () => {
    const args = ["rebalance", "l.yaml", "--from", "p.yaml", "--demand", "300, 360 per shift"];
    const { status, stderr } = await runLinepoise({ args, files });
    expect(status).toBe(1);
    expect(stderr).toContain("l.yaml: at 300 per shift: a unit of cargo takes 160 s at S1, 40 s over");
    expect(stderr).toContain("l.yaml: at 360 per shift: a unit of cargo takes 130 s at S2, 30 s over");
  });
});

describe("one rig, held for 20 + 90 s and again for 20 + 90 s of a unit, while a task of 60 s is done beside it", () => {
  const line = [
    "unit: s",
    "demand: 250 per day",
    "calendar: {shifts: {day: {length: 8 h}}}",
    "equipment: {rig: 1}",
    "tasks:",
    "  a: {time: 20, machine-time: 90, equipment: rig}",
    "  b: {time: 20, machine-time: 90, equipment: rig, after: a}",
    "  other: 60",
  ];

  it("makes 28,800 / 220 = 130 units a shift, in staff as well, and takes 15 h 17 min for 250", async () => {
    // 250 x 220 s = 55,000 s.
    const shown = await say("show l.yaml p.yaml", line, plan("{id: S1, tasks: [a, other, b]}"));
    expect(shown).toContain(
      "1 station, 1 person, 130 good units a shift possible, 250 wanted; slowest S1 (220 s).",
    );
    const staff = await say("staff l.yaml --demand 100..130/30", line);
    expect(staff).toContain(
      " 100 288 s 1 1 34.7 % 65.3 % 130 proved 130 221.5 s 1 1 45.1 % 54.9 % 130 proved ",
    );
    expect(staff).toContain("crew for 100 1 1 220 s 15 h 17 min");
    // One person does 100 s of it in 288 s: nobody is saved by less of it.
    expect(staff).toContain("100 per day 0.35 -> 1 person at 288 s 130 per day");
  });
});

describe("a lift of two people for 38 s beside two tasks of 34 s, at 72 s", () => {
  const line = [
    "unit: s",
    "demand: 50 per hour",
    "tasks: {lift: {time: 38, people: 2}, a: {time: 34, after: lift}, b: {time: 34, after: lift}}",
  ];

  it("takes three people where two would do who share the rest: 38 + 34 s each", async () => {
    const said = await say("balance l.yaml", line);
    expect(said).toContain("2 stations, 3 people");
    expect(said).toContain(
      "lift takes 2 people at S1 for 38 s only: where people of a place share the work of a unit (`max-crew: 2`), the line does with 2 people, instead of 3.",
    );
    const shared = await say("balance l.yaml", [...line, "max-crew: 2"]);
    expect(shared).toContain("1 station, 2 people");
    expect(shared).not.toContain("share the work of a unit");
  });
});

describe("stations of 12, 6, 9 and 6 s where 10 units a minute are wanted, one every 6 s", () => {
  const line = [
    "unit: s",
    "demand: 600 per hour",
    "max-places: 2",
    "tasks: {a: 12, b: {time: 6, after: a}, c: {time: 9, after: b}, d: {time: 6, after: c}}",
  ];
  const stations = (places: number) =>
    plan(
      `{id: S1, places: ${places}, tasks: [a]}, {id: S2, tasks: [b]}, {id: S3, tasks: [c]}, {id: S4, tasks: [d]}`,
    );

  it("are all told that are too slow, and with the slowest doubled the next one sets the pace: 60 / 9 = 6.67 a minute, 400 an hour", async () => {
    const both = await say("check l.yaml p.yaml", line, stations(1));
    expect(both).toContain("S1 takes 12 s, 200 % of its working time of 6 s");
    expect(both).toContain("S3 takes 9 s, 150 % of its working time of 6 s");
    const one = await say("check l.yaml p.yaml", line, stations(2));
    expect(one).not.toContain("S1 takes");
    expect(one).toContain(
      "S3 takes 9 s, 150 % of its working time of 6 s; the line then makes 400 good units an hour instead of 600",
    );
  });

  it("take 2 + 1 + 2 + 1 = 6 people at the pace that is wanted", async () => {
    expect(await say("balance l.yaml", line)).toMatch(
      /4 stations, 6 people, 600 good units an hour possible/u,
    );
  });
});

describe("five stations of 60, 55, 60, 50 and 45 s without a buffer, at a takt of 62 s", () => {
  it("have a takt of 62 s, a cycle of 60 s, 300 s for a unit to pass through and 270 s of work on it", async () => {
    const tasks =
      "tasks: {a: 60, b: {time: 55, after: a}, c: {time: 60, after: b}, d: {time: 50, after: c}, e: {time: 45, after: d}}";
    const calendar = "calendar: {shifts: {day: {length: 3100 s}}}";
    const five = plan(
      ["a", "b", "c", "d", "e"].map((task, at) => `{id: S${at + 1}, tasks: [${task}]}`).join(", "),
    );
    const files = { "l.yaml": ["unit: s", "demand: 50 per day", calendar, tasks].join("\n"), "p.yaml": five };
    const { stdout } = await runLinepoise({ args: ["show", "l.yaml", "p.yaml", "--json"], files });
    const { pace, measures } = JSON.parse(stdout).plan ?? JSON.parse(stdout);
    expect([
      pace.taktSeconds,
      measures.cycleOfPlanSeconds,
      measures.leadTimeSeconds,
      measures.workContentSeconds,
    ]).toEqual([62, 60, 300, 270]);
  });
});

describe("a rig that holds a unit for 102 s, at 112 s with 3 s of handling", () => {
  const line = (places: number) =>
    `unit: s\nhandling: 3\ndemand: 300 per shift\ncalendar: {shifts: {d: {length: 33600 s}}}\nequipment: {rig: 1}\nmax-places: ${places}\ntasks: {hook: {time: 15, equipment: rig}, leak: {time: 5, machine-time: 70, equipment: rig, after: hook}, unhook: {time: 12, equipment: rig, after: leak}, trim: {time: 150, after: unhook}}\n`;

  it("is no station time beside handling", async () => {
    const { stdout } = await runLinepoise({
      args: ["balance", "l.yaml", "--proof"],
      files: { "l.yaml": line(2) },
    });
    // 102 + 3 = 105 s of standing; trim has 150 s at two places, (150 + 3) / 2 = 76.5 s.
    expect(stdout).toContain("cycle of the plan        105 s");
    expect(stdout).toContain("has a cycle below 105 s, because");
    expect(stdout).not.toContain("a station time of");
  });
});
