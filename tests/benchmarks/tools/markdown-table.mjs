/** A Markdown table with padded columns, the first to the left and the others to the right. */
export function markdownTable(heads, rows) {
  const cells = [heads, ...rows].map((row) => row.map(String));
  const widths = heads.map((_, at) => Math.max(3, ...cells.map((row) => row[at].length)));
  const line = (row) => `| ${row.map((cell, at) => pad(cell, at, widths[at])).join(" | ")} |`;
  const rule = widths.map((width, at) => (at === 0 ? "-".repeat(width) : `${"-".repeat(width - 1)}:`));
  return `${[line(cells[0]), line(rule), ...cells.slice(1).map(line)].join("\n")}\n`;
}

function pad(cell, at, width) {
  return at === 0 ? cell.padEnd(width) : cell.padStart(width);
}

/** A measured number with three digits that count, such as 0.0123, 1.23, 123 or 12,345. */
export function threeDigits(number) {
  if (number === 0) return "0";
  if (number >= 100) return inThousands(Math.round(number));
  return number.toFixed(Math.min(4, 2 - Math.floor(Math.log10(number))));
}

/** A whole number with its thousands set off, such as 10,000. */
export function inThousands(number) {
  return String(number).replace(/\B(?=(\d{3})+$)/g, ",");
}
