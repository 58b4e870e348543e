import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

/** What `balance --json` says of a line file at a line cycle, or for a demand such as "60 per hour". */
async function balance(text: string, pace: string) {
  const args = ["balance", "line.yaml", "--json", pace.includes("per") ? "--demand" : "--cycle", pace];
  const { stdout } = await runLinepoise({ args, files: { "line.yaml": text } });
  return JSON.parse(stdout);
}

/** The answers to the first task that is too long at a line cycle, by what they begin with. */
async function answersTo(text: string, lineCycle: string): Promise<Map<string, string>> {
  const { offLine } = await balance(text, lineCycle);
  const parts: string[] = offLine[0].answers.map(({ message }: { message: string }) => message);
  return new Map(parts.map((part) => [part.split(":")[0]!, part]));
}

const hasPlan = async (text: string, lineCycle: string) => (await balance(text, lineCycle)).measures !== null;

describe("A slower pace", () => {
  const file = (more: string) => `line: x\nunit: s\n${more}`;

  it.each([
    {
      why: "tasks fixed to one station",
      text: file("tasks: {b: {time: 40, station: S1}, c: {time: 130, station: S1}}\n"),
      own: "c alone needs 130 s",
      pace: "170 s",
      faster: "169.999",
      paced: "170",
    },
    {
      why: "tasks fixed to one side of one station",
      text: file(
        "tasks: {b: {time: 40, station: S1, side: right}, c: {time: 130, station: S1, side: right}}\n",
      ),
      own: "c alone needs 130 s",
      pace: "170 s",
      faster: "169.999",
      paced: "170",
    },
    {
      // 130 s + 30 s on the right, loaded to 90 %: 160 / 0.9 = 177.778 s.
      why: "tasks together on one side, loaded to 90 %",
      text: file(`plan-to: 90 %
tasks:
  a: {time: 30, side: left}
  b: {time: 30, side: right}
  c: {time: 130, side: right, after: a}
  d: {time: 40, side: left, after: c}
together: [[b, c]]
`),
      own: "c alone needs 144.444 s",
      pace: "177.778 s",
      asked: "60 per hour",
      faster: "20.26 per hour",
      paced: "20.25 per hour",
    },
    {
      // The rig stands at one station, and both tasks need it.
      why: "tasks that need the one rig",
      text: file(
        "equipment: {rig: 1}\ntasks: {b: {time: 40, equipment: rig}, c: {time: 130, equipment: rig, after: b}}\n",
      ),
      own: "c alone needs 130 s",
      pace: "170 s",
      faster: "169.999",
      paced: "170",
    },
  ])(
    "is one that has a plan, and none faster has, for $why",
    async ({ text, own, pace, asked, faster, paced }) => {
      const words = (await answersTo(text, asked ?? "60")).get("slower pace");
      expect(words).toContain(`slower pace: a line cycle of ${pace} (${own}, the rules of the line more), `);
      expect([await hasPlan(text, faster), await hasPlan(text, paced)]).toEqual([false, true]);
    },
  );

  it("is not offered where no pace has a plan", async () => {
    const text = file(`together: [[b, d]]
apart: [[b, c]]
tasks: {a: {time: 70}, b: {time: 10}, c: {time: 10, after: b}, d: {time: 10, after: c}}
`);
    const words = (await answersTo(text, "60")).get("slower pace");
    expect(words).toBe("slower pace: no pace helps (no plan then either, for the same reasons)");
    expect(await hasPlan(text, "1000")).toBe(false);
  });
});

describe("More equipment", () => {
  it("is no more than the task needs where something else is in the way", async () => {
    const text = (rigs: number) => `line: x
unit: s
max-places: 2
equipment: {rig: ${rigs}}
together: [[a, d]]
apart: [[b, c]]
tasks:
  a: {time: 30}
  b: {time: 20, after: a, equipment: rig, machine-time: 45}
  c: {time: 20, after: b}
  d: {time: 25, after: c}
`;
    // Loaded for 20 s and running for 45 s: two rigs at 60 s.
    const answers = await answersTo(text(1), "60");
    expect(answers.get("more equipment")).toContain(
      "more equipment: 2 x rig (1 exists) (no plan keeps the rules",
    );
    expect(await hasPlan(text(9), "60")).toBe(false);
  });

  it("is none where enough exists", async () => {
    const text = `line: x
unit: s
equipment: {e: 3}
together: [[b, d]]
apart: [[b, c]]
tasks: {a: {time: 50, equipment: e}, b: {time: 10}, c: {time: 10, after: b}, d: {time: 10, after: c}}
`;
    const answers = await answersTo(text, "40");
    expect(answers.get("parallel workplaces")).toContain(
      "parallel workplaces: 2, units taken in turn (no plan",
    );
    expect(answers.get("split")).toContain("split: 2 parts of at most 40 s (no plan");
  });
});

describe("More overload", () => {
  it("is not offered to a task that is too long on average", async () => {
    const text = (overload: string) => `line: x
unit: s
models: {m: 50 %, n: 50 %}
model-overload: ${overload}
tasks: {a: {time: 20}, b: {time: {m: 130, n: 60}, after: a}}
`;
    const answers = await answersTo(text("20 %"), "60");
    expect([...answers.keys()]).toEqual(["parallel workplaces", "split", "bench", "slower pace"]);
    expect(await hasPlan(text("200 %"), "60")).toBe(false);
  });
});

describe("Parallel places on a line with rules", () => {
  const text = (places: string) => `line: x
unit: s
apart: [[a, c]]
${places}tasks: {a: {time: 120}, b: {time: 45, after: a}, c: {time: 45, after: b}}
`;

  it("are at a station of its own, and say what places at other stations too would spare", async () => {
    const { measures } = await balance(text("max-places: 2\n"), "60");
    expect([measures.stations, measures.operators]).toEqual([2, 4]);
    expect((await answersTo(text(""), "60")).get("parallel workplaces")).toBe(
      "parallel workplaces: 2, units taken in turn (3 stations and 4 people in all, efficiency 87.5 % at the pace, or 2 stations with places at every station (`max-places: 2`))",
    );
  });

  it("are only at the stations where the task may stand", async () => {
    // b and c fill one place each at S2 and S3; were places allowed there too, S2 would hold both.
    const fixed = text("").replace("{time: 120}", "{time: 120, station: S1}");
    expect((await answersTo(fixed, "60")).get("parallel workplaces")).toBe(
      "parallel workplaces: 2, units taken in turn (3 stations and 4 people in all, efficiency 87.5 % at the pace)",
    );
  });
});

describe("Tasks together that no single place holds, beside a long task fixed to a station", () => {
  it("have parallel places counted at every station, and told so", async () => {
    const text = (places: string) => `line: x
unit: s
${places}together: [[x, y]]
tasks: {l: {time: 110, station: S1}, x: {time: 40, after: l}, y: {time: 40, after: x}}
`;
    const { measures } = await balance(text("max-places: 2\n"), "60");
    expect([measures.stations, measures.operators]).toEqual([2, 4]);
    expect((await answersTo(text(""), "60")).get("parallel workplaces")).toBe(
      "parallel workplaces: 2, units taken in turn (2 stations and 4 people in all, efficiency 79.2 % at the pace, with places at every station (`max-places: 2`))",
    );
  });
});

describe("A task that is fixed to a station and too long for it", () => {
  it("cannot go to a bench, and its parts stay fixed, whatever is built before it", async () => {
    const text = (c: number) => `line: x
unit: s
stations: [{id: A}, {id: B}, {id: C}]
tasks: {a: {time: 52}, b: {time: 68, after: a, station: B}, c: {time: ${c}, after: b, station: C}}
`;
    for (const c of [30, 118]) {
      const answers = await answersTo(text(c), "60");
      expect(answers.get("bench")).toBe("bench: no, b may stand at B only (station)");
      expect(answers.get("split")).toContain(
        "split: 2 parts of at most 60 s, both of them fixed to B as the whole is (",
      );
    }
  });
});

describe("A task that is too long on average and for a model", () => {
  it("is told once, with the models that take more than the average", async () => {
    const text = `line: x
unit: s
models: {m: 50 %, n: 50 %}
model-overload: 20 %
tasks: {a: {time: 130}, b: {time: {m: 130, n: 60}, after: a}}
`;
    const { findings } = await balance(text, "60");
    const told = findings.filter(({ rule }: { rule: string }) => rule === "over-working-time");
    expect(told.map(({ message }: { message: string }) => message)).toEqual([
      "a takes 130 s, 216.7 % of the working time (60 s): no station can hold it",
      "b takes 95 s, 158.3 % of the working time (60 s); m takes 130 s, above 72 s, what a station has for one model (model-overload 20 %): no station can hold it",
    ]);
  });
});
