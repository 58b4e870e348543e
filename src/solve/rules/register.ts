import { columns } from "./columns.js";
import { largestCandidate } from "./largest-candidate.js";
import { mostFollowers } from "./most-followers.js";
import { positionalWeight } from "./positional-weight.js";
import type { Rule } from "./rule.js";

/** Every balancing rule; help, reports and tests read this list. */
export const RULES: readonly Rule[] = [positionalWeight, largestCandidate, columns, mostFollowers];
