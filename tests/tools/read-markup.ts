/** An element of a page as it was read back; `text` is all that stands inside it, unescaped. */
export interface MarkupElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly MarkupElement[];
  readonly text: string;
}

/** HTML that has no end tag. */
const VOID = new Set(["br", "col", "hr", "img", "link", "meta"]);
const NAMED: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'" };

/**
 * Reads a page back and throws at whatever is not well formed: elements that do not nest, attributes without quotes or given twice, ids
 * that stand twice, signs that are not escaped, references to ids that are not there.
 */
export function readMarkup(page: string): MarkupElement {
  const doctype = "<!DOCTYPE html>\n";
  if (!page.startsWith(doctype)) throw new Error("a page begins with its document type");
  const source = page.slice(doctype.length);
  interface Open {
    name: string;
    attributes: Record<string, string>;
    children: MarkupElement[];
    text: string;
  }
  const open: Open[] = [{ name: "", attributes: {}, children: [], text: "" }];
  const ids = new Set<string>();
  const close = () => {
    const done = open.pop()!;
    const parent = open.at(-1)!;
    parent.children.push(done);
    parent.text += done.text;
  };
  for (let at = 0; at < source.length; ) {
    const { name: inside } = open.at(-1)!;
    const isRaw = inside === "style" || inside === "script";
    const end = isRaw ? source.indexOf(`</${inside}>`, at) : source.indexOf("<", at);
    const text = source.slice(at, end < 0 ? source.length : end);
    open.at(-1)!.text += isRaw ? text : unescapeText(text);
    if (end < 0) break;
    const tag = /^<(\/?)([a-zA-Z][a-zA-Z0-9]*)((?:\s+[a-zA-Z][\w-]*(?:="[^"<>]*")?)*)\s*(\/?)>/u.exec(
      source.slice(end),
    );
    if (tag === null) throw new Error(`no tag: ${source.slice(end, end + 60)}`);
    const [whole, ends, name = "", given = "", selfEnds] = tag;
    at = end + whole.length;
    if (ends === "/") {
      if (open.at(-1)!.name !== name) throw new Error(`</${name}> ends <${open.at(-1)!.name}>`);
      close();
      continue;
    }
    const attributes = readAttributes(name, given);
    if (attributes.id !== undefined) {
      if (ids.has(attributes.id)) throw new Error(`id ${attributes.id} stands twice`);
      ids.add(attributes.id);
    }
    open.push({ name, attributes, children: [], text: "" });
    if (VOID.has(name) || selfEnds === "/") close();
  }
  if (open.length !== 1) throw new Error(`<${open.at(-1)!.name}> has no end`);
  refuseNowhere(open[0]!, ids);
  return open[0]!;
}

function readAttributes(name: string, given: string): Record<string, string> {
  const attributes: Record<string, string> = {};
  for (const [, key = "", value = ""] of given.matchAll(/\s+([a-zA-Z][\w-]*)(?:="([^"]*)")?/gu)) {
    if (Object.hasOwn(attributes, key)) throw new Error(`${key} of <${name}> stands twice`);
    attributes[key] = unescapeText(value);
  }
  return attributes;
}

/** References lead to an id of the page. */
function refuseNowhere(root: MarkupElement, ids: ReadonlySet<string>): void {
  for (const { attributes } of allElements(root)) {
    const { "aria-labelledby": label, fill = "", "marker-end": end = "" } = attributes;
    const named = [label, ...[fill, end].map((each) => /^url\(#(.*)\)$/u.exec(each)?.[1])];
    for (const each of named)
      if (each !== undefined && !ids.has(each)) throw new Error(`no element has the id ${each}`);
  }
}

function unescapeText(text: string): string {
  if (/&(?!(?:amp|lt|gt|quot|#39);)|[>]/u.test(text)) throw new Error(`not escaped: ${text}`);
  return text.replace(/&([a-z]+|#39);/gu, (_, name: string) => NAMED[name]!);
}

/** An element and all that stand inside it, in the order of the page. */
export function allElements(element: MarkupElement): MarkupElement[] {
  return [element, ...element.children.flatMap(allElements)];
}

/** Those of a name. */
export const elementsNamed = (element: MarkupElement, name: string): MarkupElement[] =>
  allElements(element).filter((each) => each.name === name);
