/** The light of a lamp in its shade behind solids, against lines of sight from the rings of the shade and the lamp, fifty
 * thousand of each or more: the share that passes within 0.5 % of the light without the solids. */
import { describe, expect, it } from "vitest";
import { DirectSources } from "../../src/engine/direct/direct-sources.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { frame } from "../../src/geometry/frame.ts";
import { passedAlong, ringPlace } from "../../src/geometry/revolved-surface.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { Body } from "../../src/luminaire/body.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import { type LampDefinition, lawAt } from "../../src/luminaire/shade/lamp.ts";
import { shadeLuminaire } from "../../src/luminaire/shade/shade-luminaire.ts";
import { luminaireBlockers } from "../../src/scene/luminaire-blockers.ts";
import type { Blocker, Scene } from "../../src/scene/scene.ts";
import { expectAccuracy } from "../evidence/expect-accuracy.ts";
import { ball, block, frustum, type Gauge, passesThrough } from "../support/convex-oracle.ts";
import { luminaire, plane, rotational, scene } from "../support/luminaires.ts";
import { randomStream } from "../support/random-stream.ts";
import { plainShade } from "../support/shades.ts";
import { boxMesh } from "../support/solids.ts";

const LAMP: Vec3 = [0, 0, 1.2];

const frosted: LampDefinition = {
  flux: 800,
  finish: "frosted",
  diameter: 0.06,
  orientation: "base-up",
  z: 0.1,
};
const clear: LampDefinition = { ...frosted, finish: "clear", filamentLength: 0.05 };

const made = (name: string, shade: ReturnType<typeof plainShade>, lamp: LampDefinition): Luminaire =>
  shadeLuminaire(shade, [lamp], { name, origin: name, accuracy: { axial: 0.05, ratio: 0.02 } }).luminaire;

const SHADES: readonly Luminaire[] = [
  made(
    "opal globe",
    plainShade("globe", 0.25, 0.25, 0, { inside: 0.4, outside: 0.3, transmittance: 0.5, diffusion: 1 }),
    frosted,
  ),
  made("white dome", plainShade("dome", 0.3, 0.2, 0, { inside: 0.8 }), frosted),
  made("black cone with a filament", plainShade("cone", 0.25, 0.25, 0.05, { inside: 0.05 }), clear),
  made(
    "linen drum",
    plainShade("drum", 0.35, 0.2, 0.35, { inside: 0.5, outside: 0.5, transmittance: 0.3, diffusion: 1 }),
    frosted,
  ),
];

const even = luminaire(rotational((γ) => 1 + Math.cos(γ), 5));
const hung = (body: Body, at: Vec3) => ({ luminaire: { ...even, body }, frame: frame(at) });
const black = { offset: 0, reflectance: 0, transmittance: 0 };
interface Hider {
  readonly name: string;
  readonly blockers?: readonly Blocker[];
  readonly pendant?: ReturnType<typeof hung>;
  readonly gauges: readonly Gauge[];
}
const HIDERS: readonly Hider[] = [
  {
    name: "shelf edge",
    blockers: [
      { name: "shelf", kind: "body", mesh: boxMesh([0.1, -4, 0.5], [3, 4, 0.53]), transmittance: 0 },
    ],
    gauges: [block([0.1, -4, 0.5], [3, 4, 0.53])],
  },
  {
    name: "drum",
    pendant: hung({ profile: "drum", diameter: 0.3, height: 0.2, ...black }, [0.15, 0.05, 0.45]),
    gauges: [frustum([0.15, 0.05, 0.45], 0.15, 0.15, 0.2)],
  },
  {
    name: "globe",
    pendant: hung({ profile: "globe", diameter: 0.2, height: 0.2, ...black }, [0.15, 0.05, 0.55]),
    gauges: [ball([0.15, 0.05, 0.55], 0.1)],
  },
];

/** Opaque shades that cut off their own light within a worktop's reach. */
const OPAQUE: readonly Luminaire[] = [
  made("tube with a filament", plainShade("drum", 0.12, 0.25, 0.12, { inside: 0.8 }), clear),
  made("narrow cone", plainShade("cone", 0.15, 0.25, 0.05, { inside: 0.8 }), { ...frosted, z: 0.04 }),
  made("wide cone", plainShade("cone", 0.45, 0.15, 0.05, { inside: 0.8 }), frosted),
  made("deep dome", plainShade("dome", 0.22, 0.3, 0, { inside: 0.5 }), frosted),
];

/** A box with an edge before the middle of a lamp, as seen from a place on the worktop: of a person who stands there, or
 * of a shelf. */
function randomEdge(random: () => number): { readonly p: Vec3; readonly hider: Hider } {
  const far = 0.05 + 1.2 * random();
  const turn = 2 * Math.PI * random();
  const p: Vec3 = [far * Math.cos(turn), far * Math.sin(turn), 0];
  const aim: Vec3 = [0.2 * random() - 0.1, 0.2 * random() - 0.1, LAMP[2] + 0.05];
  const t = 0.25 + 0.5 * random();
  const [x, y, z] = [0, 1, 2].map((k) => p[k] + t * (aim[k] - p[k]));
  const name = random() < 0.5 ? "person" : "shelf";
  const extent = name === "person" ? { x: 0.5, y: 0.3 } : { x: 3, y: 8 };
  const x0 = random() < 0.5 ? x : x - extent.x;
  const y0 = name === "shelf" ? y - extent.y / 2 : random() < 0.5 ? y : y - extent.y;
  const crown = Math.min(LAMP[2] - 0.05, z + (random() < 0.5 ? 0 : 0.2));
  const low: Vec3 = [x0, y0, name === "person" ? -0.9 : z];
  const high: Vec3 = [x0 + extent.x, y0 + extent.y, name === "person" ? crown : z + 0.03];
  const blocker: Blocker = { name, kind: "body", mesh: boxMesh(low, high), transmittance: 0 };
  return { p, hider: { name, blockers: [blocker], gauges: [block(low, high)] } };
}

/** Places of a plane low-discrepancy sequence, and turns by its second coordinate: the same for every ring and point. */
const PLACES = Array.from({ length: 100_000 }, (_, k) => {
  const [s, t] = [((k + 1) * 0.7548776662466927) % 1, ((k + 1) * 0.5698402909980532) % 1];
  return { s, cos: Math.cos(2 * Math.PI * t), sin: Math.sin(2 * Math.PI * t) };
});

/** Light (lx, any scale) at p on a level plane from places on rings and lamp, and what of it passes the gauges. */
function byRays({ emission }: Luminaire, p: Vec3, gauges: readonly Gauge[], places: number, hungAt = LAMP) {
  if (emission.kind !== "surfaces") throw new Error("no surfaces");
  const { assembly, inwardExitance, outwardExitance } = emission.light;
  const { surface, straight, centre } = assembly;
  let all = 0;
  let seen = 0;
  const add = (at: Vec3, E: number) => {
    const q: Vec3 = [at[0] + hungAt[0], at[1] + hungAt[1], at[2] - centre + hungAt[2]];
    all += E;
    if (!gauges.some((gauge) => passesThrough(gauge, p, q))) seen += E;
  };
  const to: Vec3 = [p[0] - hungAt[0], p[1] - hungAt[1], p[2] - hungAt[2] + centre];
  const own = ([x, y, z]: Vec3, v: Vec3) =>
    passedAlong(surface, straight, x, y, z, v[0], v[1], v[2], 1e-7, 1);
  for (let i = 0; i < surface.count; i++) {
    if (inwardExitance[i] === 0 && outwardExitance[i] === 0) continue;
    const place = { r: 0, z: 0, nr: 0, nz: 0, area: 0 };
    const n = Math.ceil(places / surface.count);
    for (let k = 0; k < n; k++) {
      const { s, cos, sin } = PLACES[k];
      ringPlace(surface, i, s, place);
      const at: Vec3 = [place.r * cos, place.r * sin, place.z];
      const v: Vec3 = [to[0] - at[0], to[1] - at[1], to[2] - at[2]];
      const facing = place.nr * (cos * v[0] + sin * v[1]) + place.nz * v[2];
      const M = facing > 0 ? outwardExitance[i] : inwardExitance[i];
      const height = -v[2];
      if (M === 0 || height > 0 === false) continue;
      const dd = v[0] * v[0] + v[1] * v[1] + v[2] * v[2];
      const passed = own(at, v);
      if (passed > 0)
        add(at, ((place.area / n) * M * Math.abs(facing) * height * passed) / (Math.PI * dd * dd));
    }
  }
  for (const lamp of assembly.lamps) {
    const n = places;
    // The outline of a sphere as p sees it.
    const u: Vec3 = [to[0], to[1], to[2] - lamp.z];
    const d = Math.hypot(...u);
    const w: Vec3 = [u[0] / d, u[1] / d, u[2] / d];
    const h = Math.hypot(w[0], w[1]);
    const a: Vec3 = [-w[1] / h, w[0] / h, 0];
    const b: Vec3 = [w[1] * a[2] - w[2] * a[1], w[2] * a[0] - w[0] * a[2], w[0] * a[1] - w[1] * a[0]];
    for (let k = 0; k < n; k++) {
      const { s, cos, sin } = PLACES[k];
      let at: Vec3 = [0, 0, lamp.z + lamp.size * (2 * s - 1)];
      let start = at;
      if (lamp.shape === "sphere") {
        // A place of its outline; the sight line starts on the sphere.
        const rr = lamp.size * Math.sqrt(s);
        const [c1, c2] = [rr * cos, rr * sin];
        const out = Math.sqrt(lamp.size ** 2 - rr * rr) * (1 + 1e-6) + 1e-9;
        at = [c1 * a[0] + c2 * b[0], c1 * a[1] + c2 * b[1], lamp.z + c1 * a[2] + c2 * b[2]];
        start = [at[0] + out * w[0], at[1] + out * w[1], at[2] + out * w[2]];
      }
      const v: Vec3 = [to[0] - at[0], to[1] - at[1], to[2] - at[2]];
      const dd = v[0] * v[0] + v[1] * v[1] + v[2] * v[2];
      const value = lawAt(lamp.law, Math.acos(-v[2] / Math.sqrt(dd)));
      const passed = own(start, [to[0] - start[0], to[1] - start[1], to[2] - start[2]]);
      if (passed > 0 && value > 0)
        add(at, ((lamp.flux * value * passed) / n) * (-v[2] / (dd * Math.sqrt(dd))));
    }
  }
  return { all, seen };
}

function sceneOf({ blockers = [], pendant }: Hider, lamp: Luminaire, points: readonly Vec3[]): Scene {
  const given = scene(
    [[{ luminaire: lamp, frame: frame(LAMP) }], pendant === undefined ? [] : [pendant]],
    [plane(points)],
  );
  return { ...given, blockers: [...blockers, ...luminaireBlockers(given.layers)] };
}

/** The near field of each shade is tabulated once; it takes longer than the light of a scene. */
const sources = new DirectSources();

const directOf = (given: Scene, occlusion = true) =>
  new LightEngine(sources).calculate(given, { interreflection: false, occlusion }).planes[0].layers[0].direct;

describe("a lamp in its shade partly hidden by a solid", () => {
  it("gives the share that lines of sight find", () => {
    let worst = 0;
    let where = "";
    let partly = 0;
    for (const lamp of SHADES)
      for (const hider of HIDERS) {
        const points = [0.03, 0.1, 0.17].map((x): Vec3 => [x, 0.04 + 0.3 * x, 0]);
        const given = sceneOf(hider, lamp, points);
        const found = directOf(given);
        const clear = directOf(given, false);
        points.forEach((p, k) => {
          const { all, seen } = byRays(lamp, p, hider.gauges, 50_000);
          if (all === 0) return;
          if (seen > 0.02 * all && seen < 0.98 * all) partly++;
          const error = Math.abs(found[k] / clear[k] - seen / all);
          if (error > worst) {
            worst = error;
            where = `${lamp.name} behind ${hider.name} at x = ${p[0]}: ${(found[k] / clear[k]).toFixed(4)} for ${(seen / all).toFixed(4)}`;
          }
        });
      }
    console.log(
      `shades behind solids: worst error ${(100 * worst).toFixed(2)} % (${where}), ${partly} partly hidden`,
    );
    expect(partly).toBeGreaterThan(15);
    expectAccuracy("hidden shade", worst, where.replace(/ at x .*/, ""));
  });

  it("gives it at random edges of people and shelves", () => {
    const random = randomStream(7);
    let worst = 0;
    let where = "";
    let partly = 0;
    for (const lamp of OPAQUE)
      for (let n = 0; n < 40; n++) {
        const { p, hider } = randomEdge(random);
        // Whole in sight or hidden whole by a twentieth of the lines, which know the share to 1 %: none of those judged.
        const rough = byRays(lamp, p, hider.gauges, 5000);
        if (!(rough.seen > 0.005 * rough.all && rough.seen < 0.995 * rough.all)) continue;
        const { all, seen } = byRays(lamp, p, hider.gauges, 100_000);
        if (!(seen > 0.02 * all && seen < 0.98 * all)) continue;
        partly++;
        const given = sceneOf(hider, lamp, [p]);
        const found = directOf(given)[0] / directOf(given, false)[0];
        const error = Math.abs(found - seen / all);
        if (error <= worst) continue;
        worst = error;
        where = `${lamp.name} behind ${hider.name} at ${Math.hypot(p[0], p[1]).toFixed(2)} m: ${found.toFixed(4)} for ${(seen / all).toFixed(4)}`;
      }
    console.log(
      `shades behind random edges: worst error ${(100 * worst).toFixed(2)} % (${where}), ${partly} partly hidden`,
    );
    expect(partly).toBeGreaterThan(60);
    expectAccuracy("hidden shade", worst, where.replace(/ at .*/, ""));
  });

  it("gives it of globes that stand in one another", () => {
    const globe = SHADES[0];
    if (globe.emission.kind !== "surfaces") throw new Error("no surfaces");
    const radius = 0.125;
    // Two that share most of their room, one that cuts both, one that touches nobody.
    const places = [0, 0.06, 0.2, 0.46].map((x): Vec3 => [x, 0, LAMP[2]]);
    const middle = radius - globe.emission.light.assembly.centre;
    const points = [-0.4, 0.03, 0.16, 0.5, 0.9].map((x): Vec3 => [x, 0.2, 0]);
    const layers = places.map((at) => [{ luminaire: globe, frame: frame(at) }]);
    const bare = scene(layers, [plane(points)]);
    const given: Scene = { ...bare, blockers: luminaireBlockers(bare.layers) };
    const engine = new LightEngine(sources);
    const lightOf = (occlusion: boolean) =>
      engine.calculate(given, { interreflection: false, occlusion }).planes[0].layers;
    const found = lightOf(true);
    const clear = lightOf(false);
    let worst = 0;
    let where = "";
    places.forEach((at, i) => {
      const others = places.filter((_, k) => k !== i);
      const gauges = others.map(([x, y, z]) => ball([x, y, z + middle], radius));
      points.forEach((p, k) => {
        const { all, seen } = byRays(globe, p, gauges, 100_000, at);
        const share = found[i].direct[k] / clear[i].direct[k];
        const error = Math.abs(share - seen / all);
        if (error <= worst) return;
        worst = error;
        where = `globe at ${at[0]} m from x = ${p[0]}: ${share.toFixed(4)} for ${(seen / all).toFixed(4)}`;
      });
    });
    console.log(`globes in one another: worst error ${(100 * worst).toFixed(2)} % (${where})`);
    expectAccuracy("hidden shade", worst, "opal globe in another");
  });

  it("changes half as much between points half as far apart", () => {
    for (const lamp of SHADES) {
      const jump = (n: number) => {
        const points = Array.from({ length: n + 1 }, (_, k): Vec3 => [-0.05 + (0.4 * k) / n, 0.01, 0]);
        const E = directOf(sceneOf(HIDERS[0], lamp, points));
        return Math.max(...E.subarray(1).map((value, k) => Math.abs(value - E[k])));
      };
      expect(jump(240) / jump(120)).toBeLessThan(0.65);
    }
  });
});
