/** What leaves the page comes back the same, and what is damaged or hostile is refused in words. */
import fc from "fast-check";
import { deflateSync } from "fflate";
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { embed } from "../../site/storage/embed.ts";
import { filesIn } from "../../site/storage/embedded.ts";
import { LONGEST, packFragment, SAFE, unpackFragment } from "../../site/storage/share.ts";
import { isWhole } from "../../site/storage/sound-study.ts";
import { tooMany } from "../../site/storage/study-database.ts";

const study = example as unknown as RawStudy;
/** Incompressible text of so many characters. */
const noise = (length: number): string => {
  let seed = 1;
  let text = "";
  while (text.length < length) {
    seed = (seed * 48271) % 2147483647;
    text += String.fromCharCode(33 + (seed % 90));
  }
  return text;
};

it("carries a study through a link", () => {
  const { fragment, excess } = packFragment(study);
  expect(fragment.length).toBeLessThan(SAFE);
  expect(excess).toBe(0);
  expect(fragment).toMatch(/^study=1\.[\w-]+$/);
  const back = unpackFragment(`#${fragment}`);
  const { bar, ...hung } = study.luminaires as Record<string, object>;
  expect(bar).toBeDefined();
  expect(back.kind === "study" && JSON.parse(back.text)).toEqual({ ...example, luminaires: hung });
});

it("carries a file of 18 kB, leaves behind what nothing hangs, and says how much is too much", () => {
  const embedded = {
    "photometry/dome-wide.ies": { text: noise(18_000) },
    "photometry/linear-opal.ies": { text: noise(200_000) },
  };
  const real = packFragment({ ...study, embedded });
  expect(real.excess).toBe(0);
  const back = unpackFragment(real.fragment);
  expect(back.kind === "study" && JSON.parse(back.text).embedded).toEqual({
    "photometry/dome-wide.ies": embedded["photometry/dome-wide.ies"],
  });
  const large = packFragment({ ...study, embedded: { "photometry/dome-wide.ies": { text: noise(60_000) } } });
  expect(large.excess).toBe(large.fragment.length - LONGEST);
  expect(large.excess).toBeGreaterThan(0);
});

it("knows a document it can show from one that is damaged", () => {
  expect(isWhole(example)).toBe(true);
  for (const damaged of [
    {},
    null,
    [],
    "text",
    { ...example, arrangements: [] },
    { ...example, arrangements: [{ name: "a" }] },
    { ...example, room: undefined },
    { ...example, people: {} },
    { ...example, island: { zones: [null] } },
  ])
    expect(isWhole(damaged)).toBe(false);
});

it("refuses damaged, cut, foreign and exploding links in words", () => {
  const { fragment } = packFragment(study);
  expect(unpackFragment("#lights")).toEqual({ kind: "none" });
  for (const bad of [
    fragment.slice(0, -40),
    `${fragment.slice(0, 60)}!!${fragment.slice(62)}`,
    "study=1.",
    "study=9.AAAA",
  ]) {
    const back = unpackFragment(bad);
    expect(back.kind).toBe("refused");
  }
  const bomb = deflateSync(new Uint8Array(64 * 1024 * 1024), { level: 9 });
  const packed = Buffer.from(bomb).toString("base64url");
  const back = unpackFragment(`study=1.${packed}`);
  expect(back.kind === "refused" && back.message).toMatch(/larger than 8 MB/);
});

it("never throws on any fragment", () => {
  fc.assert(
    fc.property(fc.string(), (text) => {
      unpackFragment(`study=1.${text}`);
    }),
  );
});

it("keeps the bytes of every embedded file", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
      const [file] = filesIn({ embedded: { "a.ies": embed(bytes) } });
      expect([...file.content]).toEqual([...bytes]);
    }),
  );
  expect(embed(new TextEncoder().encode("IESNA:LM-63-2002\r\n"))).toEqual({ text: "IESNA:LM-63-2002\r\n" });
  expect(embed(Uint8Array.of(0x46, 0xfc, 0x72))).toHaveProperty("base64");
});

it("keeps versions of the last minute, hour, day and month of work without a pause", () => {
  const [second, hour, day] = [1000, 3_600_000, 86_400_000];
  // Weeks of eight hours a day, saved so often; and a clock set back for the last of it, when times go on by milliseconds.
  for (const [every, days] of [
    [second, 1],
    [10 * second, 3],
    [45 * second, 12],
  ]) {
    let times: number[] = [];
    const saved = (now: number): void => {
      times.push(now);
      const gone = new Set(tooMany(times, now));
      times = times.filter((time) => !gone.has(time));
    };
    let now = 1e12;
    for (let each = 0; each < days; each++)
      for (now = 1e12 + each * day; now < 1e12 + each * day + 8 * hour; now += every) saved(now);
    for (let i = 0; i < 500; i++) saved(now++);
    expect(times.length).toBeLessThanOrEqual(60);
    const newest = times.at(-1)!;
    expect(newest).toBe(now - 1);
    // A version no older than so much more than any time of the work.
    const apart = (ago: number, most: number): void =>
      expect(times.some((time) => newest - time >= ago && newest - time <= ago + most)).toBe(true);
    for (let ago = 5 * second; ago < 50 * second; ago += second) apart(ago, 6 * second + 2 * every);
    for (let ago = 100 * second; ago < hour - 300 * second; ago += 60 * second) apart(ago, 600 * second);
    for (let ago = 1.2 * hour; ago < 6.5 * hour; ago += 0.1 * hour) apart(ago, 2 * hour);
    for (let ago = 1; ago < days - 1; ago++) apart(ago * day, 2 * day);
  }
});
