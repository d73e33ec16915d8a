/**
 * Light at faces against closed forms: one source at angle θ from the vertical gives E_z = (1/π)(I/d²) sin θ and
 * E_z / E_h = tan θ / π (0.31831 at 45°, 0.55133 at 60°; our own arithmetic by two routes).
 */
import { describe, expect, it } from "vitest";
import { eyeLight, eyePlanes } from "../../../src/advice/people/eye-light.ts";
import { LightEngine } from "../../../src/engine/light-engine.ts";
import type { Person } from "../../../src/scene/scene.ts";
import { radians } from "../../../src/units/quantities.ts";
import { luminaire, placed, rotational, scene } from "../../support/luminaires.ts";

const person = (facing: number): Person => ({
  name: "eye",
  stature: 1.7,
  at: [2, 2],
  facing,
  posture: "standing",
  eye: [2, 2, 1.5],
});

describe("light at faces", () => {
  it("is that of one source, by its angle", () => {
    let worst = 0;
    for (const angle of [30, 45, 60]) {
      const θ = radians(angle);
      const d = 1.2;
      const source = placed(luminaire(rotational(() => 100)), [
        2 + d * Math.sin(θ),
        2,
        1.5 + d * Math.cos(θ),
      ]);
      for (const facing of [0, 50, 180]) {
        const people = [person(radians(facing))];
        const lit = { ...scene([[source]], eyePlanes({ people })), people };
        const { planes } = new LightEngine().calculate(lit, { interreflection: false });
        const [light] = eyeLight(lit, planes);
        const E = 100 / d ** 2;
        const errors = [
          light.cylindrical - (E * Math.sin(θ)) / Math.PI,
          light.horizontal - E * Math.cos(θ),
          light.vertical - E * Math.sin(θ) * Math.max(0, Math.cos(radians(facing))),
        ];
        worst = Math.max(worst, ...errors.map((error) => Math.abs(error) / E));
        expect(light.modelling).toBeCloseTo(Math.tan(θ) / Math.PI, 6);
        expect(light.verticalInterreflected).toBe(0);
      }
    }
    console.log(`worst error of light at faces ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-6);
  });

  it("is dimmed and maintained, layer by layer, in every direction", () => {
    const d = 1.2;
    const θ = radians(40);
    const source = placed(luminaire(rotational(() => 100)), [2 + d * Math.sin(θ), 2, 1.5 + d * Math.cos(θ)]);
    const above = placed(luminaire(rotational(() => 70)), [2, 2, 2.5]);
    const people = [person(0)];
    const plain = scene([[source], [above]], eyePlanes({ people }));
    const { planes } = new LightEngine().calculate(plain, { interreflection: false });
    const layers = plain.layers.map((layer, l) => ({ ...layer, dim: [0.3, 0.6][l] }));
    const [light] = eyeLight({ ...plain, people, layers, maintenance: 0.8 }, planes);
    const E = (0.8 * 0.3 * 100) / d ** 2;
    expect(light.cylindrical).toBeCloseTo((E * Math.sin(θ)) / Math.PI, 6);
    expect(light.vertical).toBeCloseTo(E * Math.sin(θ), 6);
    expect(light.horizontal).toBeCloseTo(E * Math.cos(θ) + 0.8 * 0.6 * 70, 6);
  });
});
