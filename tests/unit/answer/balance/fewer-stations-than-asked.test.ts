import { expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

const line = `line: Cargo bike
unit: s
demand: 60 per hour
stations: [{id: S1}, {id: S2}, {id: S3}]
tasks:
  a: {time: 40, station: S1}
  b: {time: 50, station: S1}
  c: {time: 20, after: b, not-after: S1}
`;

it("names the stations that the plan has where its rules leave it fewer than asked for, and each number once", async () => {
  // All three tasks are held to S1: 40 + 50 + 20 s.
  const args = ["balance", "line.yaml", "--stations", "2", "--json"];
  const answer = JSON.parse((await runLinepoise({ args, files: { "line.yaml": line } })).stdout);
  expect(answer.rates.map((rate: { stations: number }) => rate.stations)).toEqual([1]);
  expect(answer.findings.map(({ message }: { message: string }) => message)).toEqual([
    "2 stations were asked for; the plan uses 1, as no more of them bring a shorter cycle",
    "1 station has a cycle of 110 s; the demand needs a line cycle of 60 s",
  ]);
});
