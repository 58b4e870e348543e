/** A number with what it counts, in the singular or the plural: "1 station", "3 stations". */
export function countOf(number: number, what: string): string {
  return `${number} ${what}${number === 1 ? "" : "s"}`;
}

/** "1 person", "12 people". */
export const countPeople = (number: number): string => (number === 1 ? "1 person" : `${number} people`);
