import { TERMS as GROUPS, type Term } from "../../src/report/terms.js";

/** A term with where the page says it can be seen. */
export interface SeenTerm extends Term {
  /** A command of `RUNS` and words that it prints. */
  readonly printed?: readonly [keyof typeof RUNS, string];
  /** A command of `RUNS` and where its JSON has the figure. */
  readonly json?: readonly [keyof typeof RUNS, string];
}

/** The commands that terms are looked up in. */
export const RUNS = {
  takt: "takt examples/cargo-bike.line.yaml",
  balance: "balance examples/cargo-bike.line.yaml --proof",
  models: "balance examples/two-models.line.yaml --proof",
  compare: "compare examples/cargo-bike.line.yaml",
  rebalance: "rebalance examples/cargo-bike.line.yaml --from examples/last-season.plan.yaml",
  parts: "parts examples/packing.line.yaml examples/packing.plan.yaml",
  simulate: "simulate examples/wheels.line.yaml examples/wheels.plan.yaml",
  sheets: "sheets examples/packing.line.yaml examples/packing.plan.yaml",
} as const;

/** Where a term can be seen, by its name. */
export const SEEN: Readonly<Record<string, Pick<SeenTerm, "printed" | "json">>> = {
  "available time": { printed: ["takt", "= available"], json: ["takt", "availableSecondsPerPeriod"] },
  takt: { printed: ["takt", "takt"], json: ["takt", "pace.taktSeconds"] },
  yield: { printed: ["takt", "99 % yield"], json: ["takt", "yield"] },
  "line cycle": { printed: ["takt", "line cycle"], json: ["takt", "pace.lineCycleSeconds"] },
  "passes of a station": { printed: ["models", "passes"] },
  handling: { printed: ["takt", "handling per unit and station"], json: ["takt", "pace.handlingSeconds"] },
  "working time of a station": { printed: ["takt", "working time"], json: ["takt", "workingSeconds"] },
  "station limit": { printed: ["takt", "station limit"], json: ["takt", "pace.stationLimitSeconds"] },
  "times performed per good unit": {
    printed: ["models", "Times performed per good unit"],
    json: ["models", "visits[].perGoodUnit"],
  },
  "station time": { printed: ["balance", "time"], json: ["balance", "stations[].seconds"] },
  "start of a task": { json: ["balance", "stations[].starts[].startSeconds"] },
  dwell: { printed: ["models", "dwell"], json: ["balance", "stations[].dwellSeconds"] },
  "waiting at a station": { printed: ["models", "waiting"] },
  "equipment time": { json: ["models", "stations[].equipmentSeconds"] },
  "hands, walking, machine time": {
    printed: ["models", "walking"],
    json: ["models", "stations[].manualSeconds"],
  },
  load: { printed: ["balance", "load against the limit"] },
  "average and peak of a station": {
    printed: ["models", "peak"],
    json: ["models", "stations[].peakSeconds"],
  },
  "crew, people of a station": { json: ["balance", "stations[].operators"] },
  "work content": { printed: ["balance", "work content"], json: ["balance", "measures.workContentSeconds"] },
  "cycle of the plan": {
    printed: ["balance", "cycle of the plan"],
    json: ["balance", "measures.cycleOfPlanSeconds"],
  },
  idle: { printed: ["balance", "idle"], json: ["balance", "measures.idleSecondsPerUnit"] },
  overload: { json: ["balance", "stations[].overloadSeconds"] },
  "efficiency at the pace": {
    printed: ["balance", "efficiency"],
    json: ["balance", "measures.efficiencyAtPace"],
  },
  "efficiency at the slowest station": {
    printed: ["balance", "at the slowest station"],
    json: ["balance", "measures.efficiencyAtSlowest"],
  },
  "balance delay": {
    printed: ["balance", "balance delay"],
    json: ["balance", "measures.balanceDelayAtPace"],
  },
  "smoothness index": {
    printed: ["balance", "smoothness index"],
    json: ["balance", "measures.smoothnessSeconds"],
  },
  "output cycle": { json: ["balance", "measures.outputCycleSeconds"] },
  output: { printed: ["balance", "output"], json: ["balance", "measures.outputPerShift"] },
  "labour and cost per unit wanted": {
    printed: ["compare", "labour per unit wanted"],
    json: ["compare", "options[].figures.labourMinutes"],
  },
  "repairs, repairers": { printed: ["balance", "repairer"], json: ["balance", "measures.repairPeople"] },
  "lead time": { printed: ["models", "lead time"], json: ["models", "measures.leadTimeSeconds"] },
  "units in a wait, fixtures": {
    printed: ["models", "fixtures"],
    json: ["models", "measures.waiting[].fixtures"],
  },
  "least stations": {
    printed: ["balance", "Proved: 11 stations are impossible"],
    json: ["balance", "bound.stations"],
  },
  "worst model": { printed: ["models", "worst model"], json: ["models", "stations[].worstModel.seconds"] },
  peak: { printed: ["models", "caught up in"], json: ["models", "stations[].peaks[].overSeconds"] },
  "drift allowance": {
    printed: ["models", "Drift allowance"],
    json: ["models", "stations[].driftRoomSeconds.given"],
  },
  "proposed sequence": { printed: ["models", "sequence"], json: ["models", "sequence.proposed"] },
  bench: { printed: ["compare", "bench places"], json: ["compare", "options[].benches"] },
  block: { printed: ["balance", "joins at"], json: ["balance", "offLine[].joinsAt"] },
  move: { printed: ["rebalance", "moves"] },
  "standard work-in-process": {
    printed: ["sheets", "standard work-in-process"],
    json: ["sheets", "sheets[].standardWorkInProcess"],
  },
  "containers at the line": {
    printed: ["parts", "Containers at the line"],
    json: ["parts", "places[].parts[].containers"],
  },
  "material handler": { json: ["parts", "handling.people"] },
  "recommended weight limit": {
    printed: ["sheets", "RWL"],
    json: ["sheets", "sheets[].lifts[].ends[].recommendedKilograms"],
  },
  "lifting index": {
    printed: ["sheets", "lifting index"],
    json: ["sheets", "sheets[].lifts[].ends[].liftingIndex"],
  },
  "slack of today's plan": { printed: ["rebalance", "SLACK OF TODAY'S PLAN"] },
  "good units an hour": {
    printed: ["simulate", "good units an hour"],
    json: ["simulate", "goodUnitsPerHour.mean"],
  },
  interval: { printed: ["simulate", "±"], json: ["simulate", "goodUnitsPerHour.halfWidth"] },
  "busy, waits, starved, blocked, down": {
    printed: ["simulate", "starved"],
    json: ["simulate", "stations[].starved"],
  },
  overruns: { printed: ["simulate", "overruns"], json: ["simulate", "stations[].overrun"] },
  "station that limits": { printed: ["simulate", "limits the line"], json: ["simulate", "bottleneck"] },
  "units in the line": { printed: ["simulate", "units in the line"], json: ["simulate", "workInProcess"] },
  "pass-through time": {
    printed: ["simulate", "through it in"],
    json: ["simulate", "passThroughSeconds"],
  },
};

/** The page of terms, in its order. */
export const TERMS: Readonly<Record<string, readonly SeenTerm[]>> = Object.fromEntries(
  Object.entries(GROUPS).map(([group, terms]) => [
    group,
    terms.map((each) => ({ ...each, ...SEEN[each.term] })),
  ]),
);
