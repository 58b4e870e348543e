/** A stretch of a plain text file: a line `--- KIND ARGUMENT` and everything down to the next such line. */
export interface Section {
  readonly kind: string;
  readonly argument: string;
  readonly body: string;
}

/** A text file of a title (everything above the first section) and sections, in order. */
export interface SectionedText {
  readonly title: string;
  readonly sections: readonly Section[];
}

const HEADING = /^--- (file|run|status|stdout|stderr|reported)(?: (.*))?$/;

/** Splits a text at its `--- KIND` lines; every line of a body keeps its line end. */
export function readSections(text: string): SectionedText {
  const title: string[] = [];
  const sections: { kind: string; argument: string; lines: string[] }[] = [];
  for (const line of text.replace(/\n$/, "").split("\n")) {
    const heading = HEADING.exec(line);
    if (heading) sections.push({ kind: heading[1]!, argument: heading[2] ?? "", lines: [] });
    else (sections.at(-1)?.lines ?? title).push(line);
  }
  return {
    title: title.join("\n").trim(),
    sections: sections.map(({ lines, ...rest }) => ({
      ...rest,
      body: lines.map((line) => `${line}\n`).join(""),
    })),
  };
}

/** The text that `readSections` reads back to the same parts. */
export function writeSections({ title, sections }: SectionedText): string {
  const written = sections.map(
    ({ kind, argument, body }) => `--- ${[kind, argument].filter((part) => part !== "").join(" ")}\n${body}`,
  );
  return `${title}\n\n${written.join("")}`;
}
