import { loadChart } from "../answer/charts/load-chart.js";
import { orderChart } from "../answer/charts/order-chart.js";
import { stationChart } from "../answer/show/station-chart.js";
import { lineBeside } from "../benches/bench-of-plan.js";
import { modelNamed, stationNamed } from "../plan/named.js";
import { loadPicture } from "../report/html/load-picture.js";
import { orderPicture } from "../report/html/order-picture.js";
import { svgFile } from "../report/html/picture.js";
import { chartPicture } from "../report/html/station-chart-picture.js";
import { loadChartJson, orderChartJson } from "../report/json/charts-json.js";
import { chartJson } from "../report/json/station-chart-json.js";
import { loadChartText, orderChartText } from "../report/terminal/charts-text.js";
import { chartText } from "../report/terminal/station-chart-text.js";
import { type Context, type Register, UsageError } from "./context.js";
import {
  addFormatName,
  addOutputOptions,
  checkOutput,
  emit,
  formatOrElse,
  type OutputOptions,
  refuseSameFile,
} from "./emit.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { cycleOption, demandOption } from "./find-pace.js";
import { loadPacedLine } from "./load-paced-line.js";
import { loadPlan } from "./load-plan.js";
import { oneOf, valueFor } from "./option-values.js";

const CHARTS = ["loads", "order", "station"] as const;
type ChartName = (typeof CHARTS)[number];

const FORMATS = ["text", "svg", "json"] as const;
type Format = (typeof FORMATS)[number];

interface ChartOptions extends OutputOptions {
  readonly of: ChartName;
  readonly station?: string;
  readonly model?: string;
  readonly against?: string;
  readonly cycle?: string;
  readonly demand?: string;
  readonly format?: Format;
}

export const registerChart: Register = (program, act) => {
  const command = program
    .command("chart")
    .description("pictures of a plan: loads against the pace, order of work by station, one unit over time")
    .argument("<line>", "line file; - for standard input")
    .argument("<plan>", "plan file")
    .option("--of <name>", `one of ${CHARTS.join(", ")}`, oneOf(CHARTS), "loads")
    .option("--station <id>", "with --of station: the station or bench that is drawn over time")
    .option(
      "--model <id>",
      "with --of station: a unit of this model (default: the kind that most units are of)",
    )
    .option("--against <plan>", "with --of order: marks the tasks that stood elsewhere in this plan")
    .addOption(cycleOption())
    .addOption(demandOption());
  addOutputOptions(addFormatName(command, FORMATS)).action(
    (path: string, plan: string, options: ChartOptions) =>
      act((context) => drawChart(context, path, plan, options)),
  );
};

async function drawChart(
  context: Context,
  path: string,
  planPath: string,
  options: ChartOptions,
): Promise<ExitStatus> {
  const format = formatOrElse<Format>(options, "text");
  refuseUnasked(options);
  const asked = { ...options, ...(format === "json" && { json: true as const }) };
  await checkOutput(context, path, options);
  for (const read of [planPath, options.against])
    if (options.out !== undefined && read !== undefined)
      refuseSameFile(context, ["--out", options.out], ["the plan", read]);
  const paced = await loadPacedLine(context, "chart", path, asked);
  if (paced === null) return EXIT_STATUS.wrongInput;
  const { loaded, found } = paced;
  loaded.tell(loaded.findings, false);
  const { line, pace } = found;
  const plan = await loadPlan(context, "chart", planPath, line, asked);
  if (plan === null) return EXIT_STATUS.wrongInput;
  const before =
    options.against === undefined ? null : await loadPlan(context, "chart", options.against, line, asked);
  if (before === null && options.against !== undefined) return EXIT_STATUS.wrongInput;
  const draw = {
    loads: () => {
      const chart = loadChart(lineBeside(line, plan), pace, plan);
      return {
        svg: () => svgFile(loadPicture(chart)),
        json: () => loadChartJson(chart),
        text: () => loadChartText(chart, context),
      };
    },
    order: () => {
      const chart = orderChart(line, plan, before);
      return {
        svg: () => svgFile(orderPicture(chart)),
        json: () => orderChartJson(chart),
        text: () => orderChartText(chart, context),
      };
    },
    station: () => {
      const model = options.model === undefined ? null : valueFor("--model", modelNamed(line, options.model));
      const station = valueFor("--station", stationNamed(plan, options.station!));
      const chart = stationChart(line, pace, plan, station, model);
      return {
        svg: () => svgFile(chartPicture(chart, "station", true)),
        json: () => chartJson(chart, "chart"),
        text: () => chartText(chart, context),
      };
    },
  }[options.of]();
  await emit(context, draw[format](), options);
  return EXIT_STATUS.fine;
}

/** Options of one chart are no use to another. */
function refuseUnasked({ of, station, model, against }: ChartOptions): void {
  if (of === "station" && station === undefined)
    throw new UsageError("--of station: name the station or bench as well, by --station");
  const only: readonly [string, unknown, ChartName][] = [
    ["--station", station, "station"],
    ["--model", model, "station"],
    ["--against", against, "order"],
  ];
  for (const [option, value, chart] of only)
    if (value !== undefined && of !== chart)
      throw new UsageError(
        `${option} says something of --of ${chart} alone; give --of ${chart}, or leave ${option} out`,
      );
}
