/** The light on a room's surfaces is remembered by what it rests on: not by dimming, but by all else. */
import { describe, expect, it } from "vitest";
import { RoomLights } from "../../src/app/room-light-cache.ts";
import { frame } from "../../src/geometry/frame.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { kitchen, resolved } from "../support/studies.ts";

const { scenes, options } = resolved(kitchen());
const [scene] = scenes;
const [pendants, ...others] = scene.layers;

describe("a room's light", () => {
  const lights = new RoomLights();
  const madeFor = (given: Scene, quality = "full", chosen: object = options): boolean => {
    let made = false;
    lights.of(given, quality, chosen, () => {
      made = true;
      return { interreflected: [], things: [], traced: [] };
    });
    return made;
  };

  it("is made once, whatever it is dimmed to and whoever copied the scene", () => {
    expect(madeFor(scene)).toBe(true);
    expect(madeFor(scene)).toBe(false);
    expect(madeFor({ ...scene, name: "renamed", maintenance: 0.5 })).toBe(false);
    expect(madeFor({ ...scene, layers: scene.layers.map((layer) => ({ ...layer, dim: 0.2 })) })).toBe(false);
  });

  it("is another for another place, luminaire, reflectance, solid, quality or option", () => {
    const [first, ...rest] = pendants.luminaires;
    const with_ = (luminaires: typeof pendants.luminaires): Scene => ({
      ...scene,
      layers: [{ ...pendants, luminaires }, ...others],
    });
    const [x, y, z] = first.frame.origin;
    const changes: [Scene, string?, object?][] = [
      [with_([{ ...first, frame: frame([x + 0.001, y, z]) }, ...rest])],
      [with_([{ ...first, luminaire: { ...first.luminaire } }, ...rest])],
      [with_(rest)],
      [{ ...scene, surfaces: scene.surfaces.map((s, i) => (i === 0 ? { ...s, reflectance: 0.9 } : s)) }],
      [{ ...scene, blockers: scene.blockers.slice(1) }],
      [scene, "sketch"],
      [scene, "full", { ...options, people: !options.people }],
    ];
    for (const [given, quality, chosen] of changes) {
      expect(madeFor(given, quality, chosen)).toBe(true);
      expect(madeFor(given, quality, chosen)).toBe(false);
    }
  });

  it("is not remembered where it was cancelled", () => {
    const fresh = new RoomLights();
    const fail = () =>
      fresh.of(scene, "full", options, () => {
        throw new Error("cancelled");
      });
    expect(fail).toThrow("cancelled");
    const made = { interreflected: [], things: [], traced: [] };
    expect(fresh.of(scene, "full", options, () => made).surfaces).toBe(made);
  });
});
