import type { PartAtPost, PartInAll, PartsAnswer } from "../answer/parts/answer-parts.js";
import { thousands } from "../findings/count-of.js";
import { visibleText } from "../findings/visible-text.js";
import { lastsWords, roundedWords } from "./words/parts-words.js";

/** A column of a list of parts: its heading, and what it shows of a row. */
export interface PartColumn {
  readonly head: string;
  readonly align: "left" | "right";
  of(row: PartAtPost): string;
}

const NAME: PartColumn = { head: "name", align: "left", of: ({ part }) => visibleText(part.name ?? "") };

const NOT_STATED = "not stated";

/** The columns of lists of parts, those of which the file says nothing left out. */
export function partColumns({ posts, totals }: Pick<PartsAnswer, "posts" | "totals">): PartColumn[] {
  const rows = posts.flatMap(({ parts }) => parts);
  const some = (
    has: (row: PartAtPost) => boolean,
    ...columns: readonly PartColumn[]
  ): readonly PartColumn[] => (rows.some(has) ? columns : []);
  const known = totals.map(({ part }) => part);
  return [
    { head: "part", align: "left", of: ({ part }) => visibleText(part.id) },
    ...(known.some(({ name }) => name !== null) ? [NAME] : []),
    { head: "quantity", align: "right", of: ({ part, quantity }) => quantityCell(part.unit, quantity) },
    ...some(({ packs }) => packs !== null, {
      head: "packs",
      align: "right",
      of: ({ packs, part }) =>
        packs === null ? NOT_STATED : `${roundedWords(packs)} of ${thousands(part.pack!)}`,
    }),
    ...some(({ packLasts }) => packLasts !== null, {
      head: "a pack lasts",
      align: "right",
      of: ({ packLasts }) => (packLasts === null ? "" : lastsWords(packLasts)),
    }),
    ...some(({ containers }) => containers !== null, {
      head: "containers",
      align: "right",
      of: ({ containers }) => (containers === null ? NOT_STATED : roundedWords(containers)),
    }),
    ...some(({ part }) => part.from !== null, {
      head: "from",
      align: "left",
      of: ({ part }) => visibleText(part.from ?? ""),
    }),
  ];
}

/** "183 (182.25) m". */
export const quantityCell = (unit: string | null, quantity: PartInAll["quantity"]): string =>
  `${roundedWords(quantity)}${unit === null ? "" : ` ${visibleText(unit)}`}`;
