import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decodeBytes } from "../../../src/findings/decode-bytes.js";

const utf8 = (text: string) => Buffer.from(text, "utf8");
const utf16 = (text: string) => Buffer.from(text, "utf16le");
const bytes = (...numbers: number[]) => Buffer.from(numbers);

/** Where a file stops being text, and what it is told to be. */
const told = (file: Uint8Array) => {
  const decoded = decodeBytes(file);
  return decoded.ok
    ? "text"
    : `${decoded.offset} line ${decoded.line} ${/likely (.*)/.exec(decoded.problem)![1]}`;
};

describe("bytes of text", () => {
  test("are read as UTF-8 and as UTF-16 of both orders, by the mark or by the zeros of plain letters", () => {
    const text = "line: Größe 電池\n";
    const [little, marked] = [utf16(text), utf16(`\ufeff${text}`)];
    const files = { "UTF-8": [utf8(text), utf8(`\ufeff${text}`)], "UTF-16LE": [little, marked] };
    for (const [encoding, each] of Object.entries(files))
      for (const file of each) expect(decodeBytes(file)).toEqual({ ok: true, text, encoding });
    for (const file of [little, marked])
      expect(decodeBytes(Buffer.from(file).swap16())).toEqual({ ok: true, text, encoding: "UTF-16BE" });
  });

  test("of any text come back as they were", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), (text) => {
        expect(decodeBytes(utf8(`line: ${text}`))).toMatchObject({ ok: true, text: `line: ${text}` });
        expect(decodeBytes(utf16(`\ufeff${text}`))).toMatchObject({ ok: true, text });
      }),
    );
  });
});

describe("bytes that are no text", () => {
  // In Windows-1252 a-umlaut is E4, o-umlaut F6 and sharp s DF; in Windows-1251 those and their neighbours are Cyrillic letters.
  test.each([
    ["Western letters", "line: gr\u00f6\u00dfer\n", "8 line 1 in Windows-1252"],
    ["letters after lines that end in CR", "a\rb\r\u00e4 c", "4 line 3 in Windows-1252"],
    [
      "Cyrillic letters",
      "line: \u00ef\u00e8\u00e2\u00e5\u00f2\n",
      "6 line 1 in a Cyrillic or an East Asian encoding, such as Windows-1251, GBK or Shift JIS",
    ],
    ["a ZIP file", "PK\u0003\u0004abc", "0 line 1 a ZIP file, as workbooks are"],
    ["a PNG", "\u0089PNG\r\n\u001a\n", "0 line 1 a picture (PNG)"],
    ["a JPEG", "\u00ff\u00d8\u00ff\u00e0", "0 line 1 a picture (JPEG)"],
  ])("are told by what they likely are: %s", (_, latin, expected) => {
    expect(told(Buffer.from(latin, "latin1"))).toBe(expected);
  });

  test("are told to be in UTF-32 by three zeros beside each plain letter, without a mark as with one", () => {
    const wide = (text: string) => Buffer.from([...text].flatMap((letter) => [...utf8(letter), 0, 0, 0]));
    expect(told(wide("line: h\n"))).toBe("1 line 1 in UTF-32");
    expect(told(Buffer.from(wide("line: h\n")).swap32())).toBe("0 line 1 in UTF-32");
    expect(told(Buffer.concat([bytes(0xff, 0xfe, 0, 0), wide("line")]))).toBe("0 line 1 in UTF-32");
  });

  test("end within a character where the file is cut off", () => {
    expect(told(utf8("a\nb\nc€").subarray(0, 6))).toBe(
      "5 line 3 cut off within a character, or in Windows-1252",
    );
    // The first bytes of the mark that stands for a fault are faults themselves where nothing follows them.
    const cutOff = "cut off within a character, or in Windows-1252";
    expect(told(bytes(0x61, 0xef))).toBe(`1 line 1 ${cutOff}`);
    expect(told(bytes(0x61, 0xef, 0xbf))).toBe(`1 line 1 ${cutOff}`);
    expect(told(utf16("\ufeffline").subarray(0, 9))).toBe("8 line 1 cut off or damaged");
  });

  test("are found behind characters that are text, the mark of a fault among them", () => {
    expect(told(Buffer.concat([utf8("größe \ufffd"), bytes(0xe4, 0x20)]))).toBe("11 line 1 in Windows-1252");
    expect(told(bytes(0x61, 0xef, 0xbf, 0x20))).toBe("1 line 1 in Windows-1252");
    expect(told(bytes(0xff, 0xfe, 0x61, 0, 0, 0xd8, 0x61, 0))).toBe("4 line 1 cut off or damaged");
  });

  test("are UTF-32 by their mark, and no text where zeros stand among faults", () => {
    expect(told(bytes(0xff, 0xfe, 0, 0, 0x61, 0, 0, 0))).toBe("0 line 1 in UTF-32");
    expect(told(bytes(0x61, 0x00, 0xff, 0x61))).toBe("2 line 1 no text");
  });
});
