/** Every shape of opening behind every kind of solid, against a hundred thousand lines of sight to it: within 0.5 % of the
 * light without the solid. */
import { describe, expect, it } from "vitest";
import { frame } from "../../src/geometry/frame.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { Body } from "../../src/luminaire/body.ts";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import type { LuminousOpening } from "../../src/photometry/luminous-opening.ts";
import { luminaireBlockers } from "../../src/scene/luminaire-blockers.ts";
import { figure } from "../../src/scene/people.ts";
import type { Blocker, Scene } from "../../src/scene/scene.ts";
import { expectAccuracy } from "../evidence/expect-accuracy.ts";
import { calculate } from "../support/calculate.ts";
import { ball, block, ellipsoid, frustum, type Gauge } from "../support/convex-oracle.ts";
import { beam, luminaire, opening, placed, plane, rotational, scene } from "../support/luminaires.ts";
import { OpeningOracle } from "../support/opening-oracle.ts";
import { boxMesh } from "../support/solids.ts";

const LAMP: Vec3 = [0, 0, 1.3];
const HUNG: Vec3 = [0.15, 0.05, 0.55];

interface Hider {
  readonly name: string;
  readonly body?: Body;
  readonly blockers?: readonly Blocker[];
  readonly gauges: readonly Gauge[];
}

const body = (profile: Body["profile"], diameter: number, height: number): Body => ({
  profile,
  diameter,
  height,
  offset: 0,
  reflectance: 0,
  transmittance: 0,
});
const boxed = (name: string, low: Vec3, high: Vec3, kind: Blocker["kind"] = "body"): Blocker => ({
  name,
  kind,
  mesh: boxMesh(low, high),
  transmittance: 0,
});

/** The boxes of a standing figure, read from its mesh: eight corners each. */
function boxesOf({ positions }: { readonly positions: Float64Array }): Gauge[] {
  const gauges: Gauge[] = [];
  for (let k = 0; k < positions.length; k += 24) {
    const corners = Array.from({ length: 8 }, (_, i) => positions.subarray(k + 3 * i, k + 3 * i + 3));
    const low = [0, 1, 2].map((c) => Math.min(...corners.map((p) => p[c]))) as unknown as Vec3;
    const high = [0, 1, 2].map((c) => Math.max(...corners.map((p) => p[c]))) as unknown as Vec3;
    gauges.push(block(low, high));
  }
  return gauges;
}

// Short, so that the head is level with the middle of the way.
const person = figure([0.2, 0.1], 0, 1.1, "standing").mesh;

const HIDERS: readonly Hider[] = [
  {
    name: "box",
    blockers: [boxed("box", [0.05, -0.1, 0.4], [0.3, 0.2, 0.6])],
    gauges: [block([0.05, -0.1, 0.4], [0.3, 0.2, 0.6])],
  },
  {
    name: "shelf edge",
    blockers: [boxed("shelf", [0.1, -4, 0.5], [3, 4, 0.53])],
    gauges: [block([0.1, -4, 0.5], [3, 4, 0.53])],
  },
  { name: "drum", body: body("drum", 0.3, 0.2), gauges: [frustum(HUNG, 0.15, 0.15, 0.2)] },
  { name: "dome", body: body("dome", 0.34, 0.15), gauges: [ellipsoid(HUNG, 0.17, 0.15, HUNG[2])] },
  { name: "globe", body: body("globe", 0.25, 0.25), gauges: [ball(HUNG, 0.125)] },
  { name: "cone", body: body("cone", 0.3, 0.25), gauges: [frustum(HUNG, 0.15, 0.0225, 0.25)] },
  {
    name: "person",
    blockers: [{ name: "person", kind: "person", mesh: person, transmittance: 0 }],
    gauges: boxesOf(person),
  },
];

const OPENINGS: readonly LuminousOpening[] = [
  opening("disc", 0.3),
  opening("disc", 0.025),
  opening("rectangle", 0.5, 0.12),
  opening("rectangle", 0.8, 0),
  opening("upright disc", 0, 0.2, 0.2),
  opening("ellipsoid", 0.25, 0.25, 0.2),
  opening("box", 0.4, 0.15, 0.1),
  opening("cylinder", 0.2, 0.2, 0.3),
  opening("cylinder along length", 0.6, 0.06, 0.06),
  opening("point", 0),
];

const even = rotational((γ) => 200 + 100 * Math.cos(γ), 5);

function sceneOf(
  { body: own, blockers = [] }: Hider,
  shape: LuminousOpening,
  distribution: IntensityDistribution,
  points: readonly Vec3[],
): Scene {
  const layers = scene(
    [
      [placed(luminaire(distribution, shape), LAMP)],
      own === undefined ? [] : [{ luminaire: { ...luminaire(even), body: own }, frame: frame(HUNG) }],
    ],
    [plane(points)],
  );
  return { ...layers, blockers: [...blockers, ...luminaireBlockers(layers.layers)] };
}

/** Two points where the opening is partly hidden, of a line under solid and lamp. */
function partlyHidden(hider: Hider, rough: OpeningOracle): Vec3[] {
  const candidates = Array.from(
    { length: 61 },
    (_, k): Vec3 => [-0.35 + 0.02 * k + 0.003, 0.04 + 0.004 * k, 0],
  );
  const partly = candidates.filter((p) => {
    const share = rough.share(p, [0, 0, 1], hider.gauges);
    return share > 0.03 && share < 0.97;
  });
  const some = partly.length > 0 ? partly : candidates;
  return [0.3, 0.7].map((t) => some[Math.floor(t * (some.length - 1))]);
}

const SAMPLES = 100_000;

function worstOf(
  distribution: IntensityDistribution,
  hiders: readonly Hider[],
  shapes: readonly LuminousOpening[],
) {
  let worst = 0;
  let where = "";
  let partly = 0;
  for (const shape of shapes) {
    const rough = new OpeningOracle(distribution, shape, LAMP, 300);
    const oracle = new OpeningOracle(distribution, shape, LAMP, SAMPLES);
    for (const hider of hiders) {
      const points = partlyHidden(hider, rough);
      const light = (occlusion: boolean) =>
        calculate(sceneOf(hider, shape, distribution, points), {
          interreflection: false,
          people: true,
          occlusion,
          nearFieldError: 1e-4,
        }).planes[0].layers[0].direct;
      const found = light(true);
      const clear = light(false);
      points.forEach((p, k) => {
        const share = oracle.share(p, [0, 0, 1], hider.gauges);
        if (share > 0.01 && share < 0.99) partly++;
        // Of the point's light, or of 1 lx where it has less.
        const error = Math.abs(found[k] - share * clear[k]) / Math.max(1, clear[k]);
        if (error > worst) {
          worst = error;
          where = `${shape.shape} ${shape.length} behind ${hider.name} from ${p.map((v) => v.toFixed(3))}: ${(found[k] / clear[k]).toFixed(4)} for ${share.toFixed(4)}`;
        }
      });
    }
  }
  return { worst, where, partly };
}

describe("an opening partly hidden by a solid", () => {
  it("gives the share that lines of sight find, whatever its shape", () => {
    const { worst, where, partly } = worstOf(even, HIDERS, OPENINGS);
    console.log(
      `openings behind solids: worst error ${(100 * worst).toFixed(3)} % (${where}), ${partly} partly hidden`,
    );
    expect(partly).toBeGreaterThan(90);
    expectAccuracy("hidden opening", worst, where.replace(/ from .*/, ""));
  });

  it("gives it of a narrow beam too", () => {
    const found = [24, 10].map((angle) =>
      worstOf(
        beam(angle, 1000, 0.5),
        HIDERS.filter(({ name }) => name === "drum" || name === "shelf edge"),
        [opening("disc", 0.3), opening("rectangle", 0.5, 0.12), opening("disc", 0.025)],
      ),
    );
    const { worst, where, partly } = found[0].worst > found[1].worst ? found[0] : found[1];
    console.log(
      `a narrow beam behind solids: worst error ${(100 * worst).toFixed(3)} % (${where}), ${partly} partly hidden`,
    );
    expect(partly).toBeGreaterThan(5);
    expectAccuracy("hidden opening, narrow beam", worst, where.replace(/ from .*/, ""));
  });
});
