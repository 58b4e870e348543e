/** What came of reading a piece of text: the value, or what is wrong with it and what was expected. */
export type Reading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: string };

export const accept = <T>(value: T): Reading<T> => ({ ok: true, value });
export const refuse = (problem: string): Reading<never> => ({ ok: false, problem });
