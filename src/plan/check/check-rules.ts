/** A rule of `check`, and what of a plan it asks for. */
interface CheckRule {
  readonly purpose: string;
  /**
   * Of what must be read before its findings are certain: whether a station has any task, its tasks, its id, every task of the plan, how
   * all stations stand to one another; all of its own station where left out.
   */
  readonly asks?: "any-task" | "tasks" | "id" | "all-tasks" | "all-stations";
  /** Of tasks at several stations, told at the first of them, which hangs on how stations are taken. */
  readonly spans?: true;
  /** How far a station is loaded, which is told under several rules. */
  readonly isOfLoad?: true;
}

/** Everything that `check` looks for, by the name of the rule: in the order in which findings are told. */
const RULES: Readonly<Record<string, CheckRule>> = {
  "unknown-task": { purpose: "Every task of the plan is on the line." },
  "missing-task": { purpose: "Every task of the line is in the plan.", asks: "all-tasks" },
  "task-twice": { purpose: "No task is in the plan twice.", asks: "tasks", spans: true },
  "station-order": {
    purpose: "Stations stand in the plan as they stand on the floor.",
    asks: "all-stations",
  },
  precedence: { purpose: "Work comes after the work that it needs.", asks: "tasks", spans: true },
  bench: { purpose: "Nothing at a bench needs the line or the base unit.", asks: "tasks" },
  wait: { purpose: "Tasks that wait for another stand at a later station.", asks: "all-stations" },
  "wait-in-line": {
    purpose:
      "Where all units move together, a wait between two tasks is over as its unit comes to the later one.",
    asks: "all-stations",
  },
  "slower-than-pace": { purpose: "No station or bench takes longer than its working time.", isOfLoad: true },
  "max-load": { purpose: "No station or bench is loaded beyond the policy.", isOfLoad: true },
  "over-limit": { purpose: "No station or bench is loaded beyond its station limit.", isOfLoad: true },
  "keep-pace": {
    purpose: "Where times vary, every station stays within its working time with the chance that is asked.",
  },
  "model-overload": { purpose: "No model takes a station more than is allowed above its working time." },
  peak: {
    purpose:
      "What rare units take longer is caught up before the next one comes, and drifts no farther than is allowed.",
  },
  dwell: { purpose: "No unit stands at a station longer than the places there have time and room for it." },
  "hands-at-two-units": {
    purpose: "Where a place has room for several units, nobody is wanted at two of them at once.",
  },
  order: { purpose: "What follows each other on one equipment is done in a row." },
  spacing: { purpose: "Some order of the models keeps the spacings." },
  "fixed-station": { purpose: "Tasks stand where the line file lets them." },
  zone: { purpose: "Zones are kept." },
  equipment: {
    purpose: "Tasks stand where their equipment is, and no more is used than exists.",
    asks: "all-stations",
  },
  "equipment-hold": {
    purpose: "There is equipment enough for as long as units keep it.",
    asks: "all-stations",
  },
  skill: { purpose: "At every task somebody of its place has the skills, and nobody is at two places." },
  "people-named": { purpose: "The line file names as many people as the plan has, where it names any." },
  together: { purpose: "Tasks that share a station do.", spans: true },
  apart: { purpose: "Tasks that are kept apart are." },
  limit: { purpose: "No station, and nobody there, takes more than the limits allow." },
  places: { purpose: "No station has more places than it may have." },
  sides: { purpose: "Tasks are worked from the side that they ask for." },
  persons: { purpose: "Where people share the work of a unit, each task has those that it takes." },
  "max-stations": { purpose: "There are no more stations than the policy allows." },
  "max-people": { purpose: "There are no more people than the policy allows." },
  "min-efficiency": { purpose: "The efficiency is what the policy asks for." },
  "max-above-least": { purpose: "There are no more stations above the proved least than the policy allows." },
  supply: { purpose: "Benches and suppliers deliver for the demand." },
  "empty-station": { purpose: "Every station has work.", asks: "any-task" },
  "behind-floor": { purpose: "Every station stands on the floor.", asks: "id" },
  "other-line": { purpose: "The plan is for this line file." },
  "other-times": { purpose: "Times, precedences and rules are those that the plan was made for." },
  "other-pace": { purpose: "The line cycle is the one that the plan was made for." },
  "made-for": { purpose: "The plan says what it was made for." },
};

export const CHECK_RULES: readonly { readonly name: string; readonly purpose: string }[] = Object.entries(
  RULES,
).map(([name, { purpose }]) => ({ name, purpose }));

const ranks = new Map(CHECK_RULES.map(({ name }, rank) => [name, rank]));

/** The turn of a rule; a name that is none of them comes first: what the file itself says wrong. */
export const rankOfRule = (rule: string): number => ranks.get(rule) ?? -1;

/** What a rule asks for; of what the file itself says wrong, its own station. */
export const scopeOfRule = (rule: string): Omit<CheckRule, "purpose"> => RULES[rule] ?? {};
