import type { PartsAnswer } from "../../answer/parts/answer-parts.js";
import type { RoundedUp } from "../../plan/figures/parts.js";
import type { Sheet, SheetCell } from "../../table/sheet.js";
import type { Ratio } from "../../time/ratio.js";
import { plainNumber, secondsNumber } from "../../time/show-numbers.js";
import { CAUTION, cautionsOfPlan, cautionWords } from "../cautions.js";

/** One row for each part at a station, bench or table, then those of whole kits and the totals; the cautions follow. */
export function partsSheet({ line, plan, posts, totals }: PartsAnswer, station: string | null): Sheet {
  const shown = station === null ? posts : posts.filter(({ id }) => id === station);
  const rows = shown.flatMap(({ id, kind, parts }) =>
    parts.map(({ part, quantity, packs, packLasts, containers }): SheetCell[] => [
      text(id),
      text(kind),
      text(part.id),
      text(part.name),
      ...rounded(quantity),
      text(part.unit),
      whole(part.pack),
      ...rounded(packs),
      packLasts === null ? null : { number: String(secondsNumber(packLasts)) },
      containers === null ? null : whole(containers.whole),
      text(part.from),
    ]),
  );
  const kits = shown.flatMap(({ id, kits: all }) =>
    all.flatMap(({ model, parts }) =>
      parts.map(({ part, perUnit }): SheetCell[] => [
        text(id),
        text(model === null ? "kit" : `kit of ${line.models[model]!.id}`),
        text(part.id),
        text(part.name),
        null,
        exact(perUnit),
        text(part.unit),
      ]),
    ),
  );
  const sums = totals.map(({ part, quantity, packs }): SheetCell[] => [
    null,
    text("total"),
    text(part.id),
    text(part.name),
    ...rounded(quantity),
    text(part.unit),
    whole(part.pack),
    whole(packs),
  ]);
  const cautions = [...cautionsOfPlan(line, plan).map(cautionWords), CAUTION];
  const body = [...rows, ...kits, ...(station === null ? sums : [])];
  const all = [
    HEADS.map(text),
    ...body,
    ...cautions.map((words): SheetCell[] => [null, text("caution"), null, text(words)]),
  ];
  return all.map((row) => HEADS.map((_, at) => row[at] ?? null));
}

const HEADS = [
  "place",
  "kind",
  "part",
  "name",
  "quantity",
  "quantity before rounding",
  "unit",
  "pack",
  "packs",
  "packs before rounding",
  "a pack lasts (s)",
  "containers",
  "from",
] as const;

const text = (words: string | null): SheetCell => (words === null ? null : { text: words });
const whole = (value: number | bigint | null): SheetCell =>
  value === null ? null : { number: String(value) };
const exact = (value: Ratio): SheetCell => ({ number: String(plainNumber(value)) });
const rounded = (value: RoundedUp | null): SheetCell[] =>
  value === null ? [null, null] : [whole(value.whole), exact(value.exact)];
