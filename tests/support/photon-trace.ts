/**
 * Light by brute force: photons from luminaires, reflected by chance until they are absorbed, counted where they
 * land. Shares nothing with the engine but the description of the scene: plain loops over polygons and triangles,
 * no factors, no hierarchy, no patches.
 */
import { cross, dot, normalize, subtract, type Vec3 } from "../../src/geometry/vector.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { randomStream } from "./random-stream.ts";

export interface PhotonCount {
  /** Mean illuminance of each surface of the scene (lx), and its standard error. */
  readonly illuminance: Float64Array;
  readonly standardError: Float64Array;
  /** The part that came straight from a luminaire. */
  readonly direct: Float64Array;
  readonly photons: number;
}

interface Facet {
  readonly origin: Vec3;
  readonly normal: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  /** Loops in (u, v), even-odd. */
  readonly loops: readonly (readonly (readonly [number, number])[])[];
  readonly reflectance: number;
  /** Index of the surface, or −1 − blocker for a body. */
  readonly owner: number;
  readonly low: Vec3;
  readonly high: Vec3;
}

/** Traces `photons` per scene. Luminaires are rotational; their openings are points or horizontal discs that send
 * the distribution from every element. `bodyReflectance` is that of pendants. */
export function tracePhotons(
  scene: Scene,
  photons: number,
  seed: number,
  bodyReflectance: number,
): PhotonCount {
  const random = randomStream(seed);
  const facets = facetsOf(scene, bodyReflectance);
  const sources = scene.layers.flatMap(({ luminaires }, layer) =>
    luminaires.map(({ luminaire, frame }, index) => ({
      origin: frame.origin,
      radius: luminaire.emission.opening.length / 2,
      flux: luminaire.flux,
      sample: polarSampler(luminaire.distribution.vertical, luminaire.distribution.intensity),
      own: scene.blockers.findIndex(({ owner }) => owner?.[0] === layer && owner[1] === index),
    })),
  );
  const total = sources.reduce((sum, { flux }) => sum + flux, 0);
  const n = scene.surfaces.length;
  const hits = new Float64Array(n);
  const squares = new Float64Array(n);
  const directHits = new Float64Array(n);
  const mine = new Float64Array(n);
  for (const source of sources) {
    const count = Math.round((photons * source.flux) / total);
    const weight = source.flux / count;
    for (let k = 0; k < count; k++) {
      const touched: number[] = [];
      const spread = source.radius * Math.sqrt(random());
      const angle = 2 * Math.PI * random();
      let from: Vec3 = [
        source.origin[0] + spread * Math.cos(angle),
        source.origin[1] + spread * Math.sin(angle),
        source.origin[2],
      ];
      const gamma = source.sample((k + random()) / count);
      const C = 2 * Math.PI * random();
      let direction: Vec3 = [Math.sin(gamma) * Math.cos(C), Math.sin(gamma) * Math.sin(C), -Math.cos(gamma)];
      let pass = source.own >= 0 ? -1 - source.own : Number.NaN;
      for (let bounce = 0; ; bounce++) {
        const hit = nearest(facets, from, direction, pass);
        if (hit === undefined) break;
        const { facet } = hit;
        if (facet.owner >= 0) {
          if (mine[facet.owner] === 0) touched.push(facet.owner);
          mine[facet.owner] += weight;
          if (bounce === 0) directHits[facet.owner] += weight;
        }
        if (random() >= facet.reflectance) break;
        pass = Number.NaN;
        const side = dot(direction, facet.normal) < 0 ? 1 : -1;
        from = hit.at.map((x, c) => x + 1e-7 * side * facet.normal[c]) as unknown as Vec3;
        direction = cosineDirection(facet, side, random(), random());
      }
      for (const s of touched) {
        hits[s] += mine[s];
        squares[s] += mine[s] * mine[s];
        mine[s] = 0;
      }
    }
  }
  const areas = scene.surfaces.map(({ vertices, holes, normal }) =>
    [vertices, ...holes].reduce((sum, loop) => sum + loopArea(loop, normal), 0),
  );
  return {
    illuminance: hits.map((h, s) => h / areas[s]),
    // Photons are independent: the variance of a sum is the sum of squares less the (small) square of the mean.
    standardError: squares.map(
      (q, s) => Math.sqrt(Math.max(0, q - (hits[s] * hits[s]) / photons)) / areas[s],
    ),
    direct: directHits.map((h, s) => h / areas[s]),
    photons,
  };
}

function facetsOf(scene: Scene, bodyReflectance: number): Facet[] {
  const facets = scene.surfaces.map(({ vertices, holes, normal, reflectance }, s) =>
    facetOf([vertices, ...holes], normal, reflectance, s),
  );
  scene.blockers.forEach(({ kind, mesh }, b) => {
    // Faces of what stands still are surfaces already.
    if (kind !== "pendant" && kind !== "person") return;
    for (let t = 0; t < mesh.triangles.length; t += 3) {
      const [p, q, r] = [0, 1, 2].map((k): Vec3 => {
        const at = 3 * mesh.triangles[t + k];
        return [mesh.positions[at], mesh.positions[at + 1], mesh.positions[at + 2]];
      });
      const normal = normalize(cross(subtract(q, p), subtract(r, p)));
      facets.push(facetOf([[p, q, r]], normal, bodyReflectance, -1 - b));
    }
  });
  return facets;
}

function facetOf(
  loops: readonly (readonly Vec3[])[],
  normal: Vec3,
  reflectance: number,
  owner: number,
): Facet {
  const origin = loops[0][0];
  const u = normalize(subtract(loops[0][1], origin));
  const v = cross(normal, u);
  const all = loops[0];
  return {
    origin,
    normal,
    u,
    v,
    loops: loops.map((loop) =>
      loop.map((p) => [dot(subtract(p, origin), u), dot(subtract(p, origin), v)] as const),
    ),
    reflectance,
    owner,
    low: [0, 1, 2].map((k) => Math.min(...all.map((p) => p[k])) - 1e-9) as unknown as Vec3,
    high: [0, 1, 2].map((k) => Math.max(...all.map((p) => p[k])) + 1e-9) as unknown as Vec3,
  };
}

function nearest(
  facets: readonly Facet[],
  from: Vec3,
  direction: Vec3,
  pass: number,
): { facet: Facet; at: Vec3 } | undefined {
  let best = Infinity;
  let found: Facet | undefined;
  for (const facet of facets) {
    if (facet.owner === pass) continue;
    const along =
      direction[0] * facet.normal[0] + direction[1] * facet.normal[1] + direction[2] * facet.normal[2];
    // Room and furniture reflect on one side only; bodies are closed, so one side is enough there too.
    if (along >= 0) continue;
    const t =
      ((facet.origin[0] - from[0]) * facet.normal[0] +
        (facet.origin[1] - from[1]) * facet.normal[1] +
        (facet.origin[2] - from[2]) * facet.normal[2]) /
      along;
    if (!(t > 1e-9) || t >= best) continue;
    const x = from[0] + t * direction[0];
    const y = from[1] + t * direction[1];
    const z = from[2] + t * direction[2];
    const { low, high } = facet;
    if (x < low[0] || x > high[0] || y < low[1] || y > high[1] || z < low[2] || z > high[2]) continue;
    const dx = x - facet.origin[0];
    const dy = y - facet.origin[1];
    const dz = z - facet.origin[2];
    const a = dx * facet.u[0] + dy * facet.u[1] + dz * facet.u[2];
    const b = dx * facet.v[0] + dy * facet.v[1] + dz * facet.v[2];
    if (!inside(facet.loops, a, b)) continue;
    best = t;
    found = facet;
  }
  if (found === undefined) return undefined;
  return {
    facet: found,
    at: [from[0] + best * direction[0], from[1] + best * direction[1], from[2] + best * direction[2]],
  };
}

function inside(loops: Facet["loops"], x: number, y: number): boolean {
  let odd = false;
  for (const loop of loops)
    for (let i = 0, j = loop.length - 1; i < loop.length; j = i++) {
      const [ax, ay] = loop[i];
      const [bx, by] = loop[j];
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) odd = !odd;
    }
  return odd;
}

function cosineDirection({ u, v, normal }: Facet, side: number, a: number, b: number): Vec3 {
  const r = Math.sqrt(a);
  const x = r * Math.cos(2 * Math.PI * b);
  const y = r * Math.sin(2 * Math.PI * b);
  const z = side * Math.sqrt(1 - a);
  return [0, 1, 2].map((k) => x * u[k] + y * v[k] + z * normal[k]) as unknown as Vec3;
}

/** γ by the inverse of its cumulative flux ∫ I sin γ dγ, on a fine grid of the tabulated values. */
function polarSampler(vertical: Float64Array, intensity: Float64Array): (u: number) => number {
  const steps = 20_000;
  const first = vertical[0];
  const last = vertical[vertical.length - 1];
  const cumulative = new Float64Array(steps + 1);
  let v = 0;
  for (let k = 0; k < steps; k++) {
    const gamma = first + ((k + 0.5) / steps) * (last - first);
    while (v + 2 < vertical.length && vertical[v + 1] < gamma) v++;
    const t = (gamma - vertical[v]) / (vertical[v + 1] - vertical[v]);
    const I = (1 - t) * intensity[v] + t * intensity[v + 1];
    cumulative[k + 1] = cumulative[k] + I * Math.sin(gamma);
  }
  return (u) => {
    const wanted = u * cumulative[steps];
    let lo = 0;
    let hi = steps;
    while (hi - lo > 1) {
      const middle = (lo + hi) >> 1;
      if (cumulative[middle] <= wanted) lo = middle;
      else hi = middle;
    }
    const t = (wanted - cumulative[lo]) / (cumulative[hi] - cumulative[lo]);
    return first + ((lo + t) / steps) * (last - first);
  };
}

function loopArea(loop: readonly Vec3[], normal: Vec3): number {
  let sum = 0;
  loop.forEach((a, i) => {
    sum += dot(cross(a, loop[(i + 1) % loop.length]), normal);
  });
  return sum / 2;
}
