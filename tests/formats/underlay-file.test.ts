/** Pictures to lie beneath the plan: sound ones and their size, hostile ones and why not. PNG after ISO/IEC 15948, JPEG after
 * ISO/IEC 10918-1, made here chunk by chunk. */
import { crc32, deflateSync } from "node:zlib";
import { expect, it } from "vitest";
import { formatIssue } from "../../src/diagnostics/issue.ts";
import { underlayFile } from "../../src/formats/underlay-file.ts";

function chunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  const frame = Buffer.alloc(8);
  frame.writeUInt32BE(data.length, 0);
  frame.writeUInt32BE(crc32(body), 4);
  return Buffer.concat([frame.subarray(0, 4), body, frame.subarray(4)]);
}

/** One bit a pixel, all black. */
function png(width: number, height: number): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 1;
  const rows = deflateSync(Buffer.alloc(height * (1 + Math.ceil(width / 8))), { level: 9 });
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([signature, chunk("IHDR", head), chunk("IDAT", rows), chunk("IEND", Buffer.alloc(0))]);
}

/** What stands around a scan; what is in it is not looked at. */
function jpeg(
  width: number,
  height: number,
  before = Buffer.alloc(0),
  end = Buffer.from([0xff, 0xd9]),
): Buffer {
  const frame = Buffer.from([
    0xff,
    0xc0,
    0,
    11,
    8,
    height >> 8,
    height & 255,
    width >> 8,
    width & 255,
    1,
    1,
    0x11,
    0,
  ]);
  const scan = Buffer.from([0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0, 0x55, 0x55]);
  return Buffer.concat([Buffer.from([0xff, 0xd8]), before, frame, scan, end]);
}

const svg = (inside: string, head = 'width="400" height="300"'): Buffer =>
  Buffer.from(
    `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${head}>${inside}</svg>`,
  );

const read = (bytes: Uint8Array) => underlayFile(new Uint8Array(bytes), "plan.file");

it("reads the size of a sound picture", () => {
  expect(read(png(640, 480))).toMatchObject({
    ok: true,
    value: { type: "image/png", width: 640, height: 480 },
  });
  expect(read(jpeg(640, 480))).toMatchObject({
    ok: true,
    value: { type: "image/jpeg", width: 640, height: 480 },
  });
  expect(read(svg('<path d="M0 0H9"/>'))).toMatchObject({
    ok: true,
    value: { type: "image/svg+xml", width: 400, height: 300 },
  });
});

it("reads an SVG's size in any unit, else of its viewBox", () => {
  const size = (head: string) => {
    const outcome = read(svg("", head));
    return outcome.ok ? [outcome.value.width, outcome.value.height] : undefined;
  };
  expect(size('width="210mm" height="297mm"')?.[0]).toBeCloseTo((210 / 25.4) * 96, 9);
  expect(size('width="8.5in" height="11in"')).toEqual([816, 1056]);
  expect(size('width="100%" height="100%" viewBox="0 0 84 59"')).toEqual([84, 59]);
  expect(size("")).toBeUndefined();
});

it("takes what drawing programs write: a document type, inner references, embedded pictures, styles", () => {
  const text = `<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">
${svg('<defs><g id="tree"><path d="M0 0"/></g></defs><style>.a{fill:url(#g)}</style><linearGradient id="g"/><use xlink:href="#tree"/><image href="data:image/png;base64,AAAA"/>')}`;
  expect(read(Buffer.from(text)).ok).toBe(true);
});

const doublings = (): string =>
  Array.from({ length: 20 }, (_, i) => `<g id="n${i + 1}"><use href="#n${i}"/><use href="#n${i}"/></g>`).join(
    "",
  );

const HOSTILE: readonly (readonly [what: string, bytes: Buffer, found: RegExp])[] = [
  ["a small file of 20 000 pixels a side", png(20_000, 20_000), /20000 × 20000 pixels/],
  ["more pixels than are unpacked", png(8000, 8000), /8000 × 8000 pixels/],
  ["no width", png(0, 10), /0 × 10 pixels/],
  ["a PNG cut short", png(640, 480).subarray(0, -14), /ends before/],
  [
    "a PNG whose chunk is longer than the file",
    Buffer.concat([png(9, 9).subarray(0, 33), Buffer.from([127, 255, 255, 255, 73, 68, 65, 84])]),
    /ends before/,
  ],
  ["a JPEG cut short", jpeg(640, 480, undefined, Buffer.alloc(0)), /ends before/],
  [
    "a JPEG cut short behind the small picture a camera adds",
    jpeg(640, 480, Buffer.from([0xff, 0xe1, 0, 6, 1, 2, 0xff, 0xd9]), Buffer.alloc(0)),
    /ends before/,
  ],
  ["another signature", Buffer.from("GIF89a and so on, and on, and on, and on"), /another file/],
  ["a program", Buffer.from("MZ\0\0 and so on, and on, and on, and on and on"), /another file/],
  ["nothing", Buffer.alloc(0), /another file/],
  ["a PDF", Buffer.from("%PDF-1.7 …"), /a PDF file/],
  ["a page", Buffer.from("<html><body/></html>"), /the element html/],
  ["a script", svg("<script>alert(1)</script>"), /a script/],
  ["a script on an event", svg('<rect onload="alert(1)"/>'), /the attribute onload/],
  ["a script in a link", svg('<a href="javascript:alert(1)"/>'), /a script/],
  ["a page inside", svg("<foreignObject/>"), /foreignObject/],
  ["another file", svg('<image xlink:href="https://example.org/a.png"/>'), /example\.org/],
  ["another file of the machine", svg('<use href="file:///etc/passwd#a"/>'), /passwd/],
  ["another file in a style", svg('<rect style="fill:url(//example.org/a)"/>'), /example\.org/],
  ["a style sheet", svg("<style>@import 'a.css'</style>"), /@import/],
  ["a picture in a picture", svg('<image href="data:image/svg+xml,&lt;svg/>"/>'), /another file/],
  [
    "entities that multiply",
    Buffer.from('<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><svg>&b;</svg>'),
    /document type/,
  ],
  [
    "parts that multiply",
    svg(`<g id="n0"><path d=""/></g>${doublings()}<use href="#n20"/>`),
    /more than 200000/,
  ],
  ["a part that holds itself", svg('<g id="a"><use href="#a"/></g>'), /more than 200000/],
  ["half an SVG", svg("<g>").subarray(0, 90), /well-formed/],
];

it.each(HOSTILE)("refuses %s, with place, what was found and a way out", (_, bytes, found) => {
  const start = process.cpuUsage();
  const outcome = read(bytes);
  // Of the processor, whoever else computes (ms).
  const { user, system } = process.cpuUsage(start);
  expect((user + system) / 1000).toBeLessThan(2000);
  if (outcome.ok) throw new Error("taken");
  const words = outcome.issues.map(formatIssue).join(" ");
  expect(words).toMatch(found);
  expect(words).toContain("plan.file");
});

it("counts them", () => {
  const refusals = HOSTILE.filter(([, bytes]) => !read(bytes).ok).length;
  console.log(`${refusals} of ${HOSTILE.length} hostile files refused`);
  expect(refusals).toBe(HOSTILE.length);
});

it("makes the bomb of a file too small to tell by", () => {
  expect(png(20_000, 20_000).length).toBeLessThan(100_000);
});
