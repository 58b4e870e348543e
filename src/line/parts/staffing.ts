import { ONE, ZERO } from "../../time/ratio.js";
import { readPart, readShare } from "../../time/share.js";
import type { Line } from "../line.js";
import type { ObjectDraft } from "../read/draft.js";
import { text } from "../read/leaf.js";

/** What turns the people of a day into people to hire. */
export const staffingKeys = () => ({
  attendance: text(
    "share",
    "Share of the hired people who are present on a day. Default: 100 %.",
    readShare,
  ).optional(),
  relief: text(
    "share",
    "Share of the time in which a reliever stands in, such as 5 %, on top of the line's people. Default: 0 %.",
    readPart,
  ).optional(),
});

type StaffingKeys = ObjectDraft<ReturnType<typeof staffingKeys>>["at"];

export function buildStaffing(keys: StaffingKeys): Pick<Line, "attendance" | "relief"> {
  return { attendance: keys.attendance?.value ?? ONE, relief: keys.relief?.value ?? ZERO };
}
