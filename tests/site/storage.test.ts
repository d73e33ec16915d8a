/** What leaves the page comes back the same, and what is damaged or hostile is refused in words. */
import fc from "fast-check";
import { deflateSync } from "fflate";
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { embed, filesIn } from "../../site/storage/embedded.ts";
import { LONGEST, packFragment, unpackFragment } from "../../site/storage/share.ts";
import { tooMany } from "../../site/storage/study-database.ts";

it("carries a study through a link", () => {
  const fragment = packFragment(example) as string;
  expect(fragment.length).toBeLessThan(LONGEST);
  expect(fragment).toMatch(/^study=1\.[\w-]+$/);
  const back = unpackFragment(`#${fragment}`);
  expect(back.kind === "study" && JSON.parse(back.text)).toEqual(example);
});

it("offers no link for a study too large for one", () => {
  const noise = Array.from({ length: 9000 }, (_, i) => Math.sin(i * i)).join();
  expect(packFragment({ ...example, note: noise })).toBeUndefined();
});

it("refuses damaged, cut, foreign and exploding links in words", () => {
  const fragment = packFragment(example) as string;
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
