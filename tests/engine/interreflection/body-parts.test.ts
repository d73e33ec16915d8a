/** Bodies as parts: areas, closure, published factors, what an opal body and a lining do, and company. */
import { describe, expect, it } from "vitest";
import { bodyRows } from "../../../src/engine/interreflection/body-exchange.ts";
import { exchangeBody } from "../../../src/engine/interreflection/body-solid.ts";
import { Gather } from "../../../src/engine/interreflection/gather.ts";
import { patchesOf } from "../../../src/engine/interreflection/patches.ts";
import { SceneSight } from "../../../src/engine/interreflection/scene-sight.ts";
import { placed as placedMesh } from "../../../src/geometry/solids.ts";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import type { Body } from "../../../src/luminaire/body.ts";
import { bodyMesh } from "../../../src/luminaire/body-mesh.ts";
import { NAMED_BODY_PROFILES } from "../../../src/luminaire/body-profiles.ts";
import { POINT_OPENING } from "../../../src/photometry/luminous-opening.ts";
import { luminaireBlockers } from "../../../src/scene/luminaire-blockers.ts";
import { figure } from "../../../src/scene/people.ts";
import type { Blocker, Scene } from "../../../src/scene/scene.ts";
import { calculate } from "../../support/calculate.ts";
import { luminaire, placed, plane, rotational, scene } from "../../support/luminaires.ts";
import { roomSurfaces } from "../../support/rooms.ts";

const light = luminaire(rotational((γ) => (γ < Math.PI / 2 ? (1000 / Math.PI) * Math.cos(γ) : 0)));

function pendant(body: Partial<Body> & Pick<Body, "profile">, at: Vec3) {
  const whole: Body = { diameter: 0.4, height: 0.3, offset: 0, reflectance: 0.5, transmittance: 0, ...body };
  const hung = placed({ ...light, body: whole }, at);
  const blocker: Blocker = {
    name: "pendant",
    kind: "pendant",
    mesh: placedMesh(bodyMesh(whole, POINT_OPENING), hung.frame),
    transmittance: 0,
    owner: [0, 0],
  };
  return { hung, solid: exchangeBody(blocker, whole.reflectance, hung), blocker };
}

describe("parts of bodies", () => {
  it("have the area of what they are of", () => {
    const sum = (a: Float64Array) => a.reduce((all, value) => all + value, 0);
    const exact = {
      drum: Math.PI * 0.4 * 0.3 + 2 * Math.PI * 0.2 ** 2,
      globe: Math.PI * 0.4 ** 2,
      box: 2 * (0.4 * 0.4 + 2 * 0.4 * 0.3),
    };
    let worst = 0;
    for (const [profile, area] of Object.entries(exact)) {
      const { solid } = pendant(
        { profile: profile as "drum", height: profile === "globe" ? 0.4 : 0.3 },
        [2, 2, 1.7],
      );
      worst = Math.max(worst, Math.abs(sum(solid.area) / area - 1));
      expect(Math.abs(sum(solid.litNodes.area) / sum(solid.area) - 1)).toBeLessThan(1e-9);
    }
    console.log(`areas of parts: worst error ${(100 * worst).toFixed(2)} %`);
    // A globe is drawn in sixteen cones.
    expect(worst).toBeLessThan(0.007);
  });

  it("see all of a closed room, and are seen as published", () => {
    const patches = patchesOf(roomSurfaces(5, 4, 2.7, { ceiling: 0.8, walls: 0.5, floor: 0.2 }), 400);
    const gather = new Gather(patches, []);
    let closure = 0;
    for (const profile of NAMED_BODY_PROFILES) {
      const { solid } = pendant({ profile }, [2.1, 1.8, 1.7]);
      bodyRows(gather, solid);
      closure = gather.worstRow;
    }
    // From below: a disc of radius r at distance h fills r² / (r² + h²) of the view; a sphere r² / d².
    let worst = 0;
    for (const [profile, height, exact] of [
      ["drum", 0.3, 0.2 ** 2 / (0.2 ** 2 + 0.8 ** 2)],
      ["globe", 0.4, 0.2 ** 2 / 0.8 ** 2],
    ] as const) {
      const { solid } = pendant({ profile, height }, [2, 2, 1.7]);
      const sight = new SceneSight([], [{ solid, passes: 0 }]);
      const seen = new Float64Array(solid.parts);
      sight.from(2, 2, 0.9, 0, 0, 1);
      sight.factors(0, sight.candidates(Float64Array.of(2, 2, 0.9, 2, 2, 0.9), 0), seen, 0);
      worst = Math.max(worst, Math.abs(seen.reduce((a, b) => a + b, 0) / exact - 1));
    }
    console.log(
      `parts: closure ${closure.toExponential(1)}, worst error of a disc's and a sphere's factor ${(100 * worst).toFixed(2)} %`,
    );
    expect(closure).toBeLessThan(2e-3);
    // Sixteen sides of equal section; the globe's sixteen cones lie within it.
    expect(worst).toBeLessThan(0.007);
  });

  it("of a person hide no light from one another's covered faces", () => {
    const { mesh } = figure([2, 2], 0.3, 1.75, "standing");
    const solid = exchangeBody({ name: "cook", kind: "person", mesh, transmittance: 0 }, 0.3, undefined);
    expect(solid.pieces.length).toBe(4);
    // What the trunk rests on and the neck covers is no part of the outside.
    const H = 1.75;
    const trunk = 2 * (0.14 * 0.259 + (0.818 - 0.53) * (0.14 + 0.259)) * H * H;
    const legs = 2 * (0.11 * 0.191 + 0.53 * (0.11 + 0.191)) * H * H;
    const neck = 2 * (0.87 - 0.818) * (0.07 + 0.07) * H * H;
    const head = 2 * (0.113 * 0.09 + 0.13 * (0.113 + 0.09)) * H * H;
    const covered = 2 * 0.11 * 0.191 * H * H + 2 * 0.07 * 0.07 * H * H;
    const area = solid.area.reduce((a, b) => a + b, 0);
    const exact = trunk + legs + neck + head - covered;
    console.log(
      `a person: outside ${area.toFixed(3)} m², worst error ${(100 * Math.abs(area / exact - 1)).toFixed(1)} %`,
    );
    // Covered parts are told by nodes.
    expect(Math.abs(area / exact - 1)).toBeLessThan(0.04);
  });
});

function hungScene(body: Partial<Body>, others: readonly Vec3[] = []): Scene {
  const { hung } = pendant({ profile: "globe", ...body }, [2.5, 2, 1.6]);
  const spot = placed(light, [2.5, 2, 2.6]);
  const layers = scene(
    [[spot, hung, ...others.map((at) => ({ ...hung, frame: placed(light, at).frame }))]],
    [
      plane([
        [2.5, 2, 0.9],
        [1.4, 1.6, 0.9],
        [3.3, 2.2, 0.9],
      ]),
    ],
  );
  return {
    ...layers,
    surfaces: roomSurfaces(5, 4, 2.7, { ceiling: 0.8, walls: 0.5, floor: 0.2 }),
    blockers: luminaireBlockers(layers.layers),
  };
}

describe("light of bodies", () => {
  it("balances, clear, opal or opaque, and an opal body gives the room what an opaque one keeps", () => {
    let worst = 0;
    const mean = (body: Partial<Body>) => {
      const { balance, planes } = calculate(hungScene(body));
      worst = Math.max(worst, Math.abs(balance!.imbalance));
      const kept = balance!.absorbedByBodies!;
      return { kept, below: planes[0].layers[0].interreflected[0] };
    };
    const opaque = mean({ reflectance: 0.4 });
    const opal = mean({ reflectance: 0.4, transmittance: 0.52, seeThrough: 0 });
    const clear = mean({ reflectance: 0.08, transmittance: 0.9 });
    console.log(
      `bodies: worst imbalance ${(100 * worst).toFixed(3)} %; kept ${[opaque, opal, clear].map(({ kept }) => (100 * kept).toFixed(2)).join(", ")} % opaque, opal, clear`,
    );
    expect(worst).toBeLessThan(3e-3);
    // It keeps 1 − ρ − τ = 0.08 where the other keeps 0.6 of a little less light.
    expect(opal.kept / opaque.kept).toBeGreaterThan(0.08 / 0.6);
    expect(opal.kept / opaque.kept).toBeLessThan((1.1 * 0.08) / 0.6);
    expect(opal.below).toBeGreaterThan(1.02 * opaque.below);
  });

  it("knows the lining of an open mouth, and nothing else of it", () => {
    const below = (body: Partial<Body>) =>
      calculate(hungScene({ profile: "dome", height: 0.2, ...body })).planes[0].layers[0].interreflected[0];
    const plain = below({ reflectance: 0.1 });
    expect(below({ reflectance: 0.1, lining: 0.1 })).toBe(plain);
    expect(below({ reflectance: 0.1, lining: 0.85 })).toBeGreaterThan(1.05 * plain);
  });

  it("is the same in any company of points", () => {
    const whole = hungScene({ reflectance: 0.7 }, [
      [1.6, 2, 1.6],
      [3.4, 2, 1.6],
    ]);
    const all = calculate(whole).planes[0].layers[0].interreflected;
    let worst = 0;
    for (let i = 0; i < 3; i++) {
      const alone = {
        ...whole,
        planes: [plane([[...whole.planes[0].points.slice(3 * i, 3 * i + 3)] as unknown as Vec3])],
      };
      const [E] = calculate(alone).planes[0].layers[0].interreflected;
      worst = Math.max(worst, Math.abs(E / all[i] - 1));
    }
    console.log(`points alone and in company: worst error ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-9);
  });
});
