/**
 * The order of ids: runs of digits by their value, then the run with fewer leading zeros, everything else by code
 * unit; never by locale. A total order: only equal texts compare as 0.
 */
export function compareNaturally(one: string, two: string): number {
  let [i, j] = [0, 0];
  while (i < one.length && j < two.length) {
    const [left, right] = [digitsAt(one, i), digitsAt(two, j)];
    if (left === "" || right === "") {
      const difference = one.charCodeAt(i++) - two.charCodeAt(j++);
      if (difference !== 0) return difference;
    } else {
      const difference = compareDigits(left, right);
      if (difference !== 0) return difference;
      i += left.length;
      j += right.length;
    }
  }
  return one.length - i - (two.length - j);
}

function digitsAt(text: string, from: number): string {
  let to = from;
  while (to < text.length && isDigit(text.charCodeAt(to))) to++;
  return text.slice(from, to);
}

/** By value at any length: without leading zeros the longer run is larger, and equal lengths compare as text. */
function compareDigits(left: string, right: string): number {
  const [one, two] = [left.replace(/^0+(?=.)/, ""), right.replace(/^0+(?=.)/, "")];
  if (one.length !== two.length) return one.length - two.length;
  if (one !== two) return one < two ? -1 : 1;
  return left.length - right.length;
}

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}
