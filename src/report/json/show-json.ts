import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import type { StandingPlan } from "../../answer/show/answer-show.js";
import { CAUTION } from "../cautions.js";
import { balanceAsJson } from "./balance-json.js";
import { benchesJson } from "./check-json.js";
import { jsonText } from "./json-text.js";
import { secondsJson } from "./number-json.js";

/** The result document of `show`: a plan that stands, with the keys of `balance`, its benches, and a better plan where a search found one. */
export function showJson(answer: ShownBalance, benches: StandingPlan["benches"]): string {
  const better = answer.standing?.better ?? null;
  const document = {
    format: "linepoise/1",
    command: "show",
    ...balanceAsJson(answer),
    benches: benchesJson(answer.line, benches),
    better: better && {
      people: better.people,
      stations: better.stations,
      cycleOfPlanSeconds: secondsJson(better.cycle),
    },
    caution: CAUTION,
  };
  return jsonText(document);
}
