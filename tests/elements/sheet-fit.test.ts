/** How large an aligned sheet is drawn: what fits is as large as it can be, what does not is scrolled at a size that
 * can be read. */
import { describe, expect, it } from "vitest";
import { fitSheet, type SheetRoom, sheetHeight } from "../../src/elements/sheet/sheet-fit.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { type Json, kitchen, resolved } from "../support/studies.ts";

const people = [
  { name: "cook", stature: 1.7, at: [2.3, 2.9], facing: 270, posture: "leaning" },
  { name: "guest", stature: 1.64, at: [3.2, 1.0], facing: 90, posture: "seated" },
];
const sceneWith = (more: Json = {}): Scene => resolved(kitchen({ people, ...more })).scenes[0];
const scene = sceneWith();
const PARTS = { zones: true, people: true, dimensions: true };

function room(width: number, height: number, more: Partial<SheetRoom> = {}): SheetRoom {
  return { width, height, parts: PARTS, hasElevation: true, largest: 400, ...more };
}

function heightOf(of: Scene, given: SheetRoom, withProfile = true): number {
  const { scale, profile, reach } = fitSheet(of, given);
  return sheetHeight(of, scale, given, withProfile ? profile : undefined, reach);
}

describe("a sheet", () => {
  it("fits where it is drawn whole, and would not half a unit larger", () => {
    let whole = 0;
    let bound = 0;
    for (const width of [700, 1000, 1400])
      for (const height of [560, 700, 900, 1300]) {
        const given = room(width, height);
        const { scale, profile, reach } = fitSheet(scene, given);
        const used = sheetHeight(scene, scale, given, profile, reach);
        if (used > height) continue;
        whole++;
        const larger = fitSheet(scene, { ...given, largest: scale.perMetre + 1 });
        if (scale.perMetre >= given.largest) continue;
        // Wider the page does not allow, or higher the room.
        const byWidth = fitSheet(scene, { ...given, height: 1e5 }).scale.perMetre;
        if (scale.perMetre >= byWidth - 1e-9) continue;
        bound++;
        expect(larger.scale.perMetre).toBeLessThanOrEqual(scale.perMetre + 1);
        expect(height - used).toBeLessThan(6);
      }
    console.log(`${whole} of 12 sheets whole, ${bound} of them as high as their room`);
    expect(whole).toBeGreaterThan(6);
    expect(bound).toBeGreaterThan(2);
  });

  it("is never smaller in a higher or wider room, and never over the largest scale", () => {
    for (const width of [400, 800, 1200]) {
      let before = 0;
      for (let height = 800; height <= 1600; height += 100) {
        const { scale } = fitSheet(scene, room(width, height));
        expect(scale.perMetre).toBeGreaterThanOrEqual(before - 0.5);
        before = scale.perMetre;
      }
    }
    for (const largest of [90, 150, 260])
      for (const height of [300, 700, 2000])
        expect(fitSheet(scene, room(1400, height, { largest })).scale.perMetre).toBeLessThanOrEqual(largest);
  });

  it("too tall for its room is scrolled: drawn at no less than 150 a metre where the width allows", () => {
    for (const height of [0, 200, 350, 420]) {
      const given = room(1200, height);
      const { scale, profile } = fitSheet(scene, given);
      expect(scale.perMetre).toBeGreaterThanOrEqual(150 - 1e-9);
      expect(profile).toBe(130);
      expect(heightOf(scene, given)).toBeGreaterThan(height);
    }
    // A narrow page has the last word.
    expect(fitSheet(scene, room(320, 200)).scale.perMetre).toBeLessThan(150);
  });

  it("draws people who stand back only where height is to spare", () => {
    const roomy = fitSheet(scene, room(1600, 2400));
    expect(roomy.scale.perMetre).toBeGreaterThanOrEqual(230);
    expect(roomy.reach).toBe(0.8);
    const tight = fitSheet(scene, room(1000, 640));
    expect(tight.reach).toBe(0.34);
    // Drawn near only, the same sheet is no higher.
    expect(sheetHeight(scene, roomy.scale, room(1600, 2400), 100, 0.34)).toBeLessThanOrEqual(
      sheetHeight(scene, roomy.scale, room(1600, 2400), 100, 0.8),
    );
  });

  it("gives the profile a sixth of the room, within 100 to 150", () => {
    expect(fitSheet(scene, room(1000, 640)).profile).toBe(102);
    expect(fitSheet(scene, room(1400, 800)).profile).toBe(128);
    expect(fitSheet(scene, room(1400, 1600)).profile).toBe(150);
  });

  it("without an elevation leaves its height to the plan", () => {
    const given = room(1400, 640);
    const alone = { ...given, hasElevation: false };
    expect(fitSheet(scene, alone).scale.perMetre).toBeGreaterThan(fitSheet(scene, given).scale.perMetre);
    const { scale } = fitSheet(scene, given);
    expect(sheetHeight(scene, scale, alone, undefined, 0.34)).toBeLessThan(
      sheetHeight(scene, scale, given, undefined, 0.34),
    );
  });

  it("takes a room without an island, and a page of no size", () => {
    const { island: _, ...rest } = scene;
    for (const of of [scene, { ...rest, zones: [], people: [] } as Scene])
      for (const [width, height] of [
        [0, 0],
        [1, 1e4],
        [1e4, 1],
      ]) {
        const { scale, profile } = fitSheet(of, room(width, height));
        expect(Number.isFinite(scale.perMetre) && scale.perMetre > 0).toBe(true);
        expect(profile).toBeGreaterThanOrEqual(100);
      }
  });
});
