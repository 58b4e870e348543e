/**
 * What `import ... from "linepoise"` gives. All that is public stands in this list; nothing else of the package is to be imported.
 *
 * Texts in, plain data out: nothing here touches files, the process or the network, and the same input gives the same output on any machine.
 * Input that users write is never a reason to throw: its faults are findings. Wrong use by a program is a UsageError. Values with a unit are
 * texts as in a line file ("176 per day", "60 s", "95 %"), counts are numbers. Results are the JSON of the command line.
 */
export {
  type BalanceAnswered,
  type BalanceResult,
  type BalancingOptions,
  balance,
  type NestedBalance,
  type Obstacle,
  type OffLineFlag,
  type StationResult,
} from "./library/balance.js";
export { type CheckOptions, type CheckResult, check } from "./library/check.js";
export { type CompareOptions, type CompareResult, compare } from "./library/compare.js";
export {
  type ExportAnswered,
  type ExportOptions,
  type ExportResult,
  exportTasks,
} from "./library/export-tasks.js";
export { type Finding, findingsText, type PlacedFinding } from "./library/finding.js";
export {
  type ImportAnswered,
  type ImportOptions,
  type ImportResult,
  importTasks,
} from "./library/import-tasks.js";
export { type Line, type LineReading, readLine } from "./library/line.js";
export { type OffLineOptions, type OffLineResult, offLine } from "./library/off-line.js";
export { type OrderAnswered, type OrderOptions, type OrderResult, order } from "./library/order.js";
export type { DemandOptions } from "./library/pace.js";
export { type PartsOptions, type PartsResult, parts } from "./library/parts.js";
export {
  type Plan,
  type PlanReading,
  type PlanStation,
  planText,
  readPlan,
} from "./library/plan.js";
export { type RampOptions, type RampResult, ramp } from "./library/ramp.js";
export {
  type RebalanceAnswered,
  type RebalanceResult,
  type RebalancingOptions,
  rebalance,
  rebalanceSeveral,
  type SeveralDemandsAnswered,
  type SeveralDemandsOptions,
  type SeveralDemandsResult,
} from "./library/rebalance.js";
export { jsonText, type Refused } from "./library/result.js";
export type { SearchOptions, StopSignal } from "./library/search.js";
export { type SheetsAnswered, type SheetsOptions, type SheetsResult, sheets } from "./library/sheets.js";
export { type ShowOptions, type ShowResult, show } from "./library/show.js";
export { type SimulateOptions, type SimulateResult, simulate } from "./library/simulate.js";
export { type StaffOptions, type StaffResult, staff } from "./library/staff.js";
export { type StudyOptions, type StudyResult, study } from "./library/study.js";
export type { TableFile, TableOptions } from "./library/tables.js";
export { type TaktResult, takt } from "./library/takt.js";
export { UsageError } from "./library/usage-error.js";
