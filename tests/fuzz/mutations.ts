/** Sound bytes made unsound: by bytes, by lines, by numbers, by pieces of another file. Seeded, so that a number names a mutation. */

export type Random = () => number;

/** No mutated input is longer (bytes). */
const LONGEST = 400_000;
const NUMBERS = [
  ..."0 -0 1 -1 2 3 5 7 90 180 270 360 361 -90 0.5 1e-9 1e-300 1e300 1e309 -1e300 NaN Infinity -Infinity".split(
    " ",
  ),
  ..."2147483648 4294967296 9007199254740993 1,5 0x10 1e 1.2.3 +5 .5 5. 00012 1e999 -2147483649 99999999999".split(
    " ",
  ),
];
const PIECES = [
  "",
  " ",
  "\n",
  "\r",
  "\r\n",
  "\t",
  ",",
  ";",
  "\0",
  "\x1a",
  "\ufeff",
  "é",
  "\u2028",
  "😀",
  '"',
  "'",
  "<",
  ">",
  "&",
  "&#0;",
  "<!--",
  "]]>",
  "<![CDATA[",
  "<!DOCTYPE x>",
  "{",
  "}",
  "[",
  "]",
  "null",
  "true",
  "__proto__",
  "constructor",
  "TILT=INCLUDE",
  "TILT=NONE",
  "TILT=x.til",
  "[MORE]",
  "[BLOCK]",
  "%00",
  "../",
  "=",
  "#",
  "+",
  "@",
  "lit",
  "all",
  "none",
];

const whole = (random: Random, count: number): number => Math.floor(random() * count);
const pick = <T>(random: Random, list: readonly T[]): T => list[whole(random, list.length)];

/** Text of one byte a character, so that no byte is lost. */
const fromBytes = (bytes: Uint8Array): string => Buffer.from(bytes).toString("latin1");
const toBytes = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, "latin1"));
const inBytes = (text: string): string => Buffer.from(text, "utf8").toString("latin1");

type Mutation = (text: string, random: Random, other: string) => string;

function splice(text: string, at: number, removed: number, added: string): string {
  return text.slice(0, at) + added + text.slice(at + removed);
}

const byte: Mutation = (text, random) =>
  splice(text, whole(random, text.length), 1, String.fromCharCode(whole(random, 256)));
const bit: Mutation = (text, random) => {
  const at = whole(random, text.length);
  return splice(text, at, 1, String.fromCharCode((text.charCodeAt(at) || 0) ^ (1 << whole(random, 8))));
};
const cut: Mutation = (text, random) => text.slice(0, whole(random, text.length));
const remove: Mutation = (text, random) =>
  splice(text, whole(random, text.length), 1 + whole(random, random() < 0.8 ? 20 : text.length), "");
const insert: Mutation = (text, random) =>
  splice(
    text,
    whole(random, text.length),
    0,
    inBytes(pick(random, PIECES)).repeat(random() < 0.95 ? 1 : 5000),
  );
const copy: Mutation = (text, random) => {
  const from = whole(random, text.length);
  const piece = text.slice(from, from + 1 + whole(random, random() < 0.9 ? 200 : 20_000));
  return splice(
    text,
    whole(random, text.length),
    0,
    piece.repeat(random() < 0.9 ? 1 : 1 + whole(random, 30)),
  );
};
const number: Mutation = (text, random) => {
  const from = whole(random, text.length);
  const found = /-?\d[\d.eE+-]*/.exec(text.slice(from, from + 400));
  if (found === null) return text;
  const near = String(Number.parseFloat(found[0]) * pick(random, [-1, 0.5, 1.001, 2, 10, 1000]));
  const becomes = random() < 0.5 ? pick(random, NUMBERS) : near;
  return splice(text, from + found.index, found[0].length, becomes);
};
/** The same number of a header, where most of what a file says of itself stands. */
const headNumber: Mutation = (text, random) => {
  const all = [...text.slice(0, 3000).matchAll(/(?<![\w.])-?\d+(\.\d+)?/g)];
  if (all.length === 0) return text;
  const { index, 0: found } = pick(random, all);
  const value = Number(found);
  const near = [value + 1, value - 1, -value, value * 10, value * 1e6, value / 1000, value * 2].map(String);
  return splice(text, index, found.length, random() < 0.3 ? pick(random, NUMBERS) : pick(random, near));
};
const lines: Mutation = (text, random) => {
  const all = text.split("\n");
  const [i, j] = [whole(random, all.length), whole(random, all.length)];
  const kind = whole(random, 3);
  if (kind === 0) all.splice(i, 1);
  else if (kind === 1) all.splice(i, 0, all[j]);
  else [all[i], all[j]] = [all[j], all[i]];
  return all.join("\n");
};
const cross: Mutation = (text, random, other) =>
  text.slice(0, whole(random, text.length)) + other.slice(whole(random, other.length));
const sign: Mutation = (text, random) => {
  const from = whole(random, text.length);
  const end = from + 1 + whole(random, 300);
  return (
    text.slice(0, from) +
    text.slice(from, end).replaceAll(/[\d.]/g, pick(random, ["9", "0", "-", ".", " "])) +
    text.slice(end)
  );
};

const MUTATIONS = [
  byte,
  bit,
  cut,
  remove,
  insert,
  copy,
  number,
  number,
  headNumber,
  headNumber,
  lines,
  cross,
  sign,
];

/** The bytes changed in one to four ways, mostly one. @param other another input, for pieces */
export function mutated(bytes: Uint8Array, other: Uint8Array, random: Random): Uint8Array {
  let text = fromBytes(bytes);
  const foreign = fromBytes(other);
  for (let n = 1 + whole(random, 1 + whole(random, 4)); n > 0; n--)
    text = pick(random, MUTATIONS)(text, random, foreign).slice(0, LONGEST);
  return toBytes(text);
}
