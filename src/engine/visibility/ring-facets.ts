/**
 * The rings of a shade that send light, in flat facets: what of each is seen is found by clipping the facet, what it sends
 * from its middle on the ring itself.
 */

import { type Frame, pointToRoom } from "../../geometry/frame.ts";
import {
  type RevolvedSurface,
  type RingPlace,
  ringArea,
  ringPlace,
} from "../../geometry/revolved-surface.ts";
import { widened } from "../../geometry/solids.ts";
import { length, subtract, type Vec3 } from "../../geometry/vector.ts";
import type { SurfaceEmission } from "../../luminaire/emission.ts";
import type { Assembly } from "../../luminaire/shade/assembly.ts";
import { type Facets, facetsOf, inRoom, neighboursOf } from "./facets.ts";

/** Facets of a ring. */
export const AROUND = 24;

export interface RingFacets {
  /** In the room. */
  readonly facets: Facets;
  /** Middle of what each facet stands for, in the room, and the radius of a sphere about it that holds the facet (m). */
  readonly place: Float64Array;
  readonly radius: Float64Array;
  readonly neighbours: readonly (readonly number[])[];
  /** Ring of each facet, and of what it stands for the middle, on the ring itself, unit normal and area, local (m, m²). */
  readonly ring: readonly number[];
  readonly middle: Float64Array;
  readonly normal: Float64Array;
  readonly area: Float64Array;
  /** Of each ring of the surface, whether no other stands before its outside. */
  readonly outermost: readonly boolean[];
  /** Whether nothing from within passes the shade unscattered. */
  readonly sealed: boolean;
  /** Whether a facet of three corners has one of them at the ring's start, on the axis. */
  readonly startsOnAxis: readonly boolean[];
}

export function ringFacets(emission: SurfaceEmission, frame: Frame): RingFacets {
  const { light, size } = emission;
  const { assembly, inwardExitance, outwardExitance } = light;
  const { r0, r1 } = assembly.surface;
  const ring: number[] = [];
  const polygons: Vec3[][] = [];
  const middle: number[] = [];
  const normal: number[] = [];
  const area: number[] = [];
  const place: RingPlace = { r: 0, z: 0, nr: 0, nz: 0, area: 0 };
  for (let i = 0; i < assembly.surface.count; i++) {
    if (inwardExitance[i] === 0 && outwardExitance[i] === 0 && !(assembly.materials[i].specular > 0))
      continue;
    // The wider half of a ring holds more of its area.
    const t = r0[i] + r1[i] > 0 ? (r0[i] + 2 * r1[i]) / (3 * (r0[i] + r1[i])) : 0.5;
    ringPlace(assembly.surface, i, t, place);
    polygonsOf(emission, i).forEach((polygon, k) => {
      const c = Math.cos((2 * Math.PI * (k + 0.5)) / AROUND);
      const s = Math.sin((2 * Math.PI * (k + 0.5)) / AROUND);
      polygons.push(polygon);
      middle.push(size * place.r * c, size * place.r * s, size * (place.z - assembly.centre));
      normal.push(place.nr * c, place.nr * s, place.nz);
      area.push((size * size * ringArea(assembly.surface, i)) / AROUND);
      ring.push(i);
    });
  }
  const local = facetsOf(polygons);
  const places = polygons.map((_, f): Vec3 => [middle[3 * f], middle[3 * f + 1], middle[3 * f + 2]]);
  return {
    facets: inRoom(local, frame),
    place: Float64Array.from(places.flatMap((place) => pointToRoom(frame, place))),
    radius: Float64Array.from(polygons, (polygon, f) =>
      Math.max(...polygon.map((corner) => length(subtract(corner, places[f])))),
    ),
    neighbours: neighboursOf(local),
    ring,
    middle: Float64Array.from(middle),
    normal: Float64Array.from(normal),
    area: Float64Array.from(area),
    outermost: outermostRings(assembly.surface),
    sealed: isSealed(assembly),
    startsOnAxis: ring.map((i) => !(r0[i] > 0)),
  };
}

/** Places along a ring, with its ends, at which it is held against others. */
const ALONG = 4;

/** Of each ring, whether all rings lie behind its tangent planes. */
function outermostRings(surface: RevolvedSurface): boolean[] {
  const places = Array.from({ length: surface.count }, (_, i) =>
    Array.from({ length: ALONG + 1 }, (_, k) => {
      const place: RingPlace = { r: 0, z: 0, nr: 0, nz: 0, area: 0 };
      ringPlace(surface, i, k / ALONG, place);
      return place;
    }),
  );
  return places.map((own) =>
    own.every(({ r, z, nr, nz }) => {
      const level = nr * r + nz * z + 1e-9;
      return places.every((others) => others.every((p) => Math.abs(nr) * p.r + nz * p.z <= level));
    }),
  );
}

/** Whether a shade is drawn from axis to axis of what lets nothing pass straight. */
function isSealed({ surface: { r0, r1, z0, z1 }, straight, shadeCount: n }: Assembly): boolean {
  if (!(n > 0 && r0[0] === 0 && r1[n - 1] === 0)) return false;
  for (let i = 0; i < n; i++)
    if (straight[i] > 0 || (i > 0 && (r0[i] !== r1[i - 1] || z0[i] !== z1[i - 1]))) return false;
  return true;
}

/** Writes the corners, in the room, of the patch of facet f from share u0 to u1 around and v0 to v1 across. */
export function writePatch(
  { facets, startsOnAxis }: RingFacets,
  f: number,
  u0: number,
  u1: number,
  v0: number,
  v1: number,
  out: Float64Array,
): void {
  const { corners, start } = facets;
  const a = 3 * start[f];
  // On the axis both corners of a pair are one.
  const three = start[f + 1] - start[f] === 3;
  const b = three && startsOnAxis[f] ? a : a + 3;
  const c = b + 3;
  const d = three && !startsOnAxis[f] ? c : c + 3;
  for (let k = 0; k < 3; k++) {
    const low0 = corners[a + k] + u0 * (corners[b + k] - corners[a + k]);
    const low1 = corners[a + k] + u1 * (corners[b + k] - corners[a + k]);
    const high0 = corners[d + k] + u0 * (corners[c + k] - corners[d + k]);
    const high1 = corners[d + k] + u1 * (corners[c + k] - corners[d + k]);
    out[k] = low0 + v0 * (high0 - low0);
    out[3 + k] = low1 + v0 * (high1 - low1);
    out[6 + k] = low1 + v1 * (high1 - low1);
    out[9 + k] = low0 + v1 * (high0 - low0);
  }
}

/** Ring i in flat facets about the photometric centre, outside first. */
function polygonsOf({ light, size }: SurfaceEmission, i: number): Vec3[][] {
  const { surface, centre } = light.assembly;
  const wide = size * widened(AROUND);
  const at = (r: number, z: number, k: number): Vec3 => [
    wide * r * Math.cos((2 * Math.PI * k) / AROUND),
    wide * r * Math.sin((2 * Math.PI * k) / AROUND),
    size * (z - centre),
  ];
  const { r0, z0, r1, z1 } = surface;
  return Array.from({ length: AROUND }, (_, k) => {
    const low = [at(r0[i], z0[i], k), at(r0[i], z0[i], k + 1)];
    const high = [at(r1[i], z1[i], k + 1), at(r1[i], z1[i], k)];
    // On the axis both corners are one.
    return [...low.slice(r0[i] > 0 ? 0 : 1), ...high.slice(r1[i] > 0 ? 0 : 1)];
  });
}
