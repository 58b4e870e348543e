import { listOf } from "../findings/list-of.js";
import { nearestWords } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import { type Cell, columnLetters, type Row } from "../table/table.js";
import { unitMeant } from "../time/duration-slips.js";
import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { TIME_UNITS, type TimeUnit } from "../time/units.js";

/** Keys of a task beside its name that are taken over as text; the line file judges what they hold. */
export const FURTHER_KEYS = [
  "quantity",
  "every",
  "walking",
  "machine-time",
  "people",
  "zone",
  "skill",
  "equipment",
  "side",
  "kind",
  "lift",
  "caution",
  "parts",
  "move-cost",
  "training",
  "learning",
  "station",
  "not-before",
  "not-after",
  "on-base",
  "check",
  "spread",
  "readings",
] as const;

/** What a column may tell of tasks; all but `before` and `unit` are keys of a task in a line file. */
export const COLUMN_KEYS = ["id", "name", "time", "unit", "after", "before", ...FURTHER_KEYS] as const;
/** A column of times of one model is `time` and the model. */
export type ColumnKey = (typeof COLUMN_KEYS)[number] | `time ${string}`;

/** A column that is read. */
export interface TaskColumn {
  readonly key: ColumnKey;
  /** Whose times it has; null for every other column, and where one time is for all models. */
  readonly model: string | null;
  /** As typed in the table. */
  readonly heading: string;
  /** Its heading, in its place. */
  readonly cell: Cell;
  /** The unit that the heading names, as in `Time (cmin)`. */
  readonly unit: TimeUnit | null;
  /** The form that it names instead, as in `Time (mm:ss)`; null where it names none. */
  readonly clock: ClockForm | null;
}

/** Times in parts of minutes and seconds, of hours as well, or of hours and minutes. */
export type ClockForm = "mm:ss" | "h:mm:ss" | "h:mm";

export type TaskColumns = ReadonlyMap<ColumnKey, TaskColumn>;

/** The columns of times: one for all models, or one for each. */
export const timeColumns = (columns: TaskColumns): readonly TaskColumn[] =>
  [...columns.values()].filter(({ key, model }) => key === "time" || model !== null);

/** What the user says of a column: its heading or its letters by key; null for a key that no column is read as. */
export type GivenColumns = ReadonlyMap<ColumnKey, string | null>;

/** Reads `time=Std (min), after=Pred`; commas inside of a heading do no harm. */
export function readGivenColumns(text: string): Reading<GivenColumns> {
  const given = new Map<ColumnKey, string | null>();
  for (const part of text.split(/[,;]\s*(?=(?:time\s[^=,;]+|[a-z-]+)\s*=)/iu)) {
    const found = /^\s*(time\s+[^=]+?|[a-z-]+)\s*=\s*(.+?)\s*[,;]?\s*$/iu.exec(part);
    if (found === null)
      return refuse(
        `${quoted(part.trim())} names no column; KEY=HEADING is expected, such as "time=Std (min), after=Pred"`,
      );
    const [, word = "", heading = ""] = found;
    const model = /^time\s+(.+)$/iu.exec(word)?.[1];
    const key: ColumnKey | undefined =
      model === undefined ? COLUMN_KEYS.find((each) => each === word.toLowerCase()) : `time ${model}`;
    if (key === undefined)
      return refuse(
        `${quoted(word)} is no key of a column${nearestWords(word, COLUMN_KEYS)}; keys are ${COLUMN_KEYS.join(", ")}, and time MODEL`,
      );
    if (given.has(key)) return refuse(`${key} is given twice`);
    given.set(key, heading === "-" ? null : heading);
  }
  return accept(given);
}

const WORK =
  "(?:(?:assembly|work|job|process) )?(?:tasks?|ops?|operations?|activit(?:y|ies)|elements?|steps?|items?|jobs?|process(?:es)?)";
const NUMBERED = "(?:ids?|no|nos|nr|num|number|code|key|#)";

/** The words of the trade for each key; the first that fits a heading is meant. */
const MEANT: readonly (readonly [ColumnKey | "work", RegExp])[] = [
  ["id", new RegExp(`^(?:${WORK} ?)?${NUMBERED}$`, "u")],
  ["work", new RegExp(`^${WORK}$`, "u")],
  [
    "name",
    new RegExp(
      `^(?:(?:${WORK}|work) )?(?:names?|title|descriptions?|desc|designation)$|^(?:description|name) of (?:the )?${WORK}$|^what (?:is|to be) done$|^what to do$`,
      "u",
    ),
  ],
  ["machine-time", /^(?:machine|machining|automatic|auto|unattended) times?$/u],
  ["walking", /^walk(?:ing)?(?: times?)?$/u],
  [
    "time",
    new RegExp(
      `^(?:(?:${WORK}|standard|std|cycle|processing|process|work|working|observed|normal|unit|net|basic|mean|average|avg) )*(?:times?|durations?|dur|work content|t|ti|tj)$|^smv$|^sam$`,
      "u",
    ),
  ],
  [
    "after",
    new RegExp(
      `^(?:(?:immediate|direct|all) )*(?:${WORK} )?(?:predecessors?|preds?|precedences?|prerequisites?)(?: ${WORK}| ids?| nos?| constraints?| relations?)?$|^(?:preceding|previous|prior)(?: ${WORK})?$|^(?:preceded by|depends on|dependenc(?:y|ies)|must follow|follows)$|^(?:(?:only|must) )?(?:(?:comes?|done|goes|starts?|begins?|be done) )?after(?: ${WORK})?$`,
      "u",
    ),
  ],
  [
    "before",
    new RegExp(
      `^(?:(?:immediate|direct|all) )*(?:${WORK} )?(?:successors?|succs?|followers?)(?: ${WORK}| ids?| nos?)?$|^(?:following|subsequent|next)(?: ${WORK})?$|^(?:followed by|precedes)$|^(?:(?:only|must) )?(?:(?:comes?|done|goes|be done) )?before(?: ${WORK})?$`,
      "u",
    ),
  ],
  ["unit", /^(?:time )?units?$|^uom$/u],
  ["quantity", /^(?:quantity|qty|pieces|pcs|times per unit|per unit)$/u],
  ["every", /^every$/u],
  ["people", /^(?:(?:no|number) of )?(?:people|persons?|operators?|workers?|crew|manning)$/u],
  ["zone", /^(?:zone|area)s?$/u],
  ["skill", /^(?:skill|qualification)s?$/u],
  ["equipment", /^(?:equipment|fixtures?|rigs?|machines?)$/u],
  ["side", /^sides?$/u],
  ["kind", /^kind(?: of work)?$/u],
  ["lift", /^(?:lift(?:ed)?(?: mass| weight)?|lifting|weight|mass)$/u],
  ["parts", /^parts?(?: used| list)?$/u],
  ["move-cost", /^mov(?:e|ing) (?:costs?|points?)$/u],
  ["training", /^training(?: times?)?$/u],
  ["learning", /^learning(?: rate| curve)?$/u],
  // A column `station` alone tells where tasks stand today, which binds none of them.
  ["station", /^(?:only|fixed) stations?$/u],
  ["not-before", /^not before(?: station)?$/u],
  ["not-after", /^not after(?: station)?$/u],
  ["on-base", /^on base(?: unit)?$/u],
  ["check", /^(?:quality )?(?:checks?|points?)$/u],
  ["spread", /^spread$|^(?:standard|std) dev(?:iation)?$/u],
  ["readings", /^readings?$|^source of (?:the )?times?$/u],
  ["caution", /^(?:cautions?|safety(?: notes?)?|hazards?|warnings?)$/u],
];

interface Heading {
  readonly cell: Cell;
  readonly text: string;
  readonly meant: ColumnKey | "work" | null;
  readonly unit: TimeUnit | null;
  readonly clock: ClockForm | null;
  /** With "time" behind its words it would head times, as `Std (min)` and `Cycle (s)` do. */
  readonly mayHeadTimes: boolean;
  /** What may be the name of a model whose times stand below, and whether a word for times is beside it; or a model of the line as it stands there. */
  readonly model: { readonly name: string; readonly isTime: boolean } | { readonly exact: string } | null;
}

/** The models of the line that takes the tasks, as a heading may name them. */
interface KnownModels {
  readonly areNone: boolean;
  /** The model and the unit of a heading that is `time M (s)` to the letter, as export writes it. */
  readonly exported: (heading: string) => { readonly model: string; readonly unit: TimeUnit } | null;
  /** The model of a heading that is `time M` to the letter. */
  readonly bare: (heading: string) => string | null;
  /** The model of that name in letters of any case; null where none is called so, or several. */
  readonly spelt: (name: string) => string | null;
}

function knownModels(models: readonly string[]): KnownModels {
  const exported = models.flatMap((model) =>
    TIME_UNITS.map((unit) => [idKey(timeHeading(model, unit)), { model, unit }] as const),
  );
  const byHeading = new Map(exported);
  const byBare = new Map(models.map((model) => [idKey(`time ${model}`), model]));
  const spelt = new Map<string, string | null>();
  for (const model of models) {
    const key = idKey(model).toLowerCase();
    spelt.set(key, spelt.has(key) ? null : model);
  }
  return {
    areNone: models.length === 0,
    exported: (heading) => byHeading.get(idKey(heading)) ?? null,
    bare: (heading) => byBare.get(idKey(heading)) ?? null,
    spelt: (name) => spelt.get(idKey(name).toLowerCase()) ?? null,
  };
}

/** How an exported table heads the times of a model. */
export const timeHeading = (model: string, unit: TimeUnit): string => `time ${model} (${unit})`;

/** Standard minutes are minutes by their name. */
const IN_MINUTES = /^(?:smv|sam)$/u;

/** Longer texts head no column, and looking for words in one of a million signs takes minutes. */
const LONGEST_HEADING = 500;

/** A heading that names a model of the line to the letter means that model, whatever else its words may mean. */
function readHeading(cell: Cell, models: KnownModels): Heading {
  if (cell.text.length > LONGEST_HEADING)
    return {
      cell,
      text: cell.text.trim(),
      meant: null,
      unit: null,
      clock: null,
      mayHeadTimes: false,
      model: null,
    };
  const exported = models.exported(cell.text);
  const read = readWords(cell);
  const named = (exact: string, unit: TimeUnit | null) => ({ ...read, meant: null, unit, model: { exact } });
  if (exported !== null) return named(exported.model, exported.unit);
  const bare = models.bare(cell.text);
  // `time min` and `time (s)` say the unit of all times, also where a model is called so.
  const isOfAll = read.meant !== null && (read.meant !== "time" || read.unit !== null);
  return bare === null || isOfAll ? read : named(bare, null);
}

/** What the words of a heading say by themselves. */
function readWords(cell: Cell): Heading {
  const text = idKey(cell.text).replace(/\s+/gu, " ");
  const clock = clockIn(text);
  const lower = clock === null ? text.toLowerCase() : text.toLowerCase().replace(CLOCK, " ");
  const units = unitsIn(
    [...lower.matchAll(/[([]([^)\]]*)[)\]]?/gu)].map(([, inside = ""]) => inside).join(" "),
  );
  const bare = lower.replace(/[([][^)\]]*[)\]]?/gu, " ");
  const words = bare
    .replace(/[._:/-]+/gu, " ")
    .replace(/,/gu, " ")
    .trim()
    .split(/\s+/u);
  const lastUnit = unitMeant(words.at(-1)!);
  // `Time M (s)`: brackets say the unit, so that another one before them, or a letter, is the name of a model.
  const isName =
    words.length > 1 && units.length === 1 && (lastUnit !== units[0] || words.at(-1)!.length === 1);
  const last = isName ? null : lastUnit;
  const isUnitAlone = words.length === 1 && last !== null;
  // `Time, min` and `time_s`: the last word is the unit; `Minutes` alone heads times.
  const isAlone = isUnitAlone || (clock !== null && words.join("") === "");
  const meant = isAlone ? "time" : meantBy(words.join(" "));
  const shorter =
    last === null || isUnitAlone ? null : meantBy(words.slice(0, -1).join(" ").replace(/ in$/u, ""));
  const found = meant ?? shorter;
  const own = meant === null || isUnitAlone ? last : IN_MINUTES.test(words.join(" ")) ? "min" : null;
  const unit = units.length === 1 ? units[0]! : own;
  const hasUnit = unit !== null || clock !== null;
  const read = { cell, text, unit, clock, mayHeadTimes: false };
  if (text === "" || found !== null) return { ...read, meant: text === "" ? null : found, model: null };
  const bareWords = last === null ? words : words.slice(0, -1);
  const mayHeadTimes = hasUnit && meantBy([...bareWords, "time"].join(" ")) === "time";
  return { ...read, meant: null, mayHeadTimes, model: modelIn(text, last !== null, hasUnit) };
}

/** `mm:ss`, `Min : Sec`, `minutes:seconds`, `h:mm:ss`, `h:mm`, alone or in brackets; no unit of bare numbers. */
const CLOCK = (() => {
  const [hours, minutes, seconds] = ["h{1,2}|hrs?|hours?", "mm?|min(?:ute)?s?", "ss?|sec(?:ond)?s?"];
  const parts = `(?:(?<hours>${hours}) ?: ?)?(?:${minutes})\\.?(?: ?: ?(?<seconds>${seconds}))?`;
  return new RegExp(`(?<![\\p{L}\\d])(?=[^:]+:)${parts}\\.?(?![\\p{L}\\d:])`, "iu");
})();

function clockIn(text: string): ClockForm | null {
  const { hours, seconds } = CLOCK.exec(text)?.groups ?? {};
  if (hours === undefined) return seconds === undefined ? null : "mm:ss";
  return seconds === undefined ? "h:mm" : "h:mm:ss";
}

/** `time city`, `City time (s)`, `Std time: Cargo, min`, or a name alone beside a unit. */
function modelIn(text: string, endsInUnit: boolean, hasUnit: boolean): Heading["model"] {
  const bare = text
    .replace(/\s*[([][^)\]]*[)\]]?\s*/gu, " ")
    .trim()
    .replace(endsInUnit ? /[\s,._:/-]+\S+$/u : /$^/u, "");
  const found =
    /^(?:(?:std|standard|task|work|cycle) )*times?[\s,._:/-]+(.+)$/iu.exec(bare) ??
    /^(.+?)[\s,._:/-]+times?$/iu.exec(bare);
  const name = found?.[1] ?? bare;
  if (name === "" || (found === null && !hasUnit)) return null;
  return { name, isTime: found !== null };
}

/** What a heading says that its column tells; "work" for a word such as task or step, which may head ids or names. */
export const meantByHeading = (cell: Cell): ColumnKey | "work" | null => readHeading(cell, NO_MODELS).meant;

const NO_MODELS = knownModels([]);

const unitsIn = (text: string): TimeUnit[] => [
  ...new Set(text.split(/[^a-zµ]+/u).flatMap((word) => (word === "" ? [] : (unitMeant(word) ?? [])))),
];

const meantBy = (words: string): ColumnKey | "work" | null =>
  MEANT.find(([, pattern]) => pattern.test(words))?.[0] ?? null;

type Tell = (rule: string, severity: "error" | "warning", cell: Cell, message: string) => void;

/**
 * The headings of a table and the columns that they head; null where nothing heads the tasks and their times, of which findings tell.
 *
 * @param models of the line that takes the tasks; none where that is not known
 */
export function findColumns(
  rows: readonly Row[],
  given: GivenColumns,
  models: readonly string[],
  tell: Tell,
): { readonly columns: TaskColumns; readonly headings: number } | null {
  const wanted = [...given].flatMap(([key, heading]) => (heading === null ? [] : [[key, heading] as const]));
  const known = knownModels(models);
  const isHead = (row: Row): boolean => {
    const heads = row.map((cell) => readHeading(cell, known));
    const keys = heads.map(({ meant }) => meant);
    const has = (key: ColumnKey, ...words: readonly (ColumnKey | "work" | null)[]) =>
      given.get(key) != null || keys.some((each) => each === key || words.includes(each));
    const isNamed = wanted.every(([, heading]) => cellNamed(row, heading) !== null);
    const isTimed =
      has("time") ||
      heads.filter(({ mayHeadTimes }) => mayHeadTimes).length === 1 ||
      wanted.some(([key]) => modelOfKey(key) !== null) ||
      headsOfModels(heads, known).length > 0;
    return isNamed && has("id", "work", "name") && isTimed;
  };
  const headings = rows.findIndex(isHead);
  if (headings < 0) {
    const first = rows[0]![0]!;
    const lost = wanted.find(([, heading]) => rows.every((row) => cellNamed(row, heading) === null));
    const texts = rows[0]!.map(({ text }) => idKey(text)).filter((text) => text !== "");
    tell(
      "headings",
      "error",
      first,
      lost === undefined
        ? `no row heads the tasks and their times (this one has ${texts.map(quoted).join(", ")}); say which columns are meant, as in --columns "id=Task, time=Std (min)"`
        : `no column is called ${quoted(lost[1])}${nearestWords(lost[1], texts)}; this row has ${texts.map(quoted).join(", ")}`,
    );
    return null;
  }
  return { columns: chooseColumns(rows[headings]!, given, known, tell), headings };
}

/** Whether some row of a table heads tasks and their times. */
export const holdsTasks = (rows: readonly Row[]): boolean =>
  findColumns(rows, new Map(), [], () => {}) !== null;

/** The model of a key such as `time city`; null for every other key. */
const modelOfKey = (key: ColumnKey): string | null =>
  key.startsWith("time ") ? key.slice("time ".length) : null;

/**
 * Headings of times by model, each with the model: those that name a model of the line, or else two or more that stand beside a word for
 * times, or beside a unit.
 */
function headsOfModels(
  headings: readonly Heading[],
  models: KnownModels,
): { readonly heading: Heading; readonly model: string }[] {
  const known = headings.flatMap((heading) => {
    if (heading.model === null) return [];
    const model = "exact" in heading.model ? heading.model.exact : models.spelt(heading.model.name);
    return model === null ? [] : [{ heading, model }];
  });
  const named = headings.flatMap((heading) =>
    heading.model === null || "exact" in heading.model ? [] : [{ heading, ...heading.model }],
  );
  const timed = named.filter(({ isTime }) => isTime);
  const [least, some] =
    known.length > 0
      ? [1, known]
      : [2, (timed.length > 1 ? timed : named).map(({ heading, name }) => ({ heading, model: name }))];
  return some.length < least ? [] : some;
}

const isLetters = (heading: string): boolean => /^[A-Z]{1,2}$/u.test(heading);
/** The cell of that heading, or else in the column of those letters. */
function cellNamed(row: Row, heading: string): Cell | null {
  const key = idKey(heading).replace(/\s+/gu, " ").toLowerCase();
  const named =
    row.find(({ text }) => idKey(text) === idKey(heading)) ??
    row.find(({ text }) => idKey(text).replace(/\s+/gu, " ").toLowerCase() === key);
  if (named !== undefined || !isLetters(heading)) return named ?? null;
  const column = [...heading].reduce((number, letter) => 26 * number + letter.charCodeAt(0) - 64, 0);
  return row[column - 1] ?? null;
}

function chooseColumns(row: Row, given: GivenColumns, known: KnownModels, tell: Tell): TaskColumns {
  const columns = new Map<ColumnKey, TaskColumn>();
  const taken = new Set<Cell>();
  const take = (key: ColumnKey, { cell, text, unit, clock }: Heading) => {
    columns.set(key, { key, model: modelOfKey(key), heading: text, cell, unit, clock });
    taken.add(cell);
  };
  for (const [key, heading] of given) {
    const cell = heading === null ? null : cellNamed(row, heading);
    if (cell === null) continue;
    if (taken.has(cell)) tell("headings", "error", cell, `${quoted(heading!)} is given for two keys`);
    take(key, readHeading(cell, known));
  }
  const headings = row.map((each) => readHeading(each, known)).filter(({ cell }) => !taken.has(cell));
  const isFree = (key: ColumnKey) => !columns.has(key) && !given.has(key);
  for (const heading of headings) {
    const { meant } = heading;
    if (meant === null || meant === "work" || given.has(meant)) continue;
    const before = columns.get(meant);
    if (before === undefined) take(meant, heading);
    else {
      const letters = columnLetters(before.cell.column);
      const message = `${quoted(before.heading)} in column ${letters} means ${meant} as well; say which is to be read, as in --columns ${meant}=${letters}`;
      tell("headings", "error", heading.cell, message);
      taken.add(heading.cell);
    }
  }
  // A column `Task` holds ids where nothing else does, and names beside numbers.
  for (const heading of headings.filter(({ meant }) => meant === "work")) {
    if (isFree("id")) take("id", heading);
    else if (isFree("name")) take("name", heading);
  }
  takeModels(columns, headings, known, take, tell);
  const [times, ...others] = headings.filter((each) => each.mayHeadTimes && !taken.has(each.cell));
  if (isFree("time") && timeColumns(columns).length === 0 && times !== undefined && others.length === 0)
    take("time", times);
  const name = columns.get("name");
  if (isFree("id") && name !== undefined) {
    columns.set("id", { ...name, key: "id" });
    columns.delete("name");
  }
  const [after, before] = [columns.get("after"), columns.get("before")];
  if (after !== undefined && before !== undefined)
    tell(
      "headings",
      "error",
      before.cell,
      `${quoted(after.heading)} tells predecessors and ${quoted(before.heading)} successors; one of them is read: say --columns after=- or --columns before=-`,
    );
  const skipped = [...given].flatMap(([key, heading]) => (heading === null ? [key] : []));
  for (const { cell, text, meant } of headings) {
    if (taken.has(cell) || text === "" || skipped.some((key) => key === meant)) continue;
    tell(
      "column-not-read",
      "warning",
      cell,
      `the column ${quoted(text)} is not read; --columns ${quoted(`KEY=${text}`)} says what it is`,
    );
  }
  const order = COLUMN_KEYS.flatMap((key) =>
    key === "time" ? timeColumns(columns) : columns.has(key) ? [columns.get(key)!] : [],
  );
  return new Map(order.map((column) => [column.key, column]));
}

/** Columns of times by model, where no column has those of all. */
function takeModels(
  columns: Map<ColumnKey, TaskColumn>,
  headings: readonly Heading[],
  known: KnownModels,
  take: (key: ColumnKey, heading: Heading) => void,
  tell: Tell,
): void {
  if (!columns.has("time") && timeColumns(columns).length === 0) {
    const heads = headsOfModels(headings, known);
    for (const { heading, model } of heads) {
      const key = `time ${model}` as const;
      if (columns.has(key))
        tell("headings", "error", heading.cell, `times of ${quoted(model)} have a column already`);
      take(key, heading);
    }
    if (heads.length > 0 && known.areNone) {
      const names = listOf(heads.map(({ model }) => quoted(model)));
      tell(
        "models",
        "warning",
        heads[0]!.heading.cell,
        `${names} are read as models, each with times of its own`,
      );
    }
  }
  const time = columns.get("time");
  const [of] = [...columns.values()].filter(({ model }) => model !== null);
  if (time === undefined || of === undefined) return;
  const message = `${quoted(time.heading)} has times for all models, and ${quoted(of.heading)} those of ${of.model}; say --columns time=- where those of models count`;
  tell("headings", "error", of.cell, message);
  columns.delete(of.key);
}
