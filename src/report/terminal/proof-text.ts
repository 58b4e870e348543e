import type { BalanceAnswer } from "../../off-line/answer-balance.js";
import type { SearchAnswer } from "../../solve/search/fewest-stations.js";
import { labelled, paragraph } from "./sections.js";
import type { Look } from "./style.js";

/** Why a search ended that proved nothing, and what would take it further. */
const ENDINGS: Readonly<Record<SearchAnswer["ended"], string>> = {
  proved: "",
  nodes: "The limit on partial plans was reached; --nodes raises it.",
  time: "The time was up; --seconds raises it.",
  interrupted: "Interrupted.",
  memory: "The memory ceiling was reached.",
};

/** What is proved about the number of stations, and why, in words. */
export function proofText({ balance, bound, outcome, gap, search }: BalanceAnswer, look: Look): string {
  if (balance === null || bound === null) return "";
  const stations = balance.plan.stations.length;
  const looked =
    search.nodes > 0 && bound.kind !== "search"
      ? ` ${search.nodes} partial ${search.nodes === 1 ? "plan was" : "plans were"} looked at.`
      : "";
  if (outcome !== "proved") {
    const least = `At least ${bound.stations} stations are needed: ${bound.reason}.`;
    const open = `Not proved: ${stations} stations are the best found; whether fewer would do is open.`;
    const ended = balance.search === null ? " No search was asked for." : ` ${ENDINGS[balance.search.ended]}`;
    return paragraph(`${open} ${least}${looked}${ended}`, look);
  }
  if (stations === 1) return paragraph("Proved: every line needs at least 1 station.", look);
  const fewer = `${stations - 1} ${stations === 2 ? "station is" : "stations are"} impossible`;
  return paragraph(`Proved: ${fewer}, because ${gap ?? bound.reason}.${looked}`, look);
}

/** Stations by method, the method of the plan shown marked. */
export function methodsText({ balance }: BalanceAnswer, look: Look): string {
  if (balance === null) return "";
  return labelled(
    balance.methods.map(({ method, stations }) => [
      method,
      String(stations),
      `${stations === 1 ? "station" : "stations"}${method === balance.method ? "; the plan shown" : ""}`,
    ]),
    look,
  );
}
