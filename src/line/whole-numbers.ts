import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";

/** More of anything on one line is a slip, and would only be told by a search that never ends. */
const MOST = 1000;
const MOST_OF_MANY = 1_000_000;

const FROM_ONE = "a whole number from 1 is expected";

/** Pieces per unit: a whole number from 1, in plain digits. */
export const readQuantity = wholeNumber(
  "a quantity",
  Number.MAX_SAFE_INTEGER,
  "a quantity is a whole number of pieces per unit, 1 or more",
);

/** People together at a task, or the most who share a unit. */
export const readPeople = wholeNumber("a number of people", MOST);

/** The most parallel places of a station. */
export const readPlaces = wholeNumber("a number of places", MOST);

/** Units at one place of a station. */
export const readHolds = wholeNumber("a number of units", MOST);

/** How many stations one task stands after another. */
export const readStationsBetween = wholeNumber("a number of stations", MOST);

/** How many of an equipment exist. */
export const readEquipmentCount = wholeNumber("a count", MOST_OF_MANY);

/** The number of units of which one gets the work. */
export const readEvery = wholeNumber("a number of units", MOST_OF_MANY);

/** The most stations or people of a plan. */
export const readLimit = wholeNumber("a limit", MOST_OF_MANY);

/** What moving a task costs, in whole points. */
export const readMoveCost = wholeNumber("a cost of a move", MOST);

/** Stations more than the least: a whole number from 0. */
export function readAboveLeast(text: string): Reading<number> {
  if (/^0+$/u.test(text.trim())) return accept(0);
  return readFromOne(text);
}

/** Units built before, or of a buffer: a whole number from 0, with "units" behind it or not. */
export function readUnitsFromZero(text: string): Reading<number> {
  const number = text.trim().replace(/\s+units?$/u, "");
  return /^0+$/u.test(number) ? accept(0) : readBuilt(number);
}

const readBuilt = wholeNumber("a number of units", MOST_OF_MANY, "a whole number from 0 is expected");

/** Which unit it is, counted from the first. */
export const readUnitNumber = wholeNumber("the number of a unit", MOST_OF_MANY);

const readFromOne = wholeNumber("a number of stations", MOST, "a whole number from 0 is expected");

/** Shifts of a day that a bench works. */
export const readShifts = wholeNumber("a number of shifts", 24);

/** Stations of a bench. */
export const readStationsOfBench = wholeNumber("a number of stations", MOST);

/** Pieces that a bench builds for one unit. */
export const readPieces = wholeNumber("a number of pieces", MOST_OF_MANY);

/** Units whose parts find room. */
export const readSpace = wholeNumber("a number of units", MOST_OF_MANY);

/** Units in a row. */
export const readBunch = wholeNumber("a number of units", MOST_OF_MANY);

/** How many of a part are in one pack. */
export const readPack = wholeNumber("a number of pieces", MOST_OF_MANY);

/** Packs of one trip. */
export const readPacksOfTrip = wholeNumber("a number of packs", MOST_OF_MANY);

/** A fixed number of stations. */
export const readStationCount = wholeNumber("a number of stations", MOST);

/** People who build whole units. */
export const readTablePeople = wholeNumber("a number of people", MOST);

/** Reads whole numbers from 1 in plain digits; `noun` says what they count. */
function wholeNumber(noun: string, most: number, expected = FROM_ONE): (text: string) => Reading<number> {
  return (text) => {
    const trimmed = text.trim();
    if (trimmed === "") return refuse(`${noun} is missing (blank is never 0): ${expected}`);
    const number = /^\d+$/u.test(trimmed) ? Number(trimmed) : 0;
    if (number < 1) return refuse(`${quoted(trimmed)} is not ${noun}: ${expected}, in plain digits`);
    if (number > most) return refuse(`${quoted(trimmed)} is too much for ${noun}: at most ${most} is taken`);
    return accept(number);
  };
}
