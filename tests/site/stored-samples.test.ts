/** What was stored and shared by every version that ever was opens still: samples as they were kept then, never made anew. A change of a format adds
 * a sample beside the old ones, and reads both. */
import { afterEach, expect, it, vi } from "vitest";
import type { StudySession } from "../../site/session.ts";
import { Autosave } from "../../site/storage/autosave.ts";
import { unpackFragment } from "../../site/storage/share.ts";
import { isWhole } from "../../site/storage/sound-study.ts";
import type { StudyDatabase } from "../../site/storage/study-database.ts";
import { loadReadings } from "../../site/storage/taken-readings.ts";
import { openDocument } from "../../src/app/open-document.ts";
import samples from "./stored-samples.json" with { type: "json" };

afterEach(() => vi.unstubAllGlobals());

const stored = (items: Record<string, unknown>) =>
  vi.stubGlobal("localStorage", {
    getItem: (key: string) => (key in items ? items[key] : null),
    setItem() {},
  });

it("a study", async () => {
  expect((await openDocument(samples["study 1"])).ok).toBe(true);
});

it("a link", () => {
  const unpacked = unpackFragment(`#${samples["link 1"]}`);
  expect(unpacked.kind === "study" && JSON.parse(unpacked.text)).toEqual(samples["study 1"]);
});

it("a study of the database, and an edit that it has not got", async () => {
  const kept = samples["database 1"];
  expect([kept.document, ...kept.done.flatMap(({ before, after }) => [before, after])].every(isWhole)).toBe(
    true,
  );
  vi.stubGlobal("addEventListener", () => {});
  vi.stubGlobal("sessionStorage", { getItem: () => null, setItem() {} });
  stored({ "candlespan-last": kept.id, "candlespan-late": JSON.stringify(samples["late 1"]) });
  const session = Object.assign(new EventTarget(), { setStorage() {}, history: { done: [] } });
  const autosave = new Autosave(session as unknown as StudySession);
  for (const found of [kept, undefined]) {
    autosave.database = async () => ({ get: async () => found }) as unknown as StudyDatabase;
    // Twice: a page put away again before it has saved must find the edit once more.
    for (const _ of [1, 2]) expect((await autosave.earlier())?.document).toEqual(samples["late 1"].document);
  }
});

it("readings", () => {
  stored({ readings: JSON.stringify(samples["readings 1"]) });
  expect(loadReadings("readings")).toEqual(samples["readings 1"]);
});

it("what a later version shares is refused in words", async () => {
  const later = unpackFragment("study=2.abc");
  expect(later.kind === "refused" && later.message).toMatch(/later version/);
  const outcome = await openDocument({ ...samples["study 1"], version: 2 });
  expect(outcome.ok ? undefined : outcome.issues[0].where.path).toBe("/version");
});
