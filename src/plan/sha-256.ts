/**
 * The SHA-256 digest of a text in UTF-8, as 64 hexadecimal digits: FIPS 180-4 (2015), sections 4.1.2, 5 and 6.2. Made here so that
 * fingerprints need nothing of the machine and are the same in a browser.
 */
export function sha256(text: string): string {
  const words = padded(new TextEncoder().encode(text));
  const hash = Uint32Array.from(START);
  const schedule = new Uint32Array(64);
  for (let at = 0; at < words.length; at += 16) {
    schedule.set(words.subarray(at, at + 16));
    for (let t = 16; t < 64; t += 1) {
      const [w15, w2] = [schedule[t - 15]!, schedule[t - 2]!];
      const [small0, small1] = [
        rotate(w15, 7) ^ rotate(w15, 18) ^ (w15 >>> 3),
        rotate(w2, 17) ^ rotate(w2, 19) ^ (w2 >>> 10),
      ];
      schedule[t] = schedule[t - 16]! + small0 + schedule[t - 7]! + small1;
    }
    compress(hash, schedule);
  }
  return [...hash].map((word) => word.toString(16).padStart(8, "0")).join("");
}

function compress(hash: Uint32Array, schedule: Uint32Array): void {
  let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = hash;
  for (let t = 0; t < 64; t += 1) {
    const choice = (e & f) ^ (~e & g);
    const majority = (a & b) ^ (a & c) ^ (b & c);
    const first =
      (h + (rotate(e, 6) ^ rotate(e, 11) ^ rotate(e, 25)) + choice + CONSTANTS[t]! + schedule[t]!) | 0;
    const second = ((rotate(a, 2) ^ rotate(a, 13) ^ rotate(a, 22)) + majority) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + second) | 0];
  }
  for (const [at, word] of [a, b, c, d, e, f, g, h].entries()) hash[at]! += word;
}

/** The text with a one, noughts and its length in bits, as whole blocks of 16 words. */
function padded(bytes: Uint8Array): Uint32Array {
  const words = new Uint32Array(16 * Math.ceil((bytes.length + 9) / 64));
  for (const [at, byte] of bytes.entries()) words[at >> 2]! |= byte << (24 - 8 * (at & 3));
  words[bytes.length >> 2]! |= 0x80 << (24 - 8 * (bytes.length & 3));
  words[words.length - 2] = Math.floor(bytes.length / 2 ** 29);
  words[words.length - 1] = bytes.length << 3;
  return words;
}

const rotate = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

/** The first 32 bits of the fractional parts of the square roots of the first 8 primes. */
// biome-ignore format: a table
const START = [
  0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19,
];

/** The same of the cube roots of the first 64 primes. */
// biome-ignore format: a table
const CONSTANTS = Uint32Array.of(
  0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
  0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
  0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
  0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
  0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
  0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
  0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
  0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
);
