/** The luminaires of a study: a name is one name everywhere, and nothing hangs that nobody hung. */
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { lampStudy, lampsFor, lampWords } from "../../site/edits/lamp-variants.ts";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import {
  addLuminaireToStudy,
  bodyWith,
  FIRST_BEAM,
  FIRST_SHADE,
  hangInOthers,
  type NewLuminaire,
  nameProblem,
  renameLuminaire,
} from "../../site/edits/study-luminaires.ts";
import { isShelfText, readShelf, shelfText } from "../../site/storage/luminaire-shelf.ts";
import { StudyHistory } from "../../site/store/history.ts";
import type { Json } from "../../site/store/pointer.ts";
import { checkStudy } from "../../src/study/study.ts";
import { studyOfText } from "../../src/workers/side-answers.ts";

const study = example as unknown as RawStudy;
const after = (edit: { name: string; edits: Parameters<StudyHistory["change"]>[1] }) => {
  const history = new StudyHistory(study as unknown as Json);
  history.change(edit.name, edit.edits);
  return { history, study: history.document as unknown as RawStudy };
};

it("renames a luminaire wherever it hangs, in its place in the list, and one undo takes it back", () => {
  const { history, study: now } = after(renameLuminaire(study, "downlight", "spot 90"));
  expect(Object.keys(now.luminaires ?? {})).toEqual(["dome", "cone", "globe", "bar", "spot 90"]);
  expect(now.arrangements.map(({ layers }) => layers[1].luminaire)).toEqual(Array(3).fill("spot 90"));
  expect(JSON.stringify(now)).not.toContain('"downlight"');
  history.undo();
  expect(history.document).toBe(study);
});

// 2026-11-28: downlights replaced in one option were left in the others, and each had to be found and changed by hand.
it("hangs what one option hangs in the others too, in the layer of its name where these hang what it hung", () => {
  const layers = study.arrangements.map((each) => each.layers);
  const ambient = layers.map((list) => list.findIndex(({ name }) => name === "ambient"));
  const arrangements = study.arrangements.map((each, a) => ({
    ...each,
    layers: each.layers.map((layer, l) =>
      l === ambient[a] ? { ...layer, luminaire: ["bar", "downlight", "cone"][a] } : layer,
    ),
  }));
  const of = (before: string) =>
    hangInOthers({ ...study, arrangements }, { arrangement: 0, layer: ambient[0] }, before);
  expect(of("downlight")).toEqual({
    name: "bar in ambient of every option",
    edits: [{ path: ["arrangements", 1, "layers", ambient[1], "luminaire"], value: "bar" }],
  });
  expect(of("globe")).toBeUndefined();
  expect(ambient.every((index) => index >= 0)).toBe(true);
});

it("refuses an empty name and one that another luminaire has", () => {
  expect(nameProblem(study, "dome", "cone")).toMatch(/Another luminaire is called cone/);
  expect(nameProblem(study, "dome", "")).toMatch(/1 to 200/);
  expect(nameProblem(study, "dome", "dome")).toBeUndefined();
  expect(nameProblem(study, undefined, "dome")).toMatch(/Another/);
});

it("keeps a luminaire without hanging it, and hangs it only where asked", () => {
  for (const luminaire of [FIRST_SHADE, FIRST_BEAM]) {
    const kept = after(addLuminaireToStudy(study, { name: "mine", luminaire })).study;
    expect(kept.arrangements).toBe(study.arrangements);
    expect(kept.luminaires?.mine).toEqual(luminaire);
    const place = { arrangement: 1, layer: 0 };
    const hung = after(addLuminaireToStudy(study, { name: "dome", luminaire }, place)).study;
    expect(hung.arrangements[1].layers[0].luminaire).toBe("dome 2");
    expect(hung.arrangements[0]).toBe(study.arrangements[0]);
    expect(checkStudy(hung, "study").ok).toBe(true);
  }
});

it("brings files under names of their own and never over another's", () => {
  const withFile = { ...study, embedded: { "photometry/a.ies": { text: "one" } } };
  const luminaire = { photometry: "photometry/a.ies" };
  const other = addLuminaireToStudy(withFile, {
    name: "a",
    luminaire,
    embedded: { "photometry/a.ies": { text: "two" } },
  });
  expect(other.edits[0]).toEqual({ path: ["embedded", "photometry/a 2.ies"], value: { text: "two" } });
  expect(other.edits[1].value).toEqual({ photometry: "photometry/a 2.ies" });
  const same = addLuminaireToStudy(withFile, {
    name: "a",
    luminaire,
    embedded: { "photometry/a.ies": { text: "one" } },
  });
  expect(same.edits[0].path).toEqual(["embedded", "photometry/a.ies"]);
});

it("gives a luminaire without a body one as soon as something is said of it", () => {
  expect(bodyWith(undefined, "diameter", 0.32)).toEqual({ profile: "drum", diameter: 0.32 });
  expect(bodyWith({ profile: "dome", diameter: 0.3 }, "profile", "box")).toEqual({
    profile: "box",
    length: 0.3,
    width: 0.3,
  });
  // Of a luminaire longer one way: a box, whose sides are the file's until they are typed.
  expect(bodyWith(undefined, "width", 1.2, "box")).toEqual({ profile: "box", width: 1.2 });
  expect(bodyWith({ profile: "dome", diameter: 1.2 }, "profile", "box", "box")).toEqual({ profile: "box" });
  expect(bodyWith({ profile: "dome", diameter: "12 in" }, "profile", undefined)).toBeUndefined();
  expect(bodyWith({ profile: "dome", diameter: 0.3, height: 0.2 }, "height", undefined)).toEqual({
    profile: "dome",
    diameter: 0.3,
  });
});

it("carries kept luminaires in a file, each with its own photometry", async () => {
  const check = async (text: string, file: string) => studyOfText(text, file);
  const own = { text: "IESNA:LM-63-2002\n" };
  const kept: NewLuminaire[] = [
    {
      name: "dome",
      luminaire: { photometry: "photometry/a.ies", price: 120 },
      embedded: { "photometry/a.ies": own },
    },
    {
      name: "other",
      luminaire: { photometry: "photometry/a.ies" },
      embedded: { "photometry/a.ies": { text: "another" } },
    },
    { name: "shade", luminaire: FIRST_SHADE, embedded: {} },
  ];
  const text = shelfText(kept);
  expect(isShelfText(text)).toBe(true);
  const back = await readShelf(text, "my.luminaires.json", check);
  expect(back.ok && back.value.map(({ embedded }) => Object.values(embedded ?? {})[0])).toEqual([
    own,
    { text: "another" },
    undefined,
  ]);
  expect(back.ok && back.value[0].luminaire).toEqual(kept[0].luminaire);
  const damaged = await readShelf(text.replace('"price": 120', '"price": "much"'), "x", check);
  expect(damaged.ok).toBe(false);
  expect((await readShelf(text.slice(0, 80), "x", check)).ok).toBe(false);
  expect((await readShelf(text.replace('"version": 1', '"version": 2'), "x", check)).ok).toBe(false);
});

it("puts each lamp into the shade and changes nothing else", () => {
  const mine = { ...FIRST_SHADE, lamp: { flux: 806, watts: 8, finish: "frosted", height: 0.12 } };
  const of = { ...study, luminaires: { ...study.luminaires, mine } } as RawStudy;
  const hung = { ...of, arrangements: of.arrangements.map((each) => withFirst(each, "mine")) } as RawStudy;
  const lamps = lampsFor(mine);
  expect(lamps[0]).toBe(mine.lamp);
  expect(lamps.length).toBeGreaterThan(4);
  expect(lamps.every((lamp) => lamp.height === 0.12)).toBe(true);
  const compared = lampStudy(hung, 1, "mine");
  expect(compared.arrangements.map(({ name }) => name)).toEqual(lamps.map(lampWords));
  expect(new Set(compared.arrangements.map(({ layers }) => layers[1])).size).toBe(1);
  expect(checkStudy(compared, "study").ok).toBe(true);
});

function withFirst(option: RawStudy["arrangements"][number], luminaire: string) {
  return { ...option, layers: option.layers.map((layer, i) => (i === 0 ? { ...layer, luminaire } : layer)) };
}
