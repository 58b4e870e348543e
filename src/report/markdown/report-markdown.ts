import { type Piece, type Reported, reportHead, reportSections } from "../report-sections.js";
import { loadBarsText } from "../terminal/charts-text.js";
import { fencedText, plainMarkdown, plainTableMarkdown } from "./markdown.js";

/** Columns of the loads in signs. */
const PRINTED = { width: 100, colour: false } as const;

/** The report as Markdown: loads in signs, the order of work as the list of what each task waits for. */
export function reportMarkdown(answer: Reported): string {
  const { title, answer: words, origin } = reportHead(answer);
  const sections = reportSections(answer, false).flatMap(({ heading, pieces }) => [
    `## ${heading}\n`,
    ...pieces.map((piece) => pieceText(answer, piece)),
  ]);
  const first = words === "" ? [] : [`**${plainMarkdown(words)}**\n`];
  return [`# ${plainMarkdown(title)}\n`, ...first, `${plainMarkdown(origin)}\n`, ...sections].join("\n");
}

function pieceText(answer: Reported, piece: Piece): string {
  switch (piece.kind) {
    case "words":
      return `${plainMarkdown(piece.words)}\n`;
    case "list":
      return piece.items.map((each) => `- ${plainMarkdown(each)}\n`).join("");
    case "table":
      return plainTableMarkdown(piece.table);
    case "picture":
      return piece.of === "loads" ? fencedText(loadBarsText(answer.loads, PRINTED)) : orderText(answer);
    case "columns":
      return fencedText(piece.text);
  }
}

function orderText({ order }: Reported): string {
  const idOf = (task: number) => plainMarkdown(order.line.tasks[task]!.id);
  return order.columns
    .flatMap(({ id, tasks }) =>
      tasks.map((task) => {
        const waits = order.arrows.filter(({ to }) => to === task).map(({ from }) => idOf(from));
        return `- ${plainMarkdown(id)}: ${idOf(task)}${waits.length === 0 ? "" : ` after ${waits.join(", ")}`}\n`;
      }),
    )
    .join("");
}
