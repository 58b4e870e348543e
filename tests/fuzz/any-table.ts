import type { AnyLine } from "./any-line.js";
import type { Draw } from "./draw.js";

/** The cells of a row. */
export type Row = string[];

const seconds = (draw: Draw): string => `${draw.from(1, 50)}${draw.once(2) ? `.${draw.below(10)}` : ""}`;

/** A table of tasks as `import` reads it, with some of the columns that it knows. */
export function anyTaskTable(draw: Draw, { tasks, models }: AnyLine): Row[] {
  const further: readonly (readonly [string, () => string])[] = [
    ["quantity", () => String(draw.from(1, 3))],
    ["every", () => draw.pick(["", "2"])],
    ["walking", () => draw.pick(["", "2 s"])],
    ["people", () => draw.pick(["", "2"])],
    ["zone", () => draw.pick(["", "frame"])],
    ["kind", () => draw.pick(["", "waste", "necessary"])],
    ["lift", () => draw.pick(["", "4 kg"])],
    ["caution", () => draw.pick(["", "Use the hoist", "=1+1"])],
    ["parts", () => draw.pick(["", "HC-12: 2"])],
    ["check", () => draw.pick(["", "Flush"])],
    ["skill", () => draw.pick(["", "brakes"])],
  ];
  const columns = draw.some(further);
  const times =
    models.length > 1 && draw.once(3)
      ? models.map((model) => `time ${model}`)
      : [draw.pick(["Time (s)", "time", "Time"])];
  const sign = draw.pick([",", ";", " "]);
  return [
    ["Task", draw.pick(["Name", "Description"]), ...times, "Predecessors", ...columns.map(([name]) => name)],
    ...tasks.map((id, at) => [
      id,
      `work ${at}`,
      ...times.map(() => seconds(draw)),
      draw.shuffled(tasks.slice(0, at)).slice(0, draw.below(3)).join(sign),
      ...columns.map(([, value]) => value()),
    ]),
  ];
}

/** Orders in which units were built, most of them in the order of the tasks. */
export function anyOrders(draw: Draw, { tasks }: AnyLine): Row[] {
  const units = Array.from({ length: draw.from(draw.once(8) ? 1 : 2, 5) }, () => {
    const order = [...tasks];
    const at = draw.below(order.length);
    if (draw.once(2) && at > 0) [order[at - 1], order[at]] = [order[at]!, order[at - 1]!];
    return draw.once(6) ? order.slice(1) : order;
  });
  if (draw.once(2)) {
    return [["Unit", "Task"], ...units.flatMap((order, at) => order.map((task) => [`unit ${at + 1}`, task]))];
  }
  return [
    units.map((_, at) => `unit ${at + 1}`),
    ...tasks.map((_, row) => units.map((order) => order[row] ?? "")),
  ];
}

/** Readings of a stopwatch, a row for each element or for each reading; a blank, and a mark where there are any, now and then. */
export function anyReadings(draw: Draw, { tasks }: AnyLine, hasMarks: boolean): Row[] {
  if (draw.once(6)) {
    const rows = tasks.flatMap((task) =>
      Array.from({ length: draw.from(1, 4) }, (_, at) => [task, String(at + 1), seconds(draw)]),
    );
    return [["element", "cycle", "reading"], ...rows];
  }
  const cycles = draw.from(1, 8);
  const further = draw.some(["task", "every", "rating"]);
  const heads = ["element", ...further, ...Array.from({ length: cycles }, (_, at) => String(at + 1))];
  const rows = tasks.map((task) => [
    task,
    ...further.map((key) => ({ task, every: draw.pick(["", "2"]), rating: draw.pick(["", "105 %"]) })[key]!),
    ...Array.from({ length: cycles }, () =>
      draw.once(12) ? "" : `${seconds(draw)}${hasMarks && draw.once(8) ? "*" : ""}`,
    ),
  ]);
  return [heads, ...rows];
}

export function csvOf(rows: readonly Row[], draw: Draw): string {
  const delimiter = draw.pick([",", ",", ";", "\t"]);
  const cell = (text: string) =>
    /["\n\r]/u.test(text) || text.includes(delimiter) || draw.once(30)
      ? `"${text.replaceAll('"', '""')}"`
      : text;
  return rows.map((row) => `${row.map(cell).join(delimiter)}${draw.pick(["\n", "\n", "\r\n"])}`).join("");
}

const xml = (text: string): string =>
  text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replace(/[\p{Cc}\p{Surrogate}]/gu, "?");

/** The parts of a small workbook (ECMA-376, SpreadsheetML): texts shared or in their cells, numbers as numbers. */
export function workbookOf(rows: readonly Row[], draw: Draw): Record<string, string> {
  const shared: string[] = [];
  const isShared = draw.once(2);
  const hasNotes = draw.once(4);
  const cell = (text: string, row: number, column: number): string => {
    const at = `${String.fromCharCode(65 + (column % 26))}${row + 1}`;
    if (text === "") return "";
    const formula = draw.once(30) ? `<f>${draw.pick(["1+1", "B2&amp;C2", "'[1]Other'!A1"])}</f>` : "";
    if (/^\d+(?:\.\d+)?$/u.test(text)) {
      // A number in the format of a clock is a part of a day.
      if (draw.once(60)) return `<c r="${at}" s="1"><v>${Number(text) / 86_400}</v></c>`;
      return `<c r="${at}"${draw.once(20) ? ' s="0"' : ""}>${formula}<v>${text}</v></c>`;
    }
    if (formula !== "") return `<c r="${at}" t="str">${formula}<v>${xml(text)}</v></c>`;
    if (draw.once(400)) return `<c r="${at}" t="e"><v>#DIV/0!</v></c>`;
    if (!isShared) return `<c r="${at}" t="inlineStr"><is><t>${xml(text)}</t></is></c>`;
    const half = draw.once(12) ? text.length >> 1 : 0;
    shared.push(
      half > 0
        ? `<si><r><t xml:space="preserve">${xml(text.slice(0, half))}</t></r><r><rPr><b/></rPr><t xml:space="preserve">${xml(text.slice(half))}</t></r></si>`
        : `<si><t>${xml(text)}</t></si>`,
    );
    return `<c r="${at}" t="s"><v>${shared.length - 1}</v></c>`;
  };
  const data = rows.map(
    (row, at) =>
      `<row r="${at + 1}">${row
        .slice(0, 26)
        .map((text, column) => cell(text, at, column))
        .join("")}</row>`,
  );
  const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
  const relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const packages = "http://schemas.openxmlformats.org/package/2006/relationships";
  return {
    "[Content_Types].xml": `<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`,
    "_rels/.rels": `<?xml version="1.0"?><Relationships xmlns="${packages}"><Relationship Id="rId1" Type="${relations}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `<?xml version="1.0"?><workbook xmlns="${main}" xmlns:r="${relations}"><sheets><sheet name="Tasks" sheetId="1" r:id="rId1"/>${hasNotes ? '<sheet name="Notes" sheetId="2" r:id="rId4"/>' : ""}</sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<?xml version="1.0"?><Relationships xmlns="${packages}"><Relationship Id="rId1" Type="${relations}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="${relations}/sharedStrings" Target="sharedStrings.xml"/><Relationship Id="rId3" Type="${relations}/styles" Target="styles.xml"/>${hasNotes ? `<Relationship Id="rId4" Type="${relations}/worksheet" Target="worksheets/sheet2.xml"/>` : ""}</Relationships>`,
    "xl/worksheets/sheet1.xml": `<?xml version="1.0"?><worksheet xmlns="${main}"><sheetData>${data.join("")}</sheetData></worksheet>`,
    "xl/styles.xml": `<?xml version="1.0"?><styleSheet xmlns="${main}"><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="21" applyNumberFormat="1"/></cellXfs></styleSheet>`,
    ...(hasNotes
      ? {
          "xl/worksheets/sheet2.xml": `<?xml version="1.0"?><worksheet xmlns="${main}"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Taken in March</t></is></c><c r="B1" t="b"><v>1</v></c></row></sheetData></worksheet>`,
        }
      : {}),
    "xl/sharedStrings.xml": `<?xml version="1.0"?><sst xmlns="${main}">${shared.join("")}</sst>`,
  };
}
