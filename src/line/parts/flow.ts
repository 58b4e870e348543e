import * as z from "zod";
import { quoted } from "../../time/quoted.js";
import { readHours } from "../../time/read-calendar.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import type { Micros } from "../../time/units.js";
import { readId } from "../ids.js";
import { type Flow, type Line, PACINGS, TIMES_OF_BREAKDOWNS } from "../line.js";
import type { ObjectDraft } from "../read/draft.js";
import { choice, named, textOrNumber } from "../read/leaf.js";
import { readChoice } from "../text-values.js";
import { readUnitsFromZero } from "../whole-numbers.js";

/** How units move along the line and what stops a station, for a simulation. */
export const flowKeys = () => ({
  pacing: choice(
    "choice",
    "How units move, for `simulate`. unpaced: each goes on when its station is done and the next one has room. moving: the line goes on at the line cycle and stops for a station that runs past its `drift-room`. indexing: all units move together when every station is done, never faster than the line cycle. Default: unpaced.",
    PACINGS,
    readChoice("a pacing", PACINGS),
  ).optional(),
  buffer: textOrNumber(
    "count",
    "Units that find room between each station of an unpaced line and the next, for `simulate`. Default: 0.",
    readUnitsFromZero,
  ).optional(),
  buffers: z
    .record(
      textOrNumber("buffer", "After which station the buffer is, such as after S1.", readAfterStation),
      textOrNumber("count", "Units that find room there, a whole number from 0.", readUnitsFromZero),
    )
    .meta({ description: "The same after single stations, such as {after S1: 2}. Default: `buffer`." })
    .optional(),
  breakdowns: z
    .record(
      named("The id of a station."),
      z
        .strictObject({
          every: textOrNumber(
            "breakdown",
            "Mean time of a workplace of the station between two breakdowns, such as 4 h. `of` says whose time that is.",
            readTime,
          ),
          of: choice(
            "choice",
            "Whose time `every` counts. work: time in which the workplace works, so that one that waits does not break down. clock: all hours of the line. Default: work.",
            TIMES_OF_BREAKDOWNS,
            readChoice("a time that breakdowns count", TIMES_OF_BREAKDOWNS),
          ).optional(),
          lasts: textOrNumber("breakdown", "Mean time of one breakdown, such as 10 min.", readTime),
        })
        .meta({ description: "How often the station breaks down, and for how long." }),
    )
    .meta({
      description:
        "Breakdowns by station, for `simulate`, such as {S3: {every: 4 h, lasts: 10 min}}. Both times vary as exponential ones. Default: none.",
    })
    .optional(),
});

const AFTER = /^\s*after\s+(.*)$/su;

function readAfterStation(typed: string): Reading<string> {
  const station = AFTER.exec(typed)?.[1];
  if (station !== undefined) return readId(station);
  return refuse(
    `${quoted(typed.trim())} is no place of a buffer: write after and a station, such as after S1`,
  );
}

function readTime(typed: string): Reading<Micros> {
  const read = readHours(typed);
  if (read.ok && read.value === 0)
    return refuse(`${quoted(typed.trim())} is too short: a time above 0 is expected`);
  return read.ok ? accept(read.value) : read;
}

type FlowKeys = ObjectDraft<ReturnType<typeof flowKeys>>["at"];

/** How units move, of a draft without errors. */
export function buildFlow({ pacing, buffer, buffers, breakdowns }: FlowKeys): Pick<Line, "flow"> {
  const flow: Flow = {
    pacing: pacing?.value ?? "unpaced",
    buffer: buffer?.value ?? 0,
    buffers: (buffers?.entries ?? []).map(({ id, place, value }) => ({
      station: AFTER.exec(id)![1]!.trim(),
      size: value!.value,
      place,
    })),
    breakdowns: (breakdowns?.entries ?? []).map(({ id, place, value }) => ({
      station: id,
      of: value!.at.of?.value ?? "work",
      every: value!.at.every!.value,
      lasts: value!.at.lasts!.value,
      place,
    })),
  };
  return { flow };
}
