/** A table as every format draws it; cells are plain text. */
export interface PlainTable {
  readonly columns: readonly { readonly head: string; readonly align: "left" | "right" }[];
  readonly rows: readonly (readonly string[])[];
}

/** A column of words, and one of numbers. */
export const left = (head: string) => ({ head, align: "left" }) as const;
export const right = (head: string) => ({ head, align: "right" }) as const;
