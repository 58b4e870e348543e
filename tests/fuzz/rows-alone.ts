import type { Draw } from "./draw.js";
import { runInMemory } from "./memory-context.js";

/*
 * Rows of commands that balance a line in many ways, each against `balance` of a file that says the same alone: what is left on the line when
 * a block leaves it, an option, an order without a precedence. The files are written here, by what the rows mean.
 */

/** A task of a small line, each numbered after those before it. */
interface SmallTask {
  readonly time: number;
  readonly people: number;
  readonly after: readonly number[];
}

/** Partial plans that each balance may look at: far more than so few tasks take. */
const NODES = "20000";

const ID = (task: number) => `t${task}`;

/** A line of three to six tasks of which each comes after some before it. */
function drawTasks(draw: Draw): SmallTask[] {
  return Array.from({ length: draw.from(3, 6) }, (_, task) => ({
    time: draw.from(4, 58),
    people: draw.once(5) ? 2 : 1,
    after: task === 0 ? [] : draw.some([...Array(task).keys()]).slice(-2),
  }));
}

/** What else such a line says: reserves, time lost to handling, further places. */
const drawTerms = (draw: Draw): string[] => [
  ...(draw.once(3) ? ["plan-to: 90 %"] : []),
  ...(draw.once(3) ? ["handling: 2"] : []),
  ...(draw.once(3) ? ["max-places: 2"] : []),
];

const TASKS_ONLY: readonly string[] = [];

/** Only the tasks for which `isThere`. */
function fileOf(
  tasks: readonly SmallTask[],
  terms: readonly string[],
  isThere: (task: number) => boolean = () => true,
  more: readonly string[] = TASKS_ONLY,
): string {
  const rows = tasks.flatMap(({ time, people, after }, task) => {
    const base = task === 0 ? ", on-base: true" : "";
    const before = after.filter(isThere).map(ID).join(", ");
    return isThere(task)
      ? [`  ${ID(task)}: {time: ${time}, people: ${people}${base}, after: [${before}]}`]
      : [];
  });
  return [
    "unit: s",
    "demand: 60 per hour",
    "calendar: {shifts: {day: {length: 8 h}}}",
    ...terms,
    ...more,
    "tasks:",
    ...rows,
    "",
  ].join("\n");
}

type Told = Readonly<Record<string, never>> & { readonly [key: string]: unknown };

async function ask(files: Readonly<Record<string, string>>, ...args: string[]): Promise<Told | null> {
  const { stdout, thrown, status } = await runInMemory({ args: [...args, "--json"], files });
  if (thrown !== null) throw thrown;
  return status === 2 || stdout === "" ? null : JSON.parse(stdout);
}

interface Measures {
  readonly operators: number;
  readonly peopleInAll: number;
  readonly stations: number;
  readonly cycleOfPlanSeconds: number;
}

/** What `balance` alone says of a line; null without a plan. */
async function alone(text: string, ...args: string[]): Promise<Measures | null> {
  const told = await ask({ "line.yaml": text }, "balance", "line.yaml", ...args, "--nodes", NODES);
  return (told?.measures as Measures | null | undefined) ?? null;
}

const differ = (what: string, row: unknown, own: unknown, text: string): string | null =>
  JSON.stringify(row) === JSON.stringify(own)
    ? null
    : `${what}: ${JSON.stringify(row)}, and balance alone says ${JSON.stringify(own)}\n${text}`;

/** People and stations of the line before a block leaves it, and of what each block leaves. */
export async function rowsOfOffLine(draw: Draw): Promise<string | null> {
  const [tasks, terms] = [drawTasks(draw), drawTerms(draw)];
  const text = fileOf(tasks, terms);
  const told = await ask({ "line.yaml": text }, "off-line", "line.yaml", "--nodes", NODES);
  if (told === null) return `off-line refuses the line\n${text}`;
  const before = told.before as { stations: number | null; people: number | null };
  const whole = await alone(text);
  const first = differ(
    "off-line with everything on the line",
    [before.people, before.stations],
    [whole?.peopleInAll ?? null, whole?.stations ?? null],
    text,
  );
  if (first !== null) return first;
  interface Block {
    readonly tasks: readonly string[];
    readonly stations: number | null;
    readonly people: number | null;
    readonly bench: { readonly people: number };
  }
  for (const block of told.blocks as readonly Block[]) {
    const rest = fileOf(tasks, terms, (task) => !block.tasks.includes(ID(task)));
    const left = await alone(rest);
    const people = left === null ? null : left.peopleInAll + block.bench.people;
    const found = differ(
      `off-line without ${block.tasks.join(", ")}`,
      [block.people, block.stations],
      [people, left?.stations ?? null],
      rest,
    );
    if (found !== null) return `${found}\n${text}`;
  }
  return null;
}

/** A task with all that must come before it; null where that is on the base unit, or joins the line at several tasks or nowhere. */
function drawBlock(draw: Draw, tasks: readonly SmallTask[]): ReadonlySet<number> | null {
  const block = new Set<number>();
  const add = (task: number) => {
    block.add(task);
    for (const each of tasks[task]!.after) add(each);
  };
  const last = draw.from(1, tasks.length - 1);
  add(last);
  const isWaitedFor = tasks.some(({ after }) => after.includes(last));
  const joins = [...tasks.keys()].filter(
    (task) => !block.has(task) && tasks[task]!.after.some((each) => block.has(each)),
  );
  return block.has(0) || joins.length !== 1 || !isWaitedFor ? null : block;
}

/** Options of a line: a block at a bench, another demand, other times, a fixed number of stations. */
export async function rowsOfCompare(draw: Draw): Promise<string | null> {
  const [tasks, terms] = [drawTasks(draw), drawTerms(draw)];
  const block = drawBlock(draw, tasks);
  const [demand, changed, stations] = [
    draw.pick([45, 60, 75]),
    draw.below(tasks.length),
    draw.from(1, tasks.length),
  ];
  const time = draw.from(4, 58);
  const text = fileOf(tasks, terms, undefined, [
    "options:",
    ...(block === null ? [] : [`  beside: {off-line: [[${[...block].map(ID).join(", ")}]]}`]),
    `  other: {demand: ${demand} per hour}`,
    `  sooner: {times: {${ID(changed)}: ${time}}}`,
    `  fixed: {stations: ${stations}}`,
  ]);
  const told = await ask({ "line.yaml": text }, "compare", "line.yaml", "--nodes", NODES);
  if (told === null) return `compare refuses the line\n${text}`;
  const options = told.options as readonly { name: string; plan: { measures: Measures | null } | null }[];
  const retimed = tasks.map((each, task) => (task === changed ? { ...each, time } : each));
  const plain = fileOf(tasks, terms);
  const wanted = new Map([
    ["as it is", () => alone(plain)],
    ["beside", () => alone(fileOf(tasks, terms, (task) => !block!.has(task)))],
    ["other", () => alone(plain, "--demand", `${demand} per hour`)],
    ["sooner", () => alone(fileOf(retimed, terms))],
    ["fixed", () => alone(plain, "--stations", String(stations))],
  ]);
  const figures = (of: Measures | null | undefined, isBeside: boolean) =>
    of == null ? null : [of.operators, of.stations, isBeside ? null : of.cycleOfPlanSeconds];
  for (const { name, plan } of options) {
    // The cycle of a plan counts the bench as well.
    const isBeside = name === "beside";
    const own = await wanted.get(name)!();
    const found = differ(`option ${name}`, figures(plan?.measures, isBeside), figures(own, isBeside), text);
    if (found !== null) return found;
  }
  return null;
}

/** The order that some units agree on, and what the line needs with it and without each precedence that the floor is asked about. */
export async function rowsOfOrder(draw: Draw): Promise<string | null> {
  const tasks = drawTasks(draw).map((each) => ({ ...each, after: [] as number[] }));
  const terms = drawTerms(draw);
  const first = draw.shuffled([...tasks.keys()]);
  // Two units at least: the heading of a single column is taken for a task.
  const orders = [first, ...Array.from({ length: draw.from(1, 2) }, () => swapped(draw, first))];
  const rows = first.map((_, at) => orders.map((order) => ID(order[at]!)).join(","));
  const files = {
    "line.yaml": fileOf(tasks, terms),
    "built.csv": [orders.map((_, at) => `unit ${at + 1}`).join(","), ...rows, ""].join("\n"),
  };
  const args = ["order", "line.yaml", "--from", "built.csv", "--questions", "50", "--nodes", "200000"];
  const told = await ask(files, ...args);
  const both = `${files["built.csv"]}\n${files["line.yaml"]}`;
  if (told === null) return `order refuses the units\n${both}`;
  const before = tasks.map((_, task) =>
    first.filter((each) => orders.every((order) => order.indexOf(each) < order.indexOf(task))),
  );
  const without = async (taken: readonly Precedence[]) => {
    const kept = before.map((earlier, task) =>
      earlier.filter((each) => !taken.some((pair) => pair.before === ID(each) && pair.after === ID(task))),
    );
    return sizeOf(await aloneInOrder(tasks, terms, kept));
  };
  const { now, asked, candidates, pairs, notSettled, notLookedAt } = told.questions as unknown as Questions;
  const found = [differ("order with all precedences", sizeTold(now), await without([]), both)];
  for (const { precedences, without: less } of asked)
    found.push(
      differ(
        `order without ${JSON.stringify(precedences)}`,
        sizeTold(less),
        await without(precedences),
        both,
      ),
    );
  const direct = told.precedences as unknown as readonly Precedence[];
  if (pairs === "not-asked" && notSettled + notLookedAt === 0 && candidates === direct.length) {
    const size = await without([]);
    const saving = [];
    for (const each of direct) if (isLess(await without([each]), size)) saving.push(each);
    found.push(differ("precedences that cost something", asked.length, saving.length, both));
  }
  return found.find((each) => each !== null) ?? null;
}

interface Precedence {
  readonly before: string;
  readonly after: string;
}

interface Size {
  readonly people: number;
  readonly stations: number;
}

interface Questions {
  readonly now: Size | null;
  readonly asked: readonly { readonly precedences: readonly Precedence[]; readonly without: Size }[];
  readonly candidates: number;
  readonly pairs: string;
  readonly notSettled: number;
  readonly notLookedAt: number;
}

const sizeTold = (size: Size | null) => size && [size.people, size.stations];

const sizeOf = (of: Measures | null) => of && [of.peopleInAll, of.stations];

const isLess = (one: readonly number[] | null, two: readonly number[] | null): boolean =>
  one !== null && two !== null && (one[0]! < two[0]! || (one[0] === two[0] && one[1]! < two[1]!));

/** Tasks that come after others whatever their numbers. */
function aloneInOrder(
  tasks: readonly SmallTask[],
  terms: readonly string[],
  before: readonly (readonly number[])[],
): Promise<Measures | null> {
  return alone(
    fileOf(
      tasks.map((each, task) => ({ ...each, after: before[task]! })),
      terms,
    ),
  );
}

/** The same order but for a few neighbours that changed places. */
function swapped(draw: Draw, order: readonly number[]): number[] {
  const other = [...order];
  for (let count = draw.from(1, 4); count > 0; count--) {
    const at = draw.below(order.length - 1);
    [other[at], other[at + 1]] = [other[at + 1]!, other[at]!];
  }
  return other;
}
