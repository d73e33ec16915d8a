/** How large an aligned sheet is drawn: the plan dominates, nothing but the island and the page sets the scale, and
 * what does not fit is scrolled at a size that can be read. */
import { describe, expect, it } from "vitest";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { fitSheet, type SheetFit, type SheetRoom, sheetHeight } from "../../src/elements/sheet/sheet-fit.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { type Json, kitchen, resolved } from "../support/studies.ts";

const people = [
  { name: "cook", stature: 1.7, at: [2.3, 2.9], facing: 270, posture: "leaning" },
  { name: "guest", stature: 1.64, at: [3.2, 1.0], facing: 90, posture: "seated" },
];
const sceneWith = (more: Json = {}): Scene => resolved(kitchen({ people, ...more })).scenes[0];
const scene = sceneWith();
// The elevation above says how long the top is.
const PARTS = { zones: true, people: true, dimensions: true, length: false };

function room(width: number, height: number, more: Partial<SheetRoom> = {}): SheetRoom {
  return { width, height, parts: PARTS, hasElevation: true, largest: 400, ...more };
}

describe("a sheet", () => {
  it("lets the plan dominate: the worked example's top is about a fifth of a window of 1440 by 900", () => {
    // What the page leaves: 1440 px less panel and margins; 900 px less head, foot and verdict.
    const { scale } = fitSheet(scene, room(1032, 713, { largest: Number.POSITIVE_INFINITY }));
    const { length, width } = islandAxes(scene);
    const share = (length * width * scale.perMetre ** 2) / (1440 * 900);
    console.log(`lit top ${(100 * share).toFixed(1)} % of the window`);
    expect(share).toBeGreaterThan(0.17);
    // Half a metre of the room at each end.
    expect(scale.perMetre).toBeCloseTo(1032 / (length + 1), 6);
  });

  it("fits where it is drawn whole", () => {
    let whole = 0;
    for (const width of [700, 1000, 1400])
      for (const height of [560, 700, 900, 1300]) {
        const given = room(width, height);
        const fit = fitSheet(scene, given);
        if (fit.scale.perMetre === 150) continue;
        whole++;
        expect(sheetHeight(scene, fit, given)).toBeLessThanOrEqual(height + 1);
      }
    console.log(`${whole} of 12 sheets whole`);
    expect(whole).toBeGreaterThan(9);
  });

  it("keeps its scale whatever hangs, however high or sloped the ceiling, whatever the light", () => {
    const given = room(1032, 713);
    const before = fitSheet(scene, given);
    const other = (more: Partial<Scene>): SheetFit => fitSheet({ ...scene, ...more }, given);
    expect(other({ layers: [] })).toMatchObject({ elevation: before.elevation, profile: before.profile });
    for (const fit of [
      other({ layers: [] }),
      other({ room: { ...scene.room, ceilingHeight: 6 } }),
      other({ room: { ...scene.room, slope: 0.3 } }),
    ]) {
      expect(fit.scale.perMetre).toBe(before.scale.perMetre);
      expect(fit.elevation).toBe(before.elevation);
    }
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
    for (const height of [0, 200, 350, 380]) {
      const given = room(1200, height);
      const fit = fitSheet(scene, given);
      expect(fit.scale.perMetre).toBeGreaterThanOrEqual(150 - 1e-9);
      expect(sheetHeight(scene, fit, given)).toBeGreaterThan(height);
    }
    // A narrow page has the last word.
    expect(fitSheet(scene, room(320, 200)).scale.perMetre).toBeLessThan(150);
  });

  it("draws people who stand back only where height is to spare", () => {
    expect(fitSheet(scene, room(1600, 2400)).reach).toBe(0.8);
    const tight = fitSheet(scene, room(1000, 640));
    expect(tight.reach).toBe(0.34);
    expect(tight.cut).toBe(24);
  });

  it("without an elevation leaves its height to the plan", () => {
    const given = room(1400, 640);
    const alone = { ...given, hasElevation: false };
    expect(fitSheet(scene, alone).scale.perMetre).toBeGreaterThan(fitSheet(scene, given).scale.perMetre);
    expect(fitSheet(scene, alone).elevation).toBe(0);
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
        expect(profile).toBeGreaterThanOrEqual(84);
      }
  });
});
