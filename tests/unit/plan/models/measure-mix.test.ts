import { describe, expect, it } from "vitest";
import { stationTime } from "../../../../src/plan/figures/working-time.js";
import { measureMix } from "../../../../src/plan/models/measure-mix.js";
import { planOf } from "../../../../src/plan/plan.js";
import { postOf } from "../../../../src/plan/post.js";
import { ratio, ZERO } from "../../../../src/time/ratio.js";
import { numbersOf, paceOf, shortLine } from "../../../tools/line-of.js";
import { letters, mixedLine } from "./mixed-line.js";

const seconds = (value: number) => ratio(value * 1_000_000);

describe("30 s at 80 % and 90 s at 20 % on 45 s", () => {
  it("average 42 s, not 60: 93.3 %, and the worst model takes 200 %", () => {
    const line = mixedLine({ city: 80, cargo: 20 }, { fit: { seconds: [30, 90] } });
    expect(measureMix(line, paceOf(45), planOf([[0]])).stations).toEqual([
      {
        id: "S1",
        workingTime: seconds(45),
        average: seconds(42),
        averageShare: ratio(14, 15),
        times: [seconds(30), seconds(90)],
        worst: { model: 1, isOfAll: false, stationTime: seconds(90), share: ratio(2) },
        givenDrift: null,
        // 45 s over once in five units; the four others make up 15 s each.
        proposedDrift: { room: seconds(45), grows: null },
      },
    ]);
  });
});

describe("doors of 80 and 40 s, half each, and a seat of 50 s, on 60 s in the order A A B B", () => {
  const line = mixedLine(
    { four: 1, two: 1 },
    { doors: { seconds: [80, 40] }, seat: { seconds: [50, 50], after: ["doors"] } },
    ["four", "four", "two", "two"],
  );
  const { given, proposed, stations } = measureMix(
    line,
    paceOf(60),
    planOf([numbersOf(line, "doors"), numbersOf(line, "seat")]),
  );

  it("need 40 s of room as given, 20 s as proposed, and none at the seat", () => {
    expect([letters(given!), letters(proposed.sequence)]).toEqual(["AABB", "AB"]);
    expect(stations.map(({ givenDrift, proposedDrift }) => [givenDrift!.room, proposedDrift.room])).toEqual([
      [seconds(40), seconds(20)],
      [ZERO, ZERO],
    ]);
  });

  it("fill the station with doors on average and go over by a third with four doors", () => {
    expect(stations.map(({ averageShare, worst }) => [averageShare, worst!.model, worst!.share])).toEqual([
      [ratio(1), 0, ratio(4, 3)],
      [ratio(5, 6), 0, ratio(5, 6)],
    ]);
  });
});

describe("one model with 50 s on the left and 10 on the right, the other the other way round", () => {
  const line = mixedLine({ A: 1, B: 1 }, { left: { seconds: [50, 10] }, right: { seconds: [10, 50] } });
  const [station] = planOf([numbersOf(line, "left", "right")]).stations;
  const plan = { stations: [{ ...station!, sides: ["left", "right"] as const, crew: 2 }] };

  it("keep the station for 50 s each, and so for 50 s on average, though either side is busy for 30 s", () => {
    const [mix] = measureMix(line, paceOf(40), plan).stations;
    expect([mix!.average, mix!.times, stationTime(postOf(line, paceOf(40), plan.stations[0]!))]).toEqual([
      seconds(50),
      [seconds(50), seconds(50)],
      seconds(30),
    ]);
    expect(mix!.proposedDrift).toEqual({ room: null, grows: "average" });
  });
});

it("measures a line without models as the only model", () => {
  const line = shortLine(["a 10"]);
  const { given, proposed, stations } = measureMix(line, paceOf(20), planOf([[0]]));
  expect([
    given,
    proposed.sequence,
    stations[0]!.worst,
    stations[0]!.averageShare,
    stations[0]!.proposedDrift,
  ]).toEqual([null, [0], null, ratio(1, 2), { room: ZERO, grows: null }]);
});
