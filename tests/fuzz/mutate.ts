import type { Draw } from "./draw.js";
import { anyValue, oddName, unseenName } from "./hostile.js";
import { places, type Tree, valueAt } from "./tree.js";

/** Changes a tree in place at one to three places: values swapped, keys dropped, moved or renamed, hostile names and values. */
export function mutateTree(tree: Map<string, Tree>, draw: Draw): void {
  for (let turn = draw.once(2) ? 1 : draw.from(1, 3); turn > 0; turn--) mutateOnce(tree, draw);
}

function mutateOnce(tree: Map<string, Tree>, draw: Draw): void {
  const all = places(tree);
  if (all.length === 0) return;
  const { holder, key } = draw.pick(all);
  const other = draw.pick(all);
  const set = (value: Tree) => {
    if (Array.isArray(holder)) holder[key as number] = value;
    else holder.set(key as string, value);
  };
  const name = () => (draw.once(2) ? oddName(draw) : unseenName(draw));
  const change = draw.below(8);
  if (change === 0) {
    if (Array.isArray(holder)) holder.splice(key as number, 1);
    else holder.delete(key as string);
  } else if (change === 1) set(anyValue(draw));
  else if (change === 2) set(name());
  else if (change === 3) set(structuredClone(valueAt(other.holder, other.key)));
  else if (change === 4) {
    if (Array.isArray(holder)) holder.push(structuredClone(holder[key as number]!));
    else renameKey(holder, key as string, draw.once(2) ? name() : String(other.key));
  } else if (change === 5)
    set(draw.once(2) ? [valueAt(holder, key)] : new Map([[name(), valueAt(holder, key)]]));
  else if (change === 6) set(draw.once(2) ? [] : new Map());
  else {
    const swapped = valueAt(other.holder, other.key);
    const own = valueAt(holder, key);
    if (typeof swapped !== "string" || typeof own !== "string") set(anyValue(draw));
    else {
      if (Array.isArray(other.holder)) other.holder[other.key as number] = own;
      else other.holder.set(other.key as string, own);
      set(swapped);
    }
  }
}

function renameKey(holder: Map<string, Tree>, key: string, name: string): void {
  const entries = [...holder].map(([each, value]): [string, Tree] => [each === key ? name : each, value]);
  holder.clear();
  for (const [each, value] of entries) holder.set(each, value);
}

const SIGNS = "[]{}:,-#&*!|>'\"%@`?=<>\\/ \t\n\r;._0123456789aeTS\u0000\u001b\u202e\ufeff\u0085é日";

/** Changes a text: lines doubled, dropped, swapped or indented, pieces of another text put in, single characters changed. */
export function mutateText(text: string, other: string, draw: Draw): string {
  let result = text;
  for (let turn = draw.from(1, 4); turn > 0; turn--) result = mutateTextOnce(result, other, draw);
  return result;
}

function mutateTextOnce(text: string, other: string, draw: Draw): string {
  const lines = text.split("\n");
  const at = draw.below(lines.length);
  const signs = [...SIGNS];
  const cut = draw.below(text.length + 1);
  switch (draw.below(10)) {
    case 0:
      return lines.toSpliced(at, 0, lines[at]!).join("\n");
    case 1:
      return lines.toSpliced(at, 1).join("\n");
    case 2:
      return lines.with(at, draw.pick(lines)).join("\n");
    case 3:
      return lines.with(at, `${draw.pick(["  ", " ", "\t", "- ", "? ", "#"])}${lines[at]}`).join("\n");
    case 4: {
      const from = draw.below(other.length + 1);
      return text.slice(0, cut) + other.slice(from, from + draw.from(1, 40)) + text.slice(cut);
    }
    case 5:
      return text.slice(0, cut) + draw.pick(signs) + text.slice(cut);
    case 6:
      return text.slice(0, cut) + text.slice(cut + draw.from(1, 5));
    case 7:
      return text.slice(0, cut) + draw.pick(signs) + text.slice(cut + 1);
    case 8: {
      // A word becomes another value.
      const words = [...text.matchAll(/[\w.%]+/gu)];
      if (words.length === 0) return text;
      const word = draw.pick(words);
      const value = draw.once(3) ? oddName(draw) : anyValue(draw);
      return text.slice(0, word.index) + value + text.slice(word.index + word[0].length);
    }
    default:
      return draw.once(3) ? text.slice(0, cut) : text.slice(0, cut) + unseenName(draw) + text.slice(cut);
  }
}

/** Changes bytes: some flipped, cut out, doubled or set to what often breaks a format. */
export function mutateBytes(bytes: Uint8Array, draw: Draw): Uint8Array {
  let result = Uint8Array.from(bytes);
  for (let turn = draw.from(1, 6); turn > 0 && result.length > 0; turn--) {
    const at = draw.below(result.length);
    const length = Math.min(result.length - at, draw.from(1, draw.once(3) ? 40 : 4));
    switch (draw.below(5)) {
      case 0:
        result[at]! ^= 1 << draw.below(8);
        break;
      case 1:
        result[at] = draw.pick([0, 1, 0x7f, 0x80, 0xff, 0x1b, 0x0a, 0x22, 0x50, 0x4b]);
        break;
      case 2:
        result = joined(result.subarray(0, at), result.subarray(at + length));
        break;
      case 3:
        result = joined(result.subarray(0, at + length), result.subarray(at));
        break;
      default:
        result = draw.once(4) ? result.slice(0, at) : result.fill(draw.below(256), at, at + length);
    }
  }
  return result;
}

function joined(one: Uint8Array, two: Uint8Array): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(one.length + two.length);
  whole.set(one);
  whole.set(two, one.length);
  return whole;
}
