import type { Finding } from "../findings/finding.js";
import type { OptionDraft } from "./draft-options.js";
import type { LineDraft } from "./line-draft.js";
import { calendarSum } from "./rules/calendar-sum.js";
import { demandPeriod } from "./rules/demand-period.js";
import { lossesCountedTwice } from "./rules/losses-counted-twice.js";
import { noShifts } from "./rules/no-shifts.js";
import { scrapAndYield } from "./rules/scrap-and-yield.js";
import { shiftLength } from "./rules/shift-length.js";
import { taskTimeSum } from "./rules/task-time-sum.js";

/** Rules about what an option may change. */
const CHANGEABLE = [
  taskTimeSum,
  noShifts,
  shiftLength,
  calendarSum,
  demandPeriod,
  lossesCountedTwice,
  scrapAndYield,
];

/** What is wrong with the line once an option has changed it, without what was wrong before. */
export function checkOptions(draft: LineDraft): Finding[] {
  const known = new Set(CHANGEABLE.flatMap((rule) => rule.check(draft)).map(({ message }) => message));
  return draft.options.flatMap((option) => {
    const changed = withOption(draft, option);
    return CHANGEABLE.flatMap((rule) => rule.check(changed))
      .filter(({ message }) => !known.has(message))
      .map((each) => ({ ...each, message: `option ${option.name}: ${each.message}` }));
  });
}

/** The draft with the calendar, the demand, the losses and the times of the option. */
function withOption(draft: LineDraft, { keys, times, offLine: _, ...option }: OptionDraft): LineDraft {
  const { calendar, demand, uptime, yield: good } = keys;
  const given = { calendar, demand, uptime, yield: good };
  const changes = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined));
  const places = Object.fromEntries(Object.keys(changes).map((key) => [key, option.place]));
  const timeOf = new Map(times.map(({ task, given: time }) => [task, time]));
  return {
    ...draft,
    keys: { ...draft.keys, ...changes },
    places: { ...draft.places, ...places },
    tasks: draft.tasks.map((task, number) => {
      const time = timeOf.get(number);
      return time === undefined ? task : { ...task, pieceTimes: [{ model: null, given: time }] };
    }),
  };
}
