/** The luminaires of a study: a name is one name everywhere, and nothing hangs that nobody hung. */
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import type { RawStudy } from "../../site/edits/raw-study.ts";
import {
  addLuminaireToStudy,
  bodyWith,
  FIRST_BEAM,
  FIRST_SHADE,
  nameProblem,
  renameLuminaire,
} from "../../site/edits/study-luminaires.ts";
import { StudyHistory } from "../../site/store/history.ts";
import type { Json } from "../../site/store/pointer.ts";
import { checkStudy } from "../../src/study/study.ts";

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
  expect(bodyWith({ profile: "dome", diameter: "12 in" }, "profile", undefined)).toBeUndefined();
  expect(bodyWith({ profile: "dome", diameter: 0.3, height: 0.2 }, "height", undefined)).toEqual({
    profile: "dome",
    diameter: 0.3,
  });
});
