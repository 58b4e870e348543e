import { type Line, type Plan, readLine, readPlan } from "../../../src/library.js";

/** Six tasks with everything that the functions of the library answer. */
export const LINE_TEXT = `line: Trailers
unit: s
demand: 300 per day
calendar: {shifts: {day: {length: 8 h, breaks: 30 min}}}
handling: 4 s
plan-to: 95 %
variation: {shape: normal, cv: 10 %}
buffer: 1
learning: {share: 90 %, built: 100, least: 60 %}
part-list: {RIM-20: {name: Rim, pack: 10}}
options:
  wheels-off-line: {off-line: [[lace, true]]}
tasks:
  frame: {time: 40, on-base: true}
  axle:  {time: 35, after: frame}
  lace:  {time: 30, parts: {RIM-20: 2}}
  true:  {time: 25, after: lace}
  wheel: {time: 45, after: [axle, true]}
  box:   {time: 50, after: wheel, lift: 20 kg, caution: Use the hoist}
`;

export const PLAN_TEXT = `format: linepoise-plan/1
line: trailer.line.yaml
stations:
  - {id: S1, tasks: [frame, axle]}
  - {id: S2, tasks: [lace, true]}
  - {id: S3, tasks: [wheel]}
  - {id: S4, tasks: [box]}
`;

export const READINGS = "element,1,2,3\nframe,40.2,41.1,40.7\nlace,29.8,30.3,30.6\n";

export const ORDERS = "T-1,T-2\nlace,frame\ntrue,lace\nframe,true\naxle,axle\nwheel,wheel\nbox,box\n";

export const TASKS = "id,name,time (s),after\nlace,Lace,28,\nbox,Set box,50,lace\nbell,Fit bell,5,box\n";

export const FILES = {
  "trailer.orders.csv": ORDERS,
  "trailer.tasks.csv": TASKS,
  "trailer.line.yaml": LINE_TEXT,
  "trailer.plan.yaml": PLAN_TEXT,
  "trailer.readings.csv": READINGS,
};

export function smallLine(text = LINE_TEXT): Line {
  const { line } = readLine(text, { file: "trailer.line.yaml" });
  if (line === null) throw new Error("the line has faults");
  return line;
}

export function smallPlan(line: Line, text = PLAN_TEXT): Plan {
  const { plan } = readPlan(text, line, { file: "trailer.plan.yaml" });
  if (plan === null) throw new Error("the plan has faults");
  return plan;
}
