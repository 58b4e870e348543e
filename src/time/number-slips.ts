import { ratio, toDecimal } from "./ratio.js";

type Slip = (text: string) => string | null;

/**
 * Why a text that starts with a number (a time, a share, a demand) could not be read, as the end of a sentence
 * that ends with what to write; null when it is none of the slips that people make with numbers.
 */
export function explainNumberSlip(text: string): string | null {
  for (const slip of SLIPS) {
    const found = slip(text);
    if (found !== null) return found;
  }
  return null;
}

const SLIPS: readonly Slip[] = [
  otherDigits,
  negative,
  estimate,
  computerNumber,
  range,
  comma,
  thousands,
  impossibleFraction,
];

function otherDigits(text: string): string | null {
  if (!/[^\P{Nd}0-9]/u.test(text)) return null;
  const plain = text.replace(/[０-９．]/gu, (each) => each.normalize("NFKC"));
  const advice = /[^\P{Nd}0-9]/u.test(plain) ? "" : `; write ${plain}`;
  return `digits are 0 to 9 of the plain keyboard${advice}`;
}

function negative(text: string): string | null {
  const sign = /^[-\u2010-\u2015\u2212\ufe63\uff0d]\s*(?=[\d.])/u.exec(text);
  return sign ? `it must not be negative; write ${text.slice(sign[0].length)} if that is meant` : null;
}

function estimate(text: string): string | null {
  const mark = /^(?:[~≈≃±<>≤≥]|ca?\.?\s|about\s|approx\.?\s)\s*(?=[\d.])/iu.exec(text);
  return mark ? `one plain number is expected; write ${text.slice(mark[0].length)}` : null;
}

function computerNumber(text: string): string | null {
  const found = /^(?:0x[0-9a-f]{1,8}|\d{1,9}(?:\.\d{1,9})?e[+]?\d{1,2})(?![\w.])/iu.exec(text);
  if (!found)
    return /^(?:0x[0-9a-f]|[\d.]+e[-+]?\d)/iu.test(text) ? "write the number out in plain digits" : null;
  const rest = text.slice(found[0].length);
  return `write the number out in plain digits: ${writtenOut(found[0])}${rest}`;
}

function writtenOut(found: string): string {
  if (/^0x/iu.test(found)) return String(Number(found));
  const [head = "", exponent = ""] = found.toLowerCase().split("e");
  const [whole = "", rest = ""] = head.split(".");
  const scaled = ratio(BigInt(whole + rest) * 10n ** BigInt(exponent), 10n ** BigInt(rest.length));
  return toDecimal(scaled, 9).replace(/\.?0+$/u, "");
}

function range(text: string): string | null {
  const found = /^([\d.,]+)\s*(?:[-\u2010-\u2015\u2212]|\.{2,}|…|to\s)\s*([\d.,]+)(.*)$/iu.exec(text);
  return found
    ? `one number is expected, not a range; write ${found[1]}${found[3]} or ${found[2]}${found[3]}`
    : null;
}

function comma(text: string): string | null {
  const found = /^(\d[\d.]*(?:,\d+)+)(.*)$/u.exec(text);
  if (!found) return null;
  const [, digits = "", rest = ""] = found;
  const joined = `${digits.replaceAll(",", "")}${rest}`;
  // 1.234,5: the comma is the decimal one, so the point parts thousands.
  const mixed = digits.includes(".") && digits.indexOf(",") > digits.lastIndexOf(".");
  const pointed = `${(mixed ? digits.replaceAll(".", "") : digits).replace(",", ".")}${rest}`;
  // 1,033.1: what stands behind the point are the decimals.
  if (/^\.\d/u.test(rest)) return `digits stand together; write ${joined}`;
  if (!/^[1-9]\d{0,2}(?:,\d{3})+(?!\d)/u.test(digits)) return `decimals take a point; write ${pointed}`;
  if (digits.indexOf(",") !== digits.lastIndexOf(",")) return `digits stand together; write ${joined}`;
  return `a comma may mean thousands or decimals; write ${joined} or ${pointed}`;
}

function thousands(text: string): string | null {
  const found = /^\d{1,3}(?:[\s'’_]\d{3})+(?![\d/⁄])/u.exec(text);
  if (!found) return null;
  return `digits stand together; write ${found[0].replace(/[\s'’_]/gu, "")}${text.slice(found[0].length)}`;
}

function impossibleFraction(text: string): string | null {
  const found = /^(?:\d+\s+)?(\d+)\s*[/⁄]\s*(\d+)(.*)$/u.exec(text);
  if (!found) return null;
  const [, part = "", parts = "", rest = ""] = found;
  if (BigInt(parts) === 0n) return "a fraction cannot have 0 below the line";
  if (BigInt(part) < BigInt(parts)) return null;
  const exact = toDecimal(ratio(BigInt(part), BigInt(parts)), 6).replace(/\.?0+$/u, "");
  const split = /^(\d+)(\d)$/u.exec(part);
  const copied = split ? `${split[1]} ${split[2]}/${parts}${rest} or ` : "";
  return `a fraction must be below 1; write ${copied}${exact}${rest}`;
}
