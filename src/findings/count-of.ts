/** A number with what it counts, in the singular or the plural: "1 station", "2,617 partial plans". */
export function countOf(number: number, what: string): string {
  return `${thousands(number)} ${what}${number === 1 ? "" : "s"}`;
}

/** With a comma before each three digits: "400,000". */
export const thousands = (number: number | bigint | string): string =>
  String(number).replace(/\B(?=(\d{3})+$)/gu, ",");

/** "1 person", "12 people". */
export const countPeople = (number: number): string =>
  number === 1 ? "1 person" : `${thousands(number)} people`;
