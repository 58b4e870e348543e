/** Everything that `check` looks for, by the name of the rule: in the order in which findings are told. */
const RULES = {
  "unknown-task": "Every task of the plan is on the line.",
  "missing-task": "Every task of the line is in the plan.",
  "task-twice": "No task is in the plan twice.",
  "station-order": "Stations stand in the plan as they stand on the floor.",
  precedence: "Work comes after the work that it needs.",
  bench: "Nothing at a bench needs the line or the base unit.",
  wait: "Tasks that wait for another stand at a later station.",
  "slower-than-pace": "No station or bench takes longer than its working time.",
  "max-load": "No station or bench is loaded beyond the policy.",
  "over-limit": "No station or bench is loaded beyond its station limit.",
  "model-overload": "No model takes a station more than is allowed above its working time.",
  "fixed-station": "Tasks stand where the line file lets them.",
  zone: "Zones are kept.",
  equipment: "Tasks stand where their equipment is, and no more is used than exists.",
  machine: "There are machines enough for what they load and run.",
  skill: "There is a person with the skills for every place.",
  together: "Tasks that share a station do.",
  apart: "Tasks that are kept apart are.",
  limit: "No station, and nobody there, takes more than the limits allow.",
  places: "No station has more places than it may have.",
  sides: "Tasks are worked from the side that they ask for.",
  "max-stations": "There are no more stations than the policy allows.",
  "max-people": "There are no more people than the policy allows.",
  "min-efficiency": "The efficiency is what the policy asks for.",
  "max-above-least": "There are no more stations above the proved least than the policy allows.",
  supply: "Benches and suppliers deliver for the demand.",
  "empty-station": "Every station has work.",
  "behind-floor": "Every station stands on the floor.",
  "other-line": "The plan is for this line file.",
  "other-times": "Times, arrows and rules are those that the plan was made for.",
  "other-pace": "The line cycle is the one that the plan was made for.",
  "made-for": "The plan says what it was made for.",
} as const;

export const CHECK_RULES: readonly { readonly name: string; readonly purpose: string }[] = Object.entries(
  RULES,
).map(([name, purpose]) => ({ name, purpose }));

const ranks = new Map(CHECK_RULES.map(({ name }, rank) => [name, rank]));

/** The turn of a rule; a name that is none of them comes first: what the file itself says wrong. */
export const rankOfRule = (rule: string): number => ranks.get(rule) ?? -1;
