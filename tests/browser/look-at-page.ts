/// <reference lib="dom" />
/// <reference lib="dom.iterable" />

/** What is wrong with a page that a browser shows, in words; this runs in the browser and leans on nothing outside itself. */
export function faultsOfPage(): string[] {
  const faults: string[] = [];
  const ids = [...document.querySelectorAll("[id]")].map(({ id }) => id);
  for (const [at, id] of ids.entries())
    if (ids.indexOf(id) !== at) faults.push(`two elements have the id ${id}`);
  for (const each of document.querySelectorAll("*"))
    for (const { name, value } of each.attributes) {
      const target =
        /^url\(#(.*)\)$/u.exec(value)?.[1] ??
        (name === "href" || name === "xlink:href" ? value.replace(/^#/u, "") : null);
      const named =
        name === "aria-labelledby" || name === "aria-describedby" || name === "for" ? value.split(" ") : [];
      for (const id of target === null ? named : [target])
        if (!ids.includes(id)) faults.push(`${each.tagName} ${name} leads to ${id}, which is not there`);
    }
  const { scrollWidth, clientWidth, localName } = document.documentElement;
  if (localName === "html" && scrollWidth > clientWidth)
    faults.push(`the page is ${scrollWidth} wide in a window of ${clientWidth}`);
  for (const picture of document.querySelectorAll("svg")) faults.push(...faultsOfPicture(picture));
  return faults;

  /** Words of a picture must lie inside it and over no others, and the name of a bar or box inside that. */
  function faultsOfPicture(picture: SVGSVGElement): string[] {
    const frame = picture.getBoundingClientRect();
    const scale = frame.width / picture.viewBox.baseVal.width;
    const words = [...picture.querySelectorAll("text")]
      .map((text) => ({ text, on: text.getBoundingClientRect() }))
      .filter(({ text }) => text.textContent !== "")
      .map(({ text, on }) => {
        // Letters without what the font leaves above and below them: descent and ascent of 11 units.
        const { top, bottom, left, right } = on;
        const spare = ((bottom - top) / scale - 10) * scale * 0.5;
        return { text, words: text.textContent, top: top + spare, bottom: bottom - spare, left, right };
      })
      .sort((one, two) => one.top - two.top);
    const found: string[] = [];
    const slip = 0.6;
    for (const [at, one] of words.entries()) {
      const isCut =
        one.left < frame.left - slip ||
        one.right > frame.right + slip ||
        one.top < frame.top - slip ||
        one.bottom > frame.bottom + slip;
      if (isCut) found.push(`"${one.words}" is cut by the edge of its picture`);
      const box = one.text.parentElement?.querySelector(":scope > rect");
      if (one.text.getAttribute("text-anchor") === "middle" && box) {
        const { left, right } = box.getBoundingClientRect();
        if (one.left < left - slip || one.right > right + slip) found.push(`"${one.words}" leaves its box`);
      }
      for (let next = at + 1; next < words.length && words[next]!.top < one.bottom - slip; next++) {
        const two = words[next]!;
        if (one.left < two.right - slip && two.left < one.right - slip)
          found.push(`"${one.words}" lies over "${two.words}"`);
      }
    }
    return found;
  }
}

/** Words of tables that stand on two lines though they have no more than 16 letters; this runs in the browser. */
export function brokenWords(): string[] {
  const broken: string[] = [];
  for (const cell of document.querySelectorAll("th, td")) {
    const texts = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) {
      const node = texts.currentNode;
      for (const { 0: word, index } of (node.textContent ?? "").matchAll(/[^\s-]+/gu)) {
        const range = document.createRange();
        range.setStart(node, index);
        range.setEnd(node, index + word.length);
        const lines = new Set([...range.getClientRects()].map(({ top }) => Math.round(top)));
        if (word.length <= 16 && lines.size > 1) broken.push(word);
      }
    }
  }
  return broken;
}
