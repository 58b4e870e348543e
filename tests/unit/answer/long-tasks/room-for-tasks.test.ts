import { expect, it } from "vitest";
import { RoomForTasks } from "../../../../src/answer/long-tasks/room-for-tasks.js";
import { ratio } from "../../../../src/time/ratio.js";
import { floorLine, s } from "../../../tools/floor-line.js";
import { paceOf } from "../../../tools/line-of.js";

/** The line cycle at which task a, 20 s and 70 s of a machine on a rig, has room, where so many rigs are there and places hold two. */
function cycleWith(rigs: number) {
  const tasks = { a: { equipment: ["rig"], machineTime: s(70) } };
  const line = floorLine(["a 20"], { tasks, equipment: { rig: rigs }, holds: 2 });
  return new RoomForTasks(line, paceOf(30), false).lineCycleFor(0);
}

it("finds the line cycle at which the rigs that exist keep up, and where benches keep all of them what the place alone asks", () => {
  expect(cycleWith(1)).toEqual(ratio(s(90)));
  expect(cycleWith(2)).toEqual(ratio(s(45)));
  expect(cycleWith(0)).toEqual(ratio(s(45)));
});
