/** A linear expression: coefficients of variables. */
export type Terms = readonly (readonly [coefficient: number, variable: string])[];

/** Rows of an integer programme as they come up, written at last as a text in LP format. */
export class ProgrammeText {
  private readonly rows: string[] = [];
  private readonly binaries = new Set<string>();
  private readonly wholes = new Set<string>();

  binary(name: string): string {
    this.binaries.add(name);
    return name;
  }

  /** A whole number from 0. */
  whole(name: string): string {
    this.wholes.add(name);
    return name;
  }

  /** Terms of the same variable are put together; a row without terms says nothing but whether it holds. */
  row(terms: Terms, sign: "<=" | ">=" | "=", right: number): void {
    const sums = new Map<string, number>();
    for (const [coefficient, variable] of terms) sums.set(variable, (sums.get(variable) ?? 0) + coefficient);
    const left = [...sums].filter(([, coefficient]) => coefficient !== 0);
    if (left.length === 0 && holds(sign, right)) return;
    // A variable that stands for nothing carries a row that cannot hold.
    const shown = left.length === 0 ? "0 nothing" : left.map(([name, each]) => signed(each, name)).join(" ");
    this.rows.push(` r${this.rows.length}: ${shown} ${sign} ${right}`);
  }

  minimise(terms: Terms): string {
    return [
      "Minimize",
      ` cost: ${terms.map(([coefficient, variable]) => signed(coefficient, variable)).join(" ")}`,
      "Subject To",
      ...this.rows,
      "General",
      ...[...this.wholes].map((name) => ` ${name}`),
      "Binary",
      ...[...this.binaries].map((name) => ` ${name}`),
      "End",
      "",
    ].join("\n");
  }
}

function holds(sign: "<=" | ">=" | "=", right: number): boolean {
  return sign === "<=" ? right >= 0 : sign === ">=" ? right <= 0 : right === 0;
}

const signed = (coefficient: number, name: string): string =>
  `${coefficient < 0 ? "-" : "+"} ${Math.abs(coefficient)} ${name}`;
