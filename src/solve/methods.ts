import { RULES } from "./rules/register.js";

/** Every value of `--method`: the rules, the search, and all of them together. */
export const METHODS: readonly string[] = [...RULES.map((rule) => rule.name), "exact", "best"];
export const DEFAULT_METHOD = "best";

/** Partial plans that the exact search may look at unless `--nodes` says otherwise. */
export const DEFAULT_NODES = 400_000;

/** How often they double until a plan is found, where nobody says how many there may be. */
export const DOUBLINGS = 8;
