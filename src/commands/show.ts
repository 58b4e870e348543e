import { stationChart } from "../answer/show/station-chart.js";
import { nearestWordsAmong } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import type { Plan, Station } from "../plan/plan.js";
import { chartJson } from "../report/json/chart-json.js";
import { chartText } from "../report/terminal/chart-text.js";
import { quoted } from "../time/quoted.js";
import { type Context, type Register, UsageError } from "./context.js";
import { addOutputOptions, checkOutput, emit, type OutputOptions, refuseSameFile } from "./emit.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { findPace, setAside } from "./find-pace.js";
import { loadLine } from "./load-line.js";
import { loadPlan } from "./load-plan.js";

interface ShowOptions extends OutputOptions {
  readonly station: string;
  readonly model?: string;
  readonly cycle?: string;
  readonly demand?: string;
}

export const registerShow: Register = (program, act) => {
  const command = program
    .command("show")
    .description(
      "one unit at a station of a plan over time: who works when, what machines run, how long it stands",
    )
    .argument("<line>", "line file; - for standard input")
    .argument("<plan>", "plan file")
    .requiredOption("--station <id>", "the station, or a bench of the plan")
    .option("--model <id>", "a unit of this model (default: the kind that most units are of)")
    .option(
      "--cycle <time>",
      "a line cycle of your own, which is the station limit too, in place of the file's pace",
    )
    .option("--demand <text>", 'good units wanted instead of the file\'s, such as "176 per day"');
  addOutputOptions(command).action((path: string, plan: string, options: ShowOptions) =>
    act((context) => showStation(context, path, plan, options)),
  );
};

async function showStation(
  context: Context,
  path: string,
  planPath: string,
  options: ShowOptions,
): Promise<ExitStatus> {
  await checkOutput(context, path, options);
  if (options.out !== undefined) refuseSameFile(context, ["--out", options.out], ["the plan", planPath]);
  const loaded = await loadLine(context, "show", path, options);
  if (loaded === null) return EXIT_STATUS.wrongInput;
  const found = findPace(loaded.line, options);
  if (!found.ok) {
    await loaded.refuse([...loaded.findings, found.fault]);
    return EXIT_STATUS.wrongInput;
  }
  const { line, pace } = found;
  const plan = await loadPlan(context, "show", planPath, line, options);
  if (plan === null) return EXIT_STATUS.wrongInput;
  const station = stationOf(plan, options.station);
  const chart = stationChart(line, pace, plan, station, modelOf(line, options.model));
  if (options.cycle !== undefined) context.note(setAside(loaded.line));
  await emit(context, options.json ? chartJson(chart) : chartText(chart, context), options);
  return EXIT_STATUS.fine;
}

/** The station or bench of that id. Throws a UsageError that names what is near. */
function stationOf({ stations, benches = [] }: Plan, id: string): Station {
  const all = [...stations, ...benches];
  const found = all.find((each) => idKey(each.id) === idKey(id));
  if (found !== undefined && found.tasks.length > 0) return found;
  if (found !== undefined) throw new UsageError(`--station: ${found.id} has no tasks`);
  const ids = all.map((each) => each.id);
  const near = nearestWordsAmong(ids)(id) || `; the plan has ${ids.join(", ")}`;
  throw new UsageError(`--station: no station of the plan is called ${quoted(id)}${near}`);
}

/** The number of the model; null where none is asked for. Throws a UsageError for one that the line does not have. */
function modelOf({ models }: Line, id: string | undefined): number | null {
  if (id === undefined) return null;
  const found = models.findIndex((each) => idKey(each.id) === idKey(id));
  if (found >= 0) return found;
  const ids = models.map((each) => each.id);
  const known = ids.length === 0 ? "; the line has no models" : `; known: ${ids.join(", ")}`;
  throw new UsageError(`--model: no model is called ${quoted(id)}${nearestWordsAmong(ids)(id) || known}`);
}
