import { isMap } from "yaml";
import type { TimeUnit } from "../../time/duration.js";
import type { YamlTree } from "../read/parse-yaml.js";
import { textOf } from "../read/read-shape.js";
import { readUnit } from "../text-values.js";

/** The unit of the file, looked at before anything else since times are read with it; null where there is none to use. */
export function readFileUnit(tree: YamlTree): TimeUnit | null {
  const root = tree.resolve(tree.root);
  if (!isMap(root)) return null;
  const pair = root.items.find((each) => textOf(tree.resolve(each.key))?.trim() === "unit");
  const typed = textOf(tree.resolve(pair?.value));
  const unit = typed === null ? null : readUnit(typed);
  return unit?.ok ? unit.value : null;
}
