/** Keys for papers and site: letters of arrangements, the lamp to order, doors. */
import { describe, expect, it } from "vitest";
import { openArrangement, openDocument, Workspace } from "../../src/app/open-document.ts";
import { withArrangements } from "../../src/app/search.ts";
import { arrangementLetters } from "../../src/study/arrangement-letters.ts";
import { newLetter } from "../../src/study/new-letter.ts";
import type { StudyDocument } from "../../src/study/study-schema.ts";

const study = (more: object = {}, letters: (string | undefined)[] = [undefined, undefined]) => ({
  format: "candlespan-study",
  version: 1,
  room: { length: 5, width: 4, ceilingHeight: 2.6, ...more },
  island: { length: 2.4, width: 1 },
  luminaires: { spot: { beam: { flux: 600, angle: 40 }, lamp: "GU10, 36°" } },
  arrangements: letters.map((letter, i) => ({
    name: `option ${i}`,
    ...(letter === undefined ? {} : { letter }),
    layers: [{ name: "p", luminaire: "spot", row: { count: 2 } }],
  })),
});

async function opened(document: unknown) {
  const outcome = await openDocument(document);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value.study;
}

describe("letters of arrangements", () => {
  it("stay with their arrangement; those without take what is free", async () => {
    expect(arrangementLetters([{}, { letter: "A" }, {}, { letter: "C" }, {}])).toEqual([
      "B",
      "A",
      "D",
      "C",
      "E",
    ]);
    const { scenes } = await opened(study({}, ["C", undefined]));
    expect(scenes.map(({ letter }) => letter)).toEqual(["C", "A"]);
  });

  it("go past Z", () => {
    const many = arrangementLetters(Array.from({ length: 60 }, () => ({})));
    expect([many[25], many[26], many[51], many[52], many[59]]).toEqual(["Z", "AA", "AZ", "BA", "BH"]);
    expect(new Set(many).size).toBe(60);
  });

  it("are the same where an arrangement is opened alone", async () => {
    const alone = await openArrangement({ document: study(), arrangement: 1 }, true, new Workspace(), {});
    if (!alone.ok) throw new Error(JSON.stringify(alone.issues));
    expect(alone.value.scene.letter).toBe("B");
  });

  it("of what is made come after all others", () => {
    const document = study({}, ["A", "D"]) as unknown as StudyDocument;
    expect(newLetter(document.arrangements)).toBe("E");
    const made = withArrangements(document, [document.arrangements[0], document.arrangements[0]]);
    expect(made.arrangements.map(({ letter }) => letter)).toEqual(["A", "D", "E", "F"]);
  });

  it("are refused twice, and where they are none", async () => {
    const twice = await openDocument(study({}, ["B", "B"]));
    expect(twice.ok ? [] : twice.issues.map(({ code, where }) => [code, where.path])).toEqual([
      ["arrangement-letter", "/arrangements/1/letter"],
    ]);
    const none = await openDocument(study({}, ["first", undefined]));
    expect(none.ok ? [] : none.issues.map(({ expected }) => expected)).toEqual([
      "one or two capital letters, A to ZZ",
    ]);
  });
});

describe("further keys", () => {
  it("take a lamp to order beside a beam", async () => {
    const { luminaires } = await opened(study());
    expect(luminaires.get("spot")?.lamp).toBe("GU10, 36°");
  });

  it("refuse a lamp to order beside a shade", async () => {
    const spoilt = study() as { luminaires: Record<string, unknown> };
    spoilt.luminaires.spot = { lamp: "A19", shade: { profile: "cone", diameter: 0.3 } };
    const outcome = await openDocument(spoilt);
    expect(outcome.ok ? [] : outcome.issues[0].code).toBe("luminaire-light");
  });

  it("place doors in their walls", async () => {
    const { scenes, defaults } = await opened(study({ doors: [{ wall: 1, from: 0.4, width: 0.9 }] }));
    expect(scenes[0].room.doors).toEqual([
      { name: "door 1", wall: 1, from: 0.4, width: 0.9, height: 2.03, swing: "in-left" },
    ]);
    expect(defaults.map(({ path }) => path)).toContain("/room/doors/0/swing");
    const outside = await openDocument(study({ doors: [{ wall: 1, from: 3.5, width: 0.9 }] }));
    expect(outside.ok ? [] : outside.issues.map(({ code }) => code)).toEqual(["door-outside"]);
  });
});
