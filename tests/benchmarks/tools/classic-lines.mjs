import { readFileSync } from "node:fs";
import { readGraphs } from "../../../dist/benchmark/least-case.js";

const read = (name) => readFileSync(new URL(`../../../shared/${name}`, import.meta.url), "utf8");

/** The lines of the literature by name, each without a station limit of its own; shared/README.md has the sources. */
export function readClassicLines() {
  return readGraphs(read("classic-lines.json"));
}

/** Cycles with the least number of stations, in the order of the file: lines by size, cycles ascending. */
export function readOptima() {
  const rows = read("classic-optima.csv").trimEnd().split("\n").slice(1);
  return rows.map((row) => {
    const [line, limit, stations, status] = row.split(",");
    return { line, limit: Number(limit), stations: Number(stations), proven: status === "proven" };
  });
}
