import type { Line } from "../line/line.js";
import { placesOfEach, type RoomForTasks } from "./room-for-tasks.js";

/** Into how many parts a task is cut at the most, one after the other; a line is not balanced with more of them. */
export const MOST_PARTS = 20;

/** How many places a station is given at the most; beyond it a time is more likely wrong than the line so wide. */
export const MOST_PLACES = 100;

/** What is said in place of a balance with so many parts; `most` is what one of them takes. */
export const noParts = (parts: number, most: string): string =>
  `split: no, it would take ${parts} parts ${most}`;

/** The same of places for all of these tasks. */
export const noPlaces = (line: Line, tasks: readonly number[], room: RoomForTasks): string =>
  `parallel places: no, it would take ${placesOfEach(line, tasks, room)}`;
