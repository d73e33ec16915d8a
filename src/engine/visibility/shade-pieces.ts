/**
 * The share that a point sees of the light of a lamp in its shade, piece by piece: every ring of the shade in facets, the
 * lamp's outline in small cells, each with the light that it sends past the shade's own edges [`shade/shade-light.ts`]
 * and each cut by what stands in the way.
 *
 * Mirror-like light is known by place only roughly: what the rings and the lamp do not give is taken to come evenly
 * from all mirror-like rings that the point sees.
 */

import type { Clipping } from "../../geometry/clipping.ts";
import { passedAlong, type RingPlace, ringArea, ringPlace } from "../../geometry/revolved-surface.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { SurfaceEmission } from "../../luminaire/near-field.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { type LampSource, lawAt } from "../../luminaire/shade/lamp.ts";
import type { DirectSource } from "../direct/direct-source.ts";
import type { Receiver } from "../direct/receiver.ts";
import { type Facets, facetsOf, inRoom } from "./facets.ts";
import { discFacets, lineFacets, widened } from "./opening-facets.ts";

const AROUND = 24;
const SKIN = 1e-7;
/** Lamps beside the axis are spread over a ring of so many places. */
const LAMPS_AROUND = 24;
/** A lamp's outline, and that of one of many, about its middle in units of its size. */
const DISC = discFacets(4);
const SMALL_DISC = discFacets(1);
const FILAMENT = lineFacets(48, 0.002);

export class ShadePieces {
  readonly #placed: PlacedLuminaire;
  readonly #source: DirectSource;
  readonly #emission: SurfaceEmission;
  readonly #mirrorlike: boolean;
  readonly #facets: Facets;
  /** Ring of each facet, and of what it stands for the middle, on the ring itself, unit normal and area, local. */
  readonly #ring: readonly number[];
  readonly #middle: Float64Array;
  readonly #normal: Float64Array;
  readonly #area: Float64Array;
  readonly #polygon = new Float64Array(3 * Math.max(4, DISC.most, SMALL_DISC.most));
  /** Two axes of a lamp's outline and the line of sight, local. */
  readonly #axes = new Float64Array(9);
  #all = 0;
  #seen = 0;
  #seenArea = 0;
  #hiddenArea = 0;

  constructor(placed: PlacedLuminaire, source: DirectSource, emission: SurfaceEmission) {
    this.#placed = placed;
    this.#source = source;
    this.#emission = emission;
    const { light, size } = emission;
    const { assembly, inwardExitance, outwardExitance } = light;
    const mirrors = assembly.materials.map(({ specular }) => specular > 0);
    this.#mirrorlike = mirrors.some((mirror) => mirror);
    const rings: number[] = [];
    const polygons: Vec3[][] = [];
    const middles: number[] = [];
    const normals: number[] = [];
    const areas: number[] = [];
    const place: RingPlace = { r: 0, z: 0, nr: 0, nz: 0, area: 0 };
    for (let i = 0; i < assembly.surface.count; i++) {
      if (inwardExitance[i] === 0 && outwardExitance[i] === 0 && !mirrors[i]) continue;
      const { r0, r1 } = assembly.surface;
      // The wider half of a ring holds more of its area.
      ringPlace(
        assembly.surface,
        i,
        r0[i] + r1[i] > 0 ? (r0[i] + 2 * r1[i]) / (3 * (r0[i] + r1[i])) : 0.5,
        place,
      );
      ringFacets(emission, i).forEach((polygon, k) => {
        const c = Math.cos((2 * Math.PI * (k + 0.5)) / AROUND);
        const s = Math.sin((2 * Math.PI * (k + 0.5)) / AROUND);
        polygons.push(polygon);
        middles.push(size * place.r * c, size * place.r * s, size * (place.z - assembly.centre));
        normals.push(place.nr * c, place.nr * s, place.nz);
        areas.push((size * size * ringArea(assembly.surface, i)) / AROUND);
        rings.push(i);
      });
    }
    this.#ring = rings;
    this.#middle = Float64Array.from(middles);
    this.#normal = Float64Array.from(normals);
    this.#area = Float64Array.from(areas);
    this.#facets = inRoom(facetsOf(polygons), placed.frame);
  }

  /** Visible share of the light at the room point (x, y, z), local (px, py, pz), past what `clipping` holds. */
  visibleShare(
    x: number,
    y: number,
    z: number,
    px: number,
    py: number,
    pz: number,
    receiver: Receiver,
    clipping: Clipping,
  ): number {
    let all = 0;
    let seen = 0;
    let mirrors = 0;
    let mirrorsSeen = 0;
    const { light, size, strength } = this.#emission;
    const { assembly, inwardExitance, outwardExitance } = light;
    const middle = this.#middle;
    const normal = this.#normal;
    const area = this.#area;
    const level = strength / (size * size);
    for (let f = 0; f < area.length; f++) {
      const k = 3 * f;
      const ring = this.#ring[f];
      const vx = px - middle[k];
      const vy = py - middle[k + 1];
      const vz = pz - middle[k + 2];
      const dd = vx * vx + vy * vy + vz * vz;
      const facing = normal[k] * vx + normal[k + 1] * vy + normal[k + 2] * vz;
      const exitance = facing > 0 ? outwardExitance[ring] : inwardExitance[ring];
      const mirror = assembly.materials[ring].specular > 0;
      const weight = receiver.weight(vx, vy, vz, dd);
      if ((exitance === 0 && !mirror) || weight === 0) continue;
      // What of it the receiver would read, of unit exitance.
      const unit =
        ((Math.abs(facing) * area[f] * weight) / (Math.PI * dd * dd)) *
        this.#passed(middle[k], middle[k + 1], middle[k + 2], vx, vy, vz);
      if (unit === 0) continue;
      const share = this.#seenOf(f, x, y, z, clipping);
      const E = level * exitance * unit;
      all += E;
      seen += E * share;
      if (!mirror) continue;
      mirrors += unit;
      mirrorsSeen += unit * share;
    }
    this.#all = all;
    this.#seen = seen;
    for (const lamp of assembly.lamps) {
      const places = lamp.radius > 0 ? LAMPS_AROUND : 1;
      const lz = size * (lamp.z - assembly.centre);
      for (let k = 0; k < places; k++) {
        const azimuth = (2 * Math.PI * k) / places;
        const lx = size * lamp.radius * Math.cos(azimuth);
        const ly = size * lamp.radius * Math.sin(azimuth);
        this.#addLamp(lamp, 1 / places, lx, ly, lz, x, y, z, px, py, pz, receiver, clipping);
      }
    }
    all = this.#all;
    seen = this.#seen;
    if (this.#mirrorlike && mirrors > 0) {
      const rest = Math.max(0, this.#source.illuminance(px, py, pz, receiver, 0) - all);
      all += rest;
      seen += (rest * mirrorsSeen) / mirrors;
    }
    return all > 0 ? Math.min(1, seen / all) : 1;
  }

  /** Adds the light of a lamp at a local place, `share` of its flux, to the sums. */
  #addLamp(
    lamp: LampSource,
    share: number,
    lx: number,
    ly: number,
    lz: number,
    x: number,
    y: number,
    z: number,
    px: number,
    py: number,
    pz: number,
    receiver: Receiver,
    clipping: Clipping,
  ): void {
    const { size, strength } = this.#emission;
    const cells = lamp.shape === "filament" ? FILAMENT : lamp.radius > 0 ? SMALL_DISC : DISC;
    const reach = size * lamp.size;
    const axes = this.#axes;
    outlineAxes(lamp, px - lx, py - ly, pz - lz, axes);
    let whole = 0;
    for (const area of cells.area) whole += area;
    for (let f = 0; f < cells.count; f++) {
      const u = reach * cells.centre[3 * f];
      const v = reach * cells.centre[3 * f + 1];
      const qx = lx + u * axes[0] + v * axes[3];
      const qy = ly + u * axes[1] + v * axes[4];
      const qz = lz + u * axes[2] + v * axes[5];
      const vx = px - qx;
      const vy = py - qy;
      const vz = pz - qz;
      const dd = vx * vx + vy * vy + vz * vz;
      const d = Math.sqrt(dd);
      const weight = receiver.weight(vx, vy, vz, dd) / d;
      const value = lawAt(lamp.law, Math.acos(Math.min(1, Math.max(-1, -vz / d))));
      if (weight === 0 || value === 0) continue;
      // Lines of sight start on a sphere's surface, before its outline.
      const along =
        lamp.shape === "sphere" ? Math.sqrt(Math.max(0, reach * reach - u * u - v * v)) * (1 + 1e-6) : 0;
      const fx = along * axes[6];
      const fy = along * axes[7];
      const fz = along * axes[8];
      const passed = this.#passed(qx + fx, qy + fy, qz + fz, vx - fx, vy - fy, vz - fz);
      if (passed === 0) continue;
      const E =
        (strength * share * lamp.flux * lamp.count * value * passed * weight * cells.area[f]) / (whole * dd);
      this.#all += E;
      this.#seen += E * this.#seenOfCell(cells, f, reach, lx, ly, lz, x, y, z, clipping);
    }
  }

  /** Share that the shade itself lets pass from a local place along v. */
  #passed(lx: number, ly: number, lz: number, vx: number, vy: number, vz: number): number {
    const { light, size } = this.#emission;
    const { surface, straight, centre } = light.assembly;
    return passedAlong(
      surface,
      straight,
      lx / size,
      ly / size,
      lz / size + centre,
      vx / size,
      vy / size,
      vz / size,
      SKIN,
      1,
    );
  }

  /** Visible share of a facet. */
  #seenOf(f: number, x: number, y: number, z: number, clipping: Clipping): number {
    const { corners, start, centre, radius } = this.#facets;
    const k = 3 * f;
    const lost = clipping.hidden(centre[k] - x, centre[k + 1] - y, centre[k + 2] - z, radius[f]);
    if (lost !== "part") return lost === "all" ? 0 : 1;
    const polygon = this.#polygon;
    let to = 0;
    for (let i = 3 * start[f]; i < 3 * start[f + 1]; i += 3) {
      polygon[to++] = corners[i] - x;
      polygon[to++] = corners[i + 1] - y;
      polygon[to++] = corners[i + 2] - z;
    }
    return this.#clipped(polygon, to / 3, clipping);
  }

  /** Visible share of cell f of a lamp's outline about a local place. */
  #seenOfCell(
    { corners, start }: Facets,
    f: number,
    reach: number,
    lx: number,
    ly: number,
    lz: number,
    x: number,
    y: number,
    z: number,
    clipping: Clipping,
  ): number {
    const { rotation: r, origin } = this.#placed.frame;
    const axes = this.#axes;
    let to = 0;
    for (let i = 3 * start[f]; i < 3 * start[f + 1]; i += 3) {
      const u = reach * corners[i];
      const v = reach * corners[i + 1];
      const qx = lx + u * axes[0] + v * axes[3];
      const qy = ly + u * axes[1] + v * axes[4];
      const qz = lz + u * axes[2] + v * axes[5];
      this.#polygon[to++] = r[0] * qx + r[3] * qy + r[6] * qz + origin[0] - x;
      this.#polygon[to++] = r[1] * qx + r[4] * qy + r[7] * qz + origin[1] - y;
      this.#polygon[to++] = r[2] * qx + r[5] * qy + r[8] * qz + origin[2] - z;
    }
    return this.#clipped(this.#polygon, to / 3, clipping);
  }

  #clipped(polygon: Float64Array, count: number, clipping: Clipping): number {
    this.#seenArea = 0;
    this.#hiddenArea = 0;
    clipping.clip(polygon, count, this.#addSeen, this.#addHidden);
    if (this.#hiddenArea === 0) return 1;
    return this.#seenArea / (this.#seenArea + this.#hiddenArea);
  }

  readonly #addSeen = (v: Float64Array, offset: number, count: number, share: number): void => {
    this.#seenArea += share * areaOf(v, offset, count);
  };

  readonly #addHidden = (
    v: Float64Array,
    offset: number,
    count: number,
    share: number,
    body: number,
  ): void => {
    if (body >= 0) this.#hiddenArea += share * areaOf(v, offset, count);
  };
}

/** Axes of a lamp's outline as seen along (x, y, z) from it, and that direction: of a sphere across it, of a disc level, of
 * a filament across and along itself. */
function outlineAxes({ shape }: LampSource, x: number, y: number, z: number, out: Float64Array): void {
  const d = Math.hypot(x, y, z);
  const level = Math.hypot(x, y);
  const ax = level > 1e-9 * d ? -y / level : 1;
  const ay = level > 1e-9 * d ? x / level : 0;
  out.set([ax, ay, 0, 0, 0, 1, x / d, y / d, z / d]);
  if (shape === "disc") out.set([-ay, ax, 0], 3);
  else if (shape === "sphere") out.set([(-z * ay) / d, (z * ax) / d, (x * ay - y * ax) / d], 3);
}

function areaOf(v: Float64Array, offset: number, count: number): number {
  const o = 3 * offset;
  let x = 0;
  let y = 0;
  let z = 0;
  for (let i = o + 3; i < o + 3 * (count - 1); i += 3) {
    const ax = v[i] - v[o];
    const ay = v[i + 1] - v[o + 1];
    const az = v[i + 2] - v[o + 2];
    const bx = v[i + 3] - v[o];
    const by = v[i + 4] - v[o + 1];
    const bz = v[i + 5] - v[o + 2];
    x += ay * bz - az * by;
    y += az * bx - ax * bz;
    z += ax * by - ay * bx;
  }
  return Math.sqrt(x * x + y * y + z * z) / 2;
}

/** Ring i in flat facets about the photometric centre, outside first. */
function ringFacets({ light, size }: SurfaceEmission, i: number): Vec3[][] {
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
