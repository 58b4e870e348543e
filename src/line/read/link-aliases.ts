import { type Alias, isAlias, isMap, isNode, isPair, isSeq, type Node } from "yaml";
import type { TextFault } from "./yaml-faults.js";

/** How many more values than are written the aliases of one file may stand for, all together. */
const MOST_REPEATED = 100_000;

/** Which node each alias stands for. A bomb is refused by counting, before anything is expanded. */
export function linkAliases(root: Node): { targets: Map<Alias, Node>; faults: TextFault[]; bomb: boolean } {
  const linker = new Linker();
  linker.countValues(root);
  return linker;
}

/** Walks in the order of the file, since an alias stands for the last anchor of its name before it. */
class Linker {
  readonly targets = new Map<Alias, Node>();
  readonly faults: TextFault[] = [];
  bomb = false;
  readonly #anchors = new Map<string, Node>();
  readonly #open = new Set<Node>();
  readonly #counts = new Map<Node, number>();
  #repeated = 0;

  /** The values that a node stands for, itself included; recursion is bounded by the nesting the tokens may have. */
  countValues(node: unknown): number {
    if (isPair(node)) return this.countValues(node.key) + this.countValues(node.value);
    if (!isNode(node)) return 0;
    if (isAlias(node)) return this.#countAlias(node);
    const anchor = (node as { anchor?: string }).anchor;
    if (anchor) this.#anchors.set(anchor, node);
    this.#open.add(node);
    let count = 1;
    if (isMap(node) || isSeq(node)) for (const item of node.items) count += this.countValues(item);
    this.#open.delete(node);
    this.#counts.set(node, count);
    return count;
  }

  #countAlias(alias: Alias): number {
    const target = this.#anchors.get(alias.source);
    if (target === undefined) {
      this.#refuse(
        alias,
        "yaml-alias",
        `*${alias.source} names no anchor; write &${alias.source} at an earlier value`,
      );
      return 1;
    }
    if (this.#open.has(target)) {
      this.#refuse(alias, "yaml-alias", `*${alias.source} stands inside the value that it names`);
      return 1;
    }
    this.targets.set(alias, target);
    const count = this.#counts.get(target)!;
    this.#repeated += count;
    if (this.#repeated > MOST_REPEATED && !this.bomb) {
      this.bomb = true;
      const message = `up to *${alias.source} the aliases of this file stand for more than ${MOST_REPEATED} values; write them out`;
      this.#refuse(alias, "yaml-alias-limit", message);
    }
    return count;
  }

  #refuse(alias: Alias, rule: TextFault["rule"], message: string): void {
    const [from = 0, to = 0] = alias.range ?? [];
    this.faults.push({ rule, message, from, to });
  }
}
