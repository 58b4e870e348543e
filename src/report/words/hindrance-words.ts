import type { Hold } from "../../benches/held-on-line.js";
import type { Hindrance } from "../../benches/why-not.js";
import type { Line } from "../../line/line.js";

/** What keeps tasks from being built away from the line, with the arrow that forbids it. */
export function hindranceWords(line: Line, hindrance: Hindrance | Hold): string {
  const idOf = (task: number) => line.tasks[task]!.id;
  const arrowOf = (arrow: readonly number[]) => arrow.map(idOf).join(" -> ");
  switch (hindrance.kind) {
    case "on-base": {
      const id = idOf(hindrance.task);
      if (hindrance.arrow === null) return `${id} works on the base unit: it is marked \`on-base: true\``;
      const { arrow, chain } = hindrance;
      return chain === null
        ? `${id} needs ${idOf(arrow[0])}, which is on the base unit (${arrowOf(arrow)})`
        : `${id} works on the base unit: it needs ${idOf(arrow[0])}, which is on it (${arrowOf(chain)})`;
    }
    case "needs-the-line": {
      const { task, arrow } = hindrance;
      return `${idOf(task)} needs ${idOf(arrow[0])}, which is on the line (${arrowOf(arrow)})`;
    }
    case "joins-nowhere": {
      const ends = hindrance.ends.map(idOf);
      return ends.length === 0
        ? "nothing on the line waits for it: no precedence says where it joins"
        : `nothing waits for ${ends.join(", ")}: no precedence says where ${ends.length === 1 ? "it joins" : "they join"}`;
    }
    case "joins-at-several": {
      const { arrows } = hindrance;
      return `it joins at ${arrows.length} tasks (${arrows.map(arrowOf).join(", ")})`;
    }
    case "fixed-station": {
      const names = hindrance.stations.map((at) => line.floor[at]!.id).join(" or ");
      return `${idOf(hindrance.task)} may stand at ${names} only (station)`;
    }
    case "together":
      return `${idOf(hindrance.task)} shares its station with ${idOf(hindrance.stays)}, which would stay (together)`;
    case "apart":
      return `${idOf(hindrance.task)} and ${idOf(hindrance.other)} never share a place (apart)`;
  }
}
