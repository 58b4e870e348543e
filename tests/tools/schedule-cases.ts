import fc from "fast-check";
import type { Line, Task } from "../../src/line/line.js";
import { s } from "./floor-line.js";
import { type FloorCase, type FloorCaseTerms, floorCases } from "./floor-random-line.js";

export interface ScheduleTerms extends FloorCaseTerms {
  /** People of a place may share the work of a unit. */
  readonly isShared?: boolean;
}

const number = (min: number, max: number) => fc.integer({ min, max });

const taskDraw = fc.record({
  machine: fc.oneof(fc.constant(null), fc.constant(0), number(1, 40)),
  equipment: fc.subarray(["press", "rig"]),
  keepsEquipment: fc.boolean(),
});

const lineDraw = fc.record({
  holds: fc.constantFrom(1, 1, 2, 3),
  holdsOfFirst: fc.constantFrom(null, null, 1, 2),
  maxCrew: fc.constantFrom(2, 2, 3),
  crewOfFirst: fc.constantFrom(null, null, 1, 2),
  rigs: fc.option(number(1, 3)),
  tasks: fc.array(taskDraw, { minLength: 12, maxLength: 12 }),
});

/** Small lines with rules whose stations are schedules: machines that run by themselves, equipment, units that wait, shared crews. */
export function scheduleCases(terms: ScheduleTerms): fc.Arbitrary<FloorCase> {
  return fc.tuple(floorCases(terms), lineDraw).map(([given, drawn]) => {
    const { line } = given;
    const equipment = new Map(line.equipment);
    if (drawn.rigs !== null) equipment.set("rig", drawn.rigs);
    return {
      ...given,
      line: {
        ...line,
        equipment,
        holds: drawn.holds,
        maxCrew: terms.isShared ? drawn.maxCrew : 1,
        tasks: line.tasks.map((task, at) => withMachine(line, task, drawn.tasks[at]!)),
        floor: line.floor.map((station, at) => ({
          ...station,
          holds: at === 0 ? drawn.holdsOfFirst : null,
          maxCrew: at === 0 && terms.isShared ? drawn.crewOfFirst : null,
        })),
      },
    };
  });
}

type TaskDraw = typeof taskDraw extends fc.Arbitrary<infer T> ? T : never;

function withMachine(line: Line, task: Task, { machine, equipment, keepsEquipment }: TaskDraw): Task {
  const stands = (name: string) => line.floor.some((station) => station.equipment.includes(name));
  return {
    ...task,
    machineTime: machine === null ? task.machineTime : s(machine),
    equipment: keepsEquipment ? task.equipment : equipment.filter((name) => !stands(name)),
  };
}
