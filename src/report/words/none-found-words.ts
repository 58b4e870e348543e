import { countOf } from "../../findings/count-of.js";
import type { Balance } from "../../solve/balance.js";

/** How much of a search found no plan: "400000 partial plans (the limit)". */
export function noneFoundWords({ search }: Pick<Balance, "search">): string {
  if (search === null) return countOf(0, "partial plan");
  const { nodes, nodeLimit, ended } = search;
  const limit = ended === "nodes" && nodeLimit !== null ? ` (limit ${nodeLimit})` : "";
  return `${countOf(nodes, "partial plan")}${limit}`;
}
