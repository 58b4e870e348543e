/** What can be found while a line file is read, before the rules of the register see it: name and what it looks for. */
const READING = {
  "yaml-syntax": "The text is YAML.",
  "yaml-directive": "No % directive changes how the file is read.",
  "yaml-tag": "No tag changes what a value is.",
  "yaml-too-deep": "Lists and maps nest no deeper than people write them.",
  "yaml-documents": "One file holds one line.",
  "yaml-alias": "Every alias names an anchor before it.",
  "yaml-alias-limit": "Aliases do not stand for more than a file could hold.",
  "empty-file": "The file says something.",
  "merge-key": "Keys are written out, not merged in.",
  "key-not-text": "Every key is one piece of text.",
  "duplicate-key": "Every key stands once.",
  "duplicate-id": "Every id stands once, whatever its quotes and accents are made of.",
  "unknown-key": "Every key is known.",
  "not-honoured-yet": "No key is taken that this version would ignore.",
  "missing-key": "Keys that must be there are there.",
  "wrong-kind": "Maps, lists and plain values stand where they belong.",
  blank: "No value is left blank; blank is never 0.",
  id: "Ids can be seen and typed.",
  unit: "The unit is one of s, min, h, cmin, tmu.",
  demand: "Demand is a number of good units and its period.",
  supply: "Supplies are a number of units and its period.",
  money: "Amounts of money are plain numbers.",
  "overtime-pay": "Overtime is paid as a share from 100 %.",
  share: "Shares have their % and lie where such a share may lie.",
  handling: "Handling is a time.",
  "task-time": "Task times are times.",
  "model-amount": "Models have shares or quantities.",
  spacing: "Spacings are so many units in so many.",
  "other-time": "Walking, machine, waiting and repair times are times.",
  training: "Trainings are times with their unit.",
  count: "Counts are whole numbers, from 1 where nothing else is said.",
  quantity: "Quantities are whole numbers from 1.",
  choice: "Words that must be one of a few are.",
  "yes-no": "Marks are true or false.",
  mass: "Masses are in kg.",
  amount: "Amounts are numbers in a unit of the user's own.",
  clock: "Clock times are hours and minutes.",
  "calendar-time": "Times of the calendar are times with their unit.",
  "calendar-count": "Counts of days and weeks are possible.",
} as const;

export type ReadingRule = keyof typeof READING;

/** In the order of reading. */
export const READING_RULES: readonly { readonly name: string; readonly purpose: string }[] = Object.entries(
  READING,
).map(([name, purpose]) => ({ name, purpose }));
