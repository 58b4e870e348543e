import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, it } from "vitest";
import { sha256 } from "../../../src/plan/sha-256.js";

it("is the digest that NIST gives for abc, for no text and for a text of two blocks", () => {
  // NIST, Cryptographic Standards and Guidelines, Examples with Intermediate Values, SHA-256; no text: RFC 6234 style test vectors.
  expect(sha256("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  expect(sha256("")).toBe("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  expect(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")).toBe(
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
  );
});

it("is what OpenSSL computes, at every length around the ends of blocks and with letters of several bytes", () => {
  const byNode = (text: string) => createHash("sha256").update(text, "utf8").digest("hex");
  for (let length = 0; length < 140; length += 1)
    expect(sha256("x".repeat(length))).toBe(byNode("x".repeat(length)));
  fc.assert(
    fc.property(fc.string({ unit: "grapheme", maxLength: 300 }), (text) => sha256(text) === byNode(text)),
    { seed: 1, numRuns: 200 },
  );
});
