import type { ReadingRule } from "../rules/reading-rules.js";

/** What is wrong in a stretch of the text, by its offsets. */
export interface TextFault {
  readonly rule: ReadingRule;
  readonly message: string;
  readonly from: number;
  readonly to: number;
}
