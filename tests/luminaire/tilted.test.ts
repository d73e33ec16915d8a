/** A lamp sensitive to its burning position: candela times f(tilt) / f(0), f linear between the file's angles. */
import { describe, expect, it } from "vitest";
import { rotationOf, UPRIGHT } from "../../src/geometry/frame.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import { tiltedLuminaire, untilted } from "../../src/luminaire/tilted.ts";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { intensityAt } from "../../src/photometry/reference-lookup.ts";
import { radians } from "../../src/units/quantities.ts";
import { CONTEXT, kitchen, resolved } from "../support/studies.ts";

function sensitive(angles: string, factors: string) {
  const count = angles.split(" ").length;
  const text = [
    "IESNA:LM-63-2002",
    "TILT=INCLUDE",
    "1",
    `${count}`,
    angles,
    factors,
    "1 1000 1 2 1 1 2 0 0 0",
    "1 1 20",
    "0 90",
    "0",
    "100 50",
    "",
  ].join("\r\n");
  const read = readPhotometry(new TextEncoder().encode(text), { file: "lamp.ies" });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read;
}

/** The luminaire of a study with one place of this orientation, and its file's own. */
function hung(angles: string, factors: string, place: object): { hung: Luminaire; plumb: Luminaire } {
  const photometry = new Map([["lamp", sensitive(angles, factors)]]);
  const study = resolved(
    kitchen({
      luminaires: { lamp: { photometry: "lamp.ies" } },
      arrangements: [
        { name: "a", layers: [{ name: "l", luminaire: "lamp", at: [{ position: [1, 1, 2], ...place }] }] },
      ],
    }),
    { ...CONTEXT, photometry },
  );
  const plumb = study.luminaires.get("lamp") as Luminaire;
  return { hung: study.scenes[0].layers[0].luminaires[0].luminaire, plumb };
}

const nadir = ({ distribution }: Luminaire) => intensityAt(distribution, 0, 0);

describe("a luminaire with tilt factors", () => {
  // f(0) = 0.9, f(45°) = 0.8, f(22.5°) = 0.85; the file's candela already carry 0.9.
  it.each([
    ["plumb", {}, 0.9],
    ["turned and spun only", { turn: 70, spin: 20 }, 0.9],
    ["tilted half a step", { tilt: 22.5 }, 0.85],
    ["tilted and turned", { tilt: 45, turn: 123, spin: 77 }, 0.8],
    ["tilted the other way", { tilt: -45 }, 0.8],
    ["aimed level", { aim: [3, 1, 2] }, 0.7],
    ["beyond the last angle", { tilt: 120 }, 0.7],
  ])("%s", (_, place, factor) => {
    const { hung: luminaire, plumb } = hung("0 45 90", "0.9 0.8 0.7", place);
    expect(nadir(plumb)).toBeCloseTo(90, 10);
    expect(nadir(luminaire)).toBeCloseTo(100 * factor, 10);
    expect(luminaire.flux).toBeCloseTo((plumb.flux * factor) / 0.9, 10);
    expect(untilted(luminaire)).toBe(plumb);
  });

  it("takes signed angles as lifting C0, or C180", () => {
    expect(nadir(hung("-90 0 90", "0.6 1 0.8", { tilt: 90 }).hung)).toBeCloseTo(80, 10);
    expect(nadir(hung("-90 0 90", "0.6 1 0.8", { tilt: -90 }).hung)).toBeCloseTo(60, 10);
    // spun by half a turn, the same tilt lifts C180
    expect(nadir(hung("-90 0 90", "0.6 1 0.8", { tilt: 90, spin: 180 }).hung)).toBeCloseTo(60, 10);
  });

  it("is one object for all of one tilt, and the plumb one again when hung plumb", () => {
    const { hung: a, plumb } = hung("0 45 90", "0.9 0.8 0.7", { tilt: 45 });
    const rotation = rotationOf({ ...UPRIGHT, tilt: radians(45) });
    expect(tiltedLuminaire(plumb, rotation)).toBe(a);
    expect(tiltedLuminaire(a, rotationOf(UPRIGHT))).toBe(plumb);
  });

  it("without factors stays itself", () => {
    const { plumb } = hung("0", "1", {});
    const { tilt: _, ...bare } = plumb;
    expect(tiltedLuminaire(bare, rotationOf({ ...UPRIGHT, tilt: 1 }))).toBe(bare);
  });
});
