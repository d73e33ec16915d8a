/** What an engine keeps of people and luminaires from one arrangement to the next changes no bit, and is not asked again. */
import { afterEach, expect, it, vi } from "vitest";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { Penumbra } from "../../src/engine/visibility/penumbra.ts";
import { figure } from "../../src/scene/people.ts";
import type { Person, Scene } from "../../src/scene/scene.ts";
import { kitchen, resolved } from "../support/studies.ts";

const OPTIONS = { quality: "quick", patches: 40, people: true } as const;
const POSTURES: readonly Person["posture"][] = ["standing", "leaning", "seated"];

function withCook(scene: Scene, posture: Person["posture"], x = 2.7): Scene {
  const { mesh } = figure([x, 1.2], Math.PI / 2, 1.72, posture, 0.6);
  return {
    ...scene,
    blockers: [...scene.blockers, { name: "cook", kind: "person", mesh, transmittance: 0 }],
  };
}

/** Another arrangement in the same room: a luminaire of the first layer is gone, with its body. */
function withoutFirst(scene: Scene): Scene {
  const [layer, ...rest] = scene.layers;
  return {
    ...scene,
    layers: [{ ...layer, luminaires: layer.luminaires.slice(1) }, ...rest],
    blockers: scene.blockers
      .filter(({ owner }) => owner?.[0] !== 0 || owner[1] > 0)
      .map((each) => (each.owner?.[0] === 0 ? { ...each, owner: [0, each.owner[1] - 1] } : each)),
  };
}

afterEach(() => {
  vi.restoreAllMocks();
});

it("gives the bits of a fresh engine, whatever stood there before", () => {
  const scene = resolved(kitchen()).scenes[0];
  const kept = new LightEngine(undefined, 16);
  const other = withoutFirst(scene);
  const asked = [
    scene,
    ...POSTURES.map((posture) => withCook(scene, posture)),
    other,
    withCook(other, "standing"),
    withCook(scene, "leaning"),
    { ...scene, blockers: scene.blockers.filter(({ kind }) => kind !== "pendant") },
  ];
  for (const each of asked)
    expect(kept.calculate(each, OPTIONS).planes).toEqual(new LightEngine().calculate(each, OPTIONS).planes);
});

it("gives the bits of a fresh engine of who stays while another steps between and away", () => {
  const scene = withCook(resolved(kitchen()).scenes[0], "standing", 2.7);
  const { mesh } = figure([2.7, 1.45], Math.PI / 2, 1.72, "standing", 0.6);
  const between: Scene = {
    ...scene,
    blockers: [...scene.blockers, { name: "guest", kind: "person", mesh, transmittance: 0 }],
  };
  const kept = new LightEngine(undefined, 16);
  for (const each of [between, scene, between])
    expect(kept.calculate(each, OPTIONS).planes).toEqual(new LightEngine().calculate(each, OPTIONS).planes);
});

it("asks of a person who is there again nothing, of another arrangement what is new in it", () => {
  const scene = resolved(kitchen()).scenes[0];
  const other = withoutFirst(scene);
  const lines = vi.spyOn(Penumbra.prototype, "one");
  const shares = vi.spyOn(Penumbra.prototype, "share");
  const count = (engine: LightEngine, each: Scene): number => {
    lines.mockClear();
    shares.mockClear();
    engine.calculate(each, OPTIONS);
    return lines.mock.calls.length + shares.mock.calls.length;
  };
  const kept = new LightEngine(undefined, 16);
  const all = POSTURES.map((posture) => withCook(scene, posture));
  const fresh = count(new LightEngine(), withCook(other, "standing"));
  expect(fresh).toBeGreaterThan(0);
  for (const each of [scene, ...all, ...all.map((_, k) => withCook(scene, POSTURES[k], 3.1))])
    count(kept, each);
  expect(count(kept, all[0])).toBe(0);
  const again = count(kept, withCook(other, "standing"));
  console.log(`another arrangement asks ${again} lines and shares of ${fresh}`);
  expect(again).toBeLessThan(0.6 * fresh);
});
