/** A small generator of random numbers with a seed (mulberry32, public domain), so that a fault can be had again. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Pieces that readers stumble over: quotes, ends of line, marks, numbers at the edge, formulas, paths, markup. */
const PIECES = [
  '"',
  '""',
  "'",
  ",",
  ";",
  "\t",
  "\r",
  "\n",
  "\r\n",
  "\0",
  "\ufeff",
  "\ufffd",
  "\u2028",
  "1e999",
  "-1e999",
  "NaN",
  "Infinity",
  "-0",
  "1,234.5",
  "1.234,5",
  "0x1F",
  "9".repeat(400),
  "=1+1",
  "@SUM(A1)",
  "+cmd",
  "../../etc/passwd",
  "..\\..\\x",
  "\u202e",
  "e\u0301",
  "\ud83d\ude00",
  "2026-13-45T99:99",
  "0000-00-00",
  "24:00",
  "{",
  "}",
  "[",
  "]",
  "[[[[[[[[",
  ":",
  "null",
  "true",
  '{"__proto__":{}}',
  "<",
  ">",
  "</",
  '<!DOCTYPE x [<!ENTITY a "&a;&a;">]>',
  "&a;",
  "&#0;",
  "<![CDATA[",
  "]]>",
  "<!--",
  "-->",
  'xmlns=""',
  "mm",
  "in",
  "feature",
  "value",
  "a".repeat(5000),
].map((text) => Buffer.from(text));

/** One to six changes of an input: bytes turned, put in, taken out, doubled, moved, the end cut off. */
export function mutated(input: Buffer, random: () => number): Buffer {
  let bytes: Buffer = Buffer.from(input);
  const changes = 1 + Math.floor(random() * 6);
  for (let i = 0; i < changes; i++) bytes = changedOnce(bytes, random);
  return bytes;
}

function changedOnce(bytes: Buffer, random: () => number): Buffer {
  const at = Math.floor(random() * (bytes.length + 1));
  const length = 1 + Math.floor(random() * Math.min(64, bytes.length));
  const before = bytes.subarray(0, at);
  const after = bytes.subarray(at);
  switch (Math.floor(random() * 7)) {
    case 0: {
      const turned = Buffer.from(bytes);
      if (at < turned.length) turned[at] = Math.floor(random() * 256);
      return turned;
    }
    case 1:
      return Buffer.concat([before, PIECES[Math.floor(random() * PIECES.length)] as Buffer, after]);
    case 2:
      return Buffer.concat([before, after.subarray(length)]);
    case 3:
      return Buffer.concat([before, after.subarray(0, length), after]);
    case 4: {
      const from = Math.floor(random() * bytes.length);
      return Buffer.concat([before, bytes.subarray(from, from + length), after]);
    }
    case 5:
      return random() < 0.3 ? before : bytes;
    default:
      return Buffer.concat([
        before,
        PIECES[Math.floor(random() * PIECES.length)] as Buffer,
        after.subarray(length),
      ]);
  }
}
