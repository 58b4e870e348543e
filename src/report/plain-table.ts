/** A table as every format draws it; cells are plain text. */
export interface PlainTable {
  readonly columns: readonly { readonly head: string; readonly align: "left" | "right" }[];
  readonly rows: readonly (readonly string[])[];
  /** Rows of one station or one task each, which may stand in any order; the first cell of a station is its id. */
  readonly rowsOf?: "stations" | "tasks";
}

/** A column of words, and one of numbers. */
export const left = (head: string) => ({ head, align: "left" }) as const;
export const right = (head: string) => ({ head, align: "right" }) as const;
