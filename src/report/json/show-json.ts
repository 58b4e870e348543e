import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import type { StandingPlan } from "../../answer/show/answer-show.js";
import { CAUTION } from "../cautions.js";
import { balanceAsJson } from "./balance-json.js";
import { benchesJson } from "./check-json.js";
import { secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `show`: a plan that stands, with the keys of `balance`, its benches, and a better plan where a search found one. */
export function showDocument(answer: ShownBalance, benches: StandingPlan["benches"]) {
  const better = answer.standing?.better ?? null;
  return resultDocument("show", {
    ...balanceAsJson(answer),
    benches: benchesJson(answer.line, benches),
    better: better && {
      people: better.people,
      stations: better.stations,
      cycleOfPlanSeconds: secondsJson(better.cycle),
    },
    caution: CAUTION,
  });
}

export const showJson = asText(showDocument);
