import { found, type LineRule } from "./line-rule.js";

const name = "short-chain";

export const shortChain: LineRule = {
  name,
  purpose: "A chain names two tasks or more.",
  check(draft) {
    return (draft.keys.chains?.items ?? [])
      .filter((chain) => chain.count < 2)
      .map(({ count, place }) => {
        const has = count === 0 ? "no task" : "one task";
        const message = `chains: this chain names ${has}; it takes two to make an arrow`;
        return found(name, draft, { severity: "error", message, place });
      });
  },
};
