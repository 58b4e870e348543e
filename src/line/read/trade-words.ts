import { addTo } from "../../findings/add-to.js";
/**
 * Words of the trade, and of many a spreadsheet, for what a key of ours says, by that key. A word may stand for several keys; those
 * that are known where it was written are told.
 */
export const TRADE_WORDS: Readonly<Record<string, string>> = {
  line: "name title product line-name",
  id: "name station",
  unit: "units time-unit",
  demand:
    "takt takt-time cycle cycle-time line-cycle output volume rate throughput production quantity orders target units-per-day",
  calendar: "shifts hours working-time working-hours available-time schedule breaks",
  to: "end finish",
  length: "duration hours time",
  breaks: "break pause pauses rest lunch",
  stops: "stop downtime planned-downtime meeting meetings cleaning maintenance",
  changeovers: "changeover setup setups set-up",
  overtime: "extra-time",
  uptime: "availability oee technical-availability",
  yield: "first-pass-yield fpy good-share quality quality-rate oee",
  handling: "transfer transfer-time transport index-time conveyor-time positioning",
  "plan-to": "allowance allowances target-load target-utilization utilization max-load reserve",
  stations: "workstations work-stations workplaces positions cells",
  "max-places": "parallel parallel-stations parallel-workplaces max-parallel places duplicates",
  holds: "units-at-a-time in-process",
  "max-crew": "crew crew-size",
  equipment: "tool tools tooling fixture fixtures jig jigs machine machines resource resources",
  people: "operator operators worker workers headcount manning crew persons staff",
  chains: "precedence precedences precedence-graph arrows edges links",
  together: "same-station group groups linked cluster",
  apart: "incompatible separate exclusion exclusions not-together different-stations",
  limits: "constraints ergonomics",
  learning: "learning-curve learning-rate experience-curve progress-ratio ramp-up",
  variation: "variability deviation distribution sigma standard-deviation std-dev",
  cv: "coefficient-of-variation variation-coefficient standard-deviation",
  shape: "distribution type",
  pacing: "paced transport conveyor",
  buffer: "buffer-size stock storage",
  buffers: "storages stocks buffer-sizes",
  breakdowns: "failures breakdown stoppages downtimes outages",
  lasts: "mttr repair-time duration time-to-repair",
  models: "products variants versions mix product-mix model-mix",
  sequence: "order launch-sequence launch-order",
  benches: "bench subassembly subassemblies sub-assembly sub-assemblies off-line",
  attendance: "absence absenteeism",
  options: "scenarios alternatives",
  once: "investment invest capex one-off one-off-cost",
  rates: "costs wages wage labor-cost labour-cost",
  policy: "targets goals thresholds",
  supply: "supplies deliveries suppliers",
  tasks: "operations elements work-elements activities jobs steps",
  name: "description title label text operation",
  time: "task-time cycle-time ct standard-time std-time st process-time processing-time duration work-content sam smv seconds minutes",
  quantity: "qty count pieces pcs repeat repeats repetitions",
  after:
    "predecessor predecessors precedence precedences preceded-by depends-on prerequisites requires needs follows successors followers before",
  walking: "walk walk-time walking-time travel",
  "machine-time": "machine auto-time automatic-time machining-time unattended",
  "move-cost": "moving-cost relocation-cost",
  every: "frequency interval once-in",
  kind: "value class type category muda",
  side: "face mounting-side",
  test: "inspection check quality-check",
  check: "quality quality-point quality-points key-points inspect",
  fail: "fail-rate failure-rate failure reject-rate defect-rate",
  repair: "rework repair-time rework-time",
  "return-to": "back-to goes-back-to",
  scrap: "scrap-rate scrap-share",
  skill: "skills qualification qualifications competence certification",
  skills: "skill qualification qualifications competence certification",
  zone: "area section region",
  station: "workstation fixed fixed-to fixed-station assigned-station assigned-to position",
  uses: "load loads limits ergonomics",
  parts: "part materials material components component bom",
  "part-list": "parts part-master items articles materials material components bom bill-of-materials",
  delivery: "deliveries milk-run material-handling logistics supply-route",
  pack: "packs pack-size pack-quantity container container-size box-quantity lot-size",
  from: "start begin store storage location warehouse",
  replenish: "replenishment replenishment-time lead-time",
  safety: "safety-stock safety-factor",
  trip: "trip-time route-time",
  caution: "safety warning hazard note",
  lift: "weight mass",
};

/** What else is to be known where a word is not quite what the key says. */
const ADVICE: Readonly<Record<string, string>> = {
  ...sameAdvice(
    "demand",
    "takt takt-time cycle cycle-time line-cycle",
    "takt is worked out from demand and calendar; balance --cycle sets a fixed line cycle",
  ),
  ...sameAdvice(
    "plan-to",
    "allowance allowances",
    "the times of tasks include their allowances; plan-to keeps a reserve beside them",
  ),
  ...sameAdvice("after", "successors followers before", "each task names the tasks before it"),
  ...sameAdvice("attendance", "absence absenteeism", "it is the share of people who are there"),
};

function sameAdvice(key: string, words: string, advice: string): Record<string, string> {
  return Object.fromEntries(words.split(" ").map((word) => [`${key}: ${word}`, advice]));
}

const keysOfWord = new Map<string, string[]>();
for (const [key, words] of Object.entries(TRADE_WORDS))
  for (const word of words.split(" ")) addTo(keysOfWord, word, key);

/** The keys of ours that a word of the trade may stand for, however it is spaced and capitalised. */
export const keysOfTrade = (word: string): readonly string[] => keysOfWord.get(fold(word)) ?? [];

const fold = (word: string): string =>
  word
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/gu, "-");

/** "; write `after`: each task names ..." to hang on a message about an unknown key; nothing where no known key means it. */
export function tradeWords(word: string, known: readonly string[]): string {
  const keys = keysOfTrade(word).filter((key) => known.includes(key));
  if (keys.length === 0) return "";
  const advice = tradeAdvice(word, keys).map((each) => `: ${each}`);
  return `; write ${keys.map((key) => `\`${key}\``).join(" or ")}${advice.join("")}`;
}

/** What else is to be known of a word where it is not quite what these keys say. */
export const tradeAdvice = (word: string, keys: readonly string[]): string[] =>
  keys.flatMap((key) => ADVICE[`${key}: ${fold(word)}`] ?? []);
