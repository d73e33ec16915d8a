/** What of a room's answers is the same stays the same object: the picture asks identity, not content. */
import { describe, expect, it } from "vitest";
import { atLevelsOf, isSameLight, pictureWords, RoomLightState } from "../../site/light/room-light-state.ts";
import { kitchen, resolved } from "../support/studies.ts";

const { scenes } = resolved(kitchen());

/** An answer as it would come from another thread: equal, never the same. */
function answer(key: string, dim = 1) {
  const [scene] = scenes;
  const copy = structuredClone({ ...scene, layers: scene.layers.map((layer) => ({ ...layer, dim })) });
  return { key, scene: copy, surfaces: { interreflected: [], things: [], traced: [] }, people: false };
}

describe("the room shown", () => {
  it("takes the light in full on the scene that was sketched", () => {
    const shown = new RoomLightState();
    const [sketch, full] = [answer("sketch a"), answer("full a")];
    const first = shown.of(sketch, undefined);
    expect(first.surfaces).toBe(sketch.surfaces);
    expect(first.sketched).toBe(true);
    expect(shown.of(sketch, undefined)).toBe(first);
    const whole = shown.of(sketch, full);
    expect(whole.scene).toBe(first.scene);
    expect(whole.surfaces).toBe(full.surfaces);
    expect(whole.sketched).toBe(false);
    expect(shown.of(sketch, full)).toBe(whole);
  });

  it("dimmed anew is the same light with other weights, never the sketch again", () => {
    const shown = new RoomLightState();
    const whole = shown.of(answer("sketch a"), answer("full a"));
    const dimmedSketch = answer("sketch a", 0.3);
    const between = shown.of(dimmedSketch, undefined);
    expect(between.surfaces).toBe(whole.surfaces);
    expect(between.sketched).toBe(false);
    expect(between.scene.surfaces).toBe(whole.scene.surfaces);
    expect(between.scene.blockers).toBe(whole.scene.blockers);
    between.scene.layers.forEach(({ dim, luminaires }, i) => {
      expect(dim).toBe(0.3);
      expect(luminaires).toBe(whole.scene.layers[i].luminaires);
    });
    const after = shown.of(dimmedSketch, answer("full a", 0.3));
    expect(after.scene).toBe(between.scene);
    expect(after.surfaces).toBe(whole.surfaces);
  });

  it("of another room is shown as it comes", () => {
    const shown = new RoomLightState();
    shown.of(answer("sketch a"), answer("full a"));
    const [sketch, full] = [answer("sketch b"), answer("full b")];
    const first = shown.of(sketch, undefined);
    expect(first.surfaces).toBe(sketch.surfaces);
    expect(first.scene).toBe(sketch.scene);
    expect(shown.of(sketch, full).surfaces).toBe(full.surfaces);
    // And the first again, sketched anew.
    const again = answer("sketch a");
    expect(shown.of(again, undefined).surfaces).toBe(again.surfaces);
  });
});

describe("dimming", () => {
  it("is told from every other change of a document", () => {
    const layer = { name: "pendants", luminaire: "dome", dim: 1, at: [1, 2] };
    const of = (change: object, more: object = {}) => ({
      room: { height: 2.5 },
      layers: [{ ...layer, ...change }],
      ...more,
    });
    const before = of({});
    expect(isSameLight(before, of({}))).toBe(true);
    expect(isSameLight(before, of({ dim: 0.3 }))).toBe(true);
    expect(isSameLight(before, of({ dim: undefined }))).toBe(true);
    expect(isSameLight(before, of({}, { settings: [{ name: "dinner", dim: { pendants: 0.2 } }] }))).toBe(
      true,
    );
    expect(isSameLight(before, of({ luminaire: "globe" }))).toBe(false);
    expect(isSameLight(before, of({ at: [1, 2, 3] }))).toBe(false);
    expect(isSameLight(before, of({ at: { 0: 1, 1: 2 } }))).toBe(false);
    expect(isSameLight(before, of({}, { room: { height: 2.6 } }))).toBe(false);
    expect(isSameLight(before, of({}, { room: null }))).toBe(false);
    expect(isSameLight(before, of({}, { note: "" }))).toBe(false);
  });

  it("gives a scene other levels and leaves all else the same objects", () => {
    const [scene] = scenes;
    const drawn = answer("a", 0.3).scene;
    const dimmed = atLevelsOf(scene, drawn);
    expect(dimmed.layers.map(({ dim }) => dim)).toEqual(scene.layers.map(() => 0.3));
    dimmed.layers.forEach(({ luminaires }, i) => {
      expect(luminaires).toBe(scene.layers[i].luminaires);
    });
    expect(dimmed.surfaces).toBe(scene.surfaces);
    expect(atLevelsOf(dimmed, drawn)).toBe(dimmed);
  });

  it("says of which study the picture is while another is computed", () => {
    expect(pictureWords(true, true)).toMatch(/^The room as it was before the last change/);
    expect(pictureWords(true, false)).toBe(pictureWords(true, true));
    expect(
      new Set([pictureWords(true, true), pictureWords(false, true), pictureWords(false, false)]).size,
    ).toBe(3);
  });
});
