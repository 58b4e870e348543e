import stringWidth from "string-width";

/** The columns that a text takes: plain letters and parts of bars take one each, and need not be taken apart to know that. */
export const widthOf = (text: string): number => (PLAIN.test(text) ? text.length : stringWidth(text));

const PLAIN = /^[ -~■·]*$/u;
