/** Into how many parts a task is cut at the most, one after the other; a line is not balanced with more of them. */
export const MOST_PARTS = 20;

/** How many places a station is given at the most; beyond it a time is more likely wrong than the line so wide. */
export const MOST_PLACES = 100;
