/** The trade's name of a method, by what the command line calls it. */
export const methodWords = (name: string): string => NAMES[name] ?? name.replaceAll("-", " ");

const NAMES: Readonly<Record<string, string>> = { columns: "column method", exact: "exact search" };
