/** What leaves the page comes back the same, and what is damaged or hostile is refused in words. */
import fc from "fast-check";
import { deflateSync } from "fflate";
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { embed, filesIn } from "../../site/storage/embedded.ts";
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

it("thins versions as they age and keeps the newest", () => {
  const now = 1e9;
  const times = Array.from({ length: 400 }, (_, i) => now - (399 - i) * 10_000);
  const gone = new Set(tooMany(times, now));
  const kept = times.filter((time) => !gone.has(time));
  expect(kept.at(-1)).toBe(now);
  expect(kept.length).toBeLessThanOrEqual(60);
  expect(kept.filter((time) => now - time <= 60_000)).toHaveLength(7);
  const older = kept.filter((time) => now - time > 60_000);
  for (let i = 1; i < older.length; i++) expect(older[i] - older[i - 1]).toBeGreaterThanOrEqual(60_000);
});
