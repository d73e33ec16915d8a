/** What is kept of the files of a study while it is edited. */
import { expect, it } from "vitest";
import { StudyFiles } from "../../src/app/study-files.ts";
import { success } from "../../src/diagnostics/issue.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import type { StudyDocument } from "../../src/study/study-schema.ts";
import { lm63 } from "../support/photometric-text.ts";

// 2026-11-28: each flux of a dragged field left a reading of the whole file for as long as the page was open.
it("keeps what the study names and the latest readings beside, and drops older ones", async () => {
  const files = new StudyFiles();
  const bytes = new TextEncoder().encode(lm63({ ten: "1 300 1 3 1 1 2 -0.2 -0.2 0" }));
  const readingAt = async (flux: number) => {
    const document = { luminaires: { spot: { photometry: "spot.ies", flux } } } as unknown as StudyDocument;
    return (await files.photometry(document, () => success(bytes))).get("spot");
  };
  const first = await readingAt(400);
  expect(first?.ok).toBe(true);
  expect(await readingAt(400)).toBe(first);
  for (const flux of [401, 402, 403]) await readingAt(flux);
  expect(await readingAt(400)).toBe(first);
  for (const flux of [401, 402, 403, 404, 405]) await readingAt(flux);
  const anew = await readingAt(400);
  expect(anew).not.toBe(first);
  expect(anew).toEqual(first);
});

// 2026-11-28: with another tilt file beside it, a photometric file answered as with the one before.
it("reads a file anew when the tilt file it names is another", async () => {
  const files = new StudyFiles();
  const bytesOf = (text: string) => success(new TextEncoder().encode(text));
  const document = { luminaires: { spot: { photometry: "in/spot.ies" } } } as unknown as StudyDocument;
  const spot = bytesOf(lm63({ header: "IESNA91", tilt: "TILT=spot.tlt" }));
  const asked: string[] = [];
  const readingWith = async (factor: number) => {
    const tilt = bytesOf(`1\n3\n0 45 90\n${factor} 0.8 0.7`);
    const all = await files.photometry(document, (path) => {
      asked.push(path);
      return path === "in/spot.ies" ? spot : tilt;
    });
    return all.get("spot");
  };
  const first = await readingWith(0.9);
  expect(first?.ok).toBe(true);
  expect(asked).toContain("in/spot.tlt");
  expect(await readingWith(0.9)).toBe(first);
  const other = await readingWith(0.5);
  expect(other).not.toEqual(first);
});

// 2026-11-28: in another unit a shade was still described in the one before.
it("has a luminaire described in the unit that the study shows now", () => {
  const files = new StudyFiles();
  const made = { name: "spot", origin: "a cone of 300 mm" } as Luminaire;
  expect(files.same(made, {}, undefined)).toBe(made);
  expect(files.same({ ...made }, {}, undefined)).toBe(made);
  const inInches = { ...made, origin: "a cone of 12 in" };
  expect(files.same(inInches, {}, undefined)).toBe(inInches);
});
