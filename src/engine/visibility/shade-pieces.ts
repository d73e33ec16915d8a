/**
 * The share that a point sees of the light of a lamp in its shade, piece by piece: every ring of the shade in facets, the
 * lamp's outline in small cells, each with the light that it sends past the shade's own edges [`shade/shade-light.ts`]
 * and each cut by what stands in the way. Where the shade's own edge parts a piece from its neighbour, both are taken in
 * finer pieces.
 *
 * Mirror-like light is known by place only roughly: what the rings and the lamp do not give is taken to come evenly
 * from all mirror-like rings that the point sees.
 */

import type { Clipping } from "../../geometry/clipping.ts";
import { passedAlong, type RingPlace, ringPlace } from "../../geometry/revolved-surface.ts";
import type { SurfaceEmission } from "../../luminaire/emission.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { type LampSource, lawAt } from "../../luminaire/shade/lamp.ts";
import type { DirectSource } from "../direct/direct-source.ts";
import type { Receiver } from "../direct/receiver.ts";
import { ClippedShare } from "./clipped-share.ts";
import type { Facets } from "./facets.ts";
import { lampOutline, MOST_CELLS, MOST_CORNERS, outlineAxes } from "./lamp-outline.ts";
import { AROUND, type RingFacets, ringFacets, writePatch } from "./ring-facets.ts";

/** Finer pieces across and around a facet. */
const FINER_ACROSS = 2;
const FINER_AROUND = 2;
const SKIN = 1e-7;
/** Lamps beside the axis are spread over a ring of so many places. */
const LAMPS_AROUND = 24;
/** Instead of a share, of a facet that sends nothing or that an edge cuts: it parts no neighbours. */
const NONE = -1;

export class ShadePieces {
  readonly #placed: PlacedLuminaire;
  readonly #source: DirectSource;
  readonly #emission: SurfaceEmission;
  readonly #mirrorlike: boolean;
  readonly #rings: RingFacets;
  readonly #polygon = new Float64Array(3 * Math.max(4, MOST_CORNERS));
  /** What passes the shade from the middle of each facet, and of each cell of a lamp, to the point. */
  readonly #facetPassed: Float64Array;
  /** What is seen of each facet that something reaches the point from. */
  readonly #facetSeen: Float64Array;
  readonly #cellPassed = new Float64Array(MOST_CELLS);
  /** Two axes of a lamp's outline and the line of sight, local. */
  readonly #axes = new Float64Array(9);
  readonly #clippedShare = new ClippedShare();
  readonly #place: RingPlace = { r: 0, z: 0, nr: 0, nz: 0, area: 0 };
  /** The point in the room and local, what it weighs and what stands in its way. */
  #x = 0;
  #y = 0;
  #z = 0;
  #px = 0;
  #py = 0;
  #pz = 0;
  #receiver!: Receiver;
  #clipping!: Clipping;
  /** Light at the point (lx), and what of it is seen; of mirror-like rings as if of unit exitance. */
  #all = 0;
  #seen = 0;
  #mirrors = 0;
  #mirrorsSeen = 0;
  /** Of the side of a ring that was weighed last, and whether that is the outside. */
  #exitance = 0;
  #outside = false;

  constructor(placed: PlacedLuminaire, source: DirectSource, emission: SurfaceEmission) {
    this.#placed = placed;
    this.#source = source;
    this.#emission = emission;
    this.#mirrorlike = emission.light.assembly.materials.some(({ specular }) => specular > 0);
    this.#rings = ringFacets(emission, placed.frame);
    this.#facetPassed = new Float64Array(this.#rings.area.length);
    this.#facetSeen = new Float64Array(this.#rings.area.length);
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
    this.#x = x;
    this.#y = y;
    this.#z = z;
    this.#px = px;
    this.#py = py;
    this.#pz = pz;
    this.#receiver = receiver;
    this.#clipping = clipping;
    this.#all = 0;
    this.#seen = 0;
    this.#mirrors = 0;
    this.#mirrorsSeen = 0;
    this.#addRings();
    const { light, size } = this.#emission;
    for (const lamp of light.assembly.lamps) {
      const places = lamp.radius > 0 ? LAMPS_AROUND : 1;
      const lz = size * (lamp.z - light.assembly.centre);
      for (let k = 0; k < places; k++) {
        const azimuth = (2 * Math.PI * k) / places;
        const r = size * lamp.radius;
        this.#addLamp(lamp, 1 / places, r * Math.cos(azimuth), r * Math.sin(azimuth), lz);
      }
    }
    if (this.#mirrorlike && this.#mirrors > 0) {
      const rest = Math.max(0, this.#source.illuminance(px, py, pz, receiver, 0) - this.#all);
      this.#all += rest;
      this.#seen += (rest * this.#mirrorsSeen) / this.#mirrors;
    }
    return this.#all > 0 ? Math.min(1, this.#seen / this.#all) : 1;
  }

  #addRings(): void {
    const passed = this.#facetPassed;
    const seen = this.#facetSeen;
    const { middle: m, normal: n, area, neighbours } = this.#rings;
    for (let f = 0; f < passed.length; f++) {
      const k = 3 * f;
      const unit = this.#unit(f, m[k], m[k + 1], m[k + 2], n[k], n[k + 1], n[k + 2], area[f]);
      passed[f] = unit === 0 ? NONE : this.#passedFromRing(f, m[k], m[k + 1], m[k + 2]);
    }
    for (let f = 0; f < passed.length; f++)
      seen[f] = passed[f] > 0 || parted(passed, f, neighbours[f]) ? this.#seenOf(f) : NONE;
    for (let f = 0; f < passed.length; f++) {
      const k = 3 * f;
      const whole = parted(seen, f, neighbours[f]) ? NONE : seen[f];
      if (parted(passed, f, neighbours[f]) || (passed[f] > 0 && whole === NONE)) {
        this.#addFinely(f, whole);
      } else if (passed[f] > 0) {
        const unit = this.#unit(f, m[k], m[k + 1], m[k + 2], n[k], n[k + 1], n[k + 2], area[f]);
        this.#addRing(f, unit * passed[f], whole);
      }
    }
  }

  /** Adds a facet in finer pieces, of which `whole` is seen, or each by itself. */
  #addFinely(f: number, whole: number): void {
    const { light, size } = this.#emission;
    const { surface, centre } = light.assembly;
    const place = this.#place;
    const sector = (2 * Math.PI) / AROUND;
    for (let i = 0; i < FINER_ACROSS; i++) {
      ringPlace(surface, this.#rings.ring[f], (i + 0.5) / FINER_ACROSS, place);
      const r = size * place.r;
      const z = size * (place.z - centre);
      const area = (size * size * place.area) / (FINER_ACROSS * FINER_AROUND * AROUND);
      for (let j = 0; j < FINER_AROUND; j++) {
        const azimuth = sector * ((f % AROUND) + (j + 0.5) / FINER_AROUND);
        const c = Math.cos(azimuth);
        const s = Math.sin(azimuth);
        let unit = this.#unit(f, r * c, r * s, z, place.nr * c, place.nr * s, place.nz, area);
        if (unit > 0) unit *= this.#passedFromRing(f, r * c, r * s, z);
        if (unit > 0)
          this.#addRing(
            f,
            unit,
            whole === NONE ? this.#seenOfPatch(f, j, i, FINER_AROUND, FINER_ACROSS) : whole,
          );
      }
    }
  }

  /** What the receiver would read, of unit exitance, of an area of facet f's ring at the local place m with the normal n;
   * 0 of what sends nothing. Keeps the exitance of the side that it sees. */
  #unit(
    f: number,
    mx: number,
    my: number,
    mz: number,
    nx: number,
    ny: number,
    nz: number,
    area: number,
  ): number {
    const { assembly, inwardExitance, outwardExitance } = this.#emission.light;
    const ring = this.#rings.ring[f];
    const vx = this.#px - mx;
    const vy = this.#py - my;
    const vz = this.#pz - mz;
    const dd = vx * vx + vy * vy + vz * vz;
    const facing = nx * vx + ny * vy + nz * vz;
    this.#outside = facing > 0;
    this.#exitance = this.#outside ? outwardExitance[ring] : inwardExitance[ring];
    if (this.#exitance === 0 && !(assembly.materials[ring].specular > 0)) return 0;
    return (Math.abs(facing) * area * this.#receiver.weight(vx, vy, vz, dd)) / (Math.PI * dd * dd);
  }

  /** Adds the light of a part of facet f, just weighed. */
  #addRing(f: number, unit: number, share: number): void {
    const { light, size, strength } = this.#emission;
    const E = (strength * this.#exitance * unit) / (size * size);
    this.#all += E;
    this.#seen += E * share;
    if (!(light.assembly.materials[this.#rings.ring[f]].specular > 0)) return;
    this.#mirrors += unit;
    this.#mirrorsSeen += unit * share;
  }

  /** Adds the light of a lamp at a local place, `share` of its flux, to the sums. */
  #addLamp(lamp: LampSource, share: number, lx: number, ly: number, lz: number): void {
    const { cells, fine, neighbours, filling } = lampOutline(lamp);
    const passed = this.#cellPassed;
    outlineAxes(lamp, this.#px - lx, this.#py - ly, this.#pz - lz, this.#axes);
    for (let f = 0; f < cells.count; f++) passed[f] = this.#passedFromCell(lamp, cells, f, lx, ly, lz);
    for (let f = 0; f < cells.count; f++)
      if (!parted(passed, f, neighbours[f])) this.#addCell(lamp, share * passed[f], cells, f, lx, ly, lz);
      else
        for (const g of filling[f])
          this.#addCell(lamp, share * this.#passedFromCell(lamp, fine, g, lx, ly, lz), fine, g, lx, ly, lz);
  }

  /** Share that passes the shade from cell f of a lamp's outline. */
  #passedFromCell(
    lamp: LampSource,
    { centre }: Facets,
    f: number,
    lx: number,
    ly: number,
    lz: number,
  ): number {
    const reach = this.#emission.size * lamp.size;
    const u = reach * centre[3 * f];
    const v = reach * centre[3 * f + 1];
    const axes = this.#axes;
    // Lines of sight start on a sphere's surface, before its outline.
    const along =
      lamp.shape === "sphere" ? Math.sqrt(Math.max(0, reach * reach - u * u - v * v)) * (1 + 1e-6) : 0;
    return this.#passedFrom(
      lx + u * axes[0] + v * axes[3] + along * axes[6],
      ly + u * axes[1] + v * axes[4] + along * axes[7],
      lz + u * axes[2] + v * axes[5] + along * axes[8],
    );
  }

  /** Adds the light of cell f of a lamp's outline, `share` of the flux of all cells. */
  #addCell(
    lamp: LampSource,
    share: number,
    cells: Facets,
    f: number,
    lx: number,
    ly: number,
    lz: number,
  ): void {
    if (share === 0) return;
    const { size, strength } = this.#emission;
    const reach = size * lamp.size;
    const axes = this.#axes;
    const u = reach * cells.centre[3 * f];
    const v = reach * cells.centre[3 * f + 1];
    const vx = this.#px - lx - u * axes[0] - v * axes[3];
    const vy = this.#py - ly - u * axes[1] - v * axes[4];
    const vz = this.#pz - lz - u * axes[2] - v * axes[5];
    const dd = vx * vx + vy * vy + vz * vz;
    const d = Math.sqrt(dd);
    const weight = this.#receiver.weight(vx, vy, vz, dd) / d;
    const value = lawAt(lamp.law, Math.acos(Math.min(1, Math.max(-1, -vz / d))));
    if (weight === 0 || value === 0) return;
    const E = (strength * share * lamp.flux * lamp.count * value * weight * cells.area[f]) / dd;
    this.#all += E;
    this.#seen += E * this.#seenOfCell(cells, f, reach, lx, ly, lz);
  }

  /** The same from a local place on facet f's ring, whose side was weighed last. */
  #passedFromRing(f: number, lx: number, ly: number, lz: number): number {
    const { outermost, ring, sealed } = this.#rings;
    if (this.#outside && outermost[ring[f]]) return 1;
    return !this.#outside && sealed ? 0 : this.#passedFrom(lx, ly, lz);
  }

  /** Share that the shade itself lets pass from a local place to the point. */
  #passedFrom(lx: number, ly: number, lz: number): number {
    const { light, size } = this.#emission;
    const { surface, straight, centre } = light.assembly;
    return passedAlong(
      surface,
      straight,
      lx / size,
      ly / size,
      lz / size + centre,
      (this.#px - lx) / size,
      (this.#py - ly) / size,
      (this.#pz - lz) / size,
      SKIN,
      1,
    );
  }

  /** Visible share of a facet; NONE where an edge cuts it. */
  #seenOf(f: number): number {
    const { place, radius } = this.#rings;
    const k = 3 * f;
    const lost = this.#clipping.hidden(
      place[k] - this.#x,
      place[k + 1] - this.#y,
      place[k + 2] - this.#z,
      radius[f],
    );
    return lost === "part" ? NONE : lost === "all" ? 0 : 1;
  }

  /** Visible share of one patch of a facet, the i-th of m around and the j-th of n across. */
  #seenOfPatch(f: number, i: number, j: number, m: number, n: number): number {
    const polygon = this.#polygon;
    writePatch(this.#rings, f, i / m, (i + 1) / m, j / n, (j + 1) / n, polygon);
    for (let k = 0; k < 12; k += 3) {
      polygon[k] -= this.#x;
      polygon[k + 1] -= this.#y;
      polygon[k + 2] -= this.#z;
    }
    return this.#clippedShare.of(polygon, 4, this.#clipping);
  }

  /** Visible share of cell f of a lamp's outline about a local place. */
  #seenOfCell(
    { corners, start }: Facets,
    f: number,
    reach: number,
    lx: number,
    ly: number,
    lz: number,
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
      this.#polygon[to++] = r[0] * qx + r[3] * qy + r[6] * qz + origin[0] - this.#x;
      this.#polygon[to++] = r[1] * qx + r[4] * qy + r[7] * qz + origin[1] - this.#y;
      this.#polygon[to++] = r[2] * qx + r[5] * qy + r[8] * qz + origin[2] - this.#z;
    }
    return this.#clippedShare.of(this.#polygon, to / 3, this.#clipping);
  }
}

/** Whether what passes or is seen parts piece f from one of its neighbours. */
function parted(share: Float64Array, f: number, neighbours: readonly number[]): boolean {
  if (share[f] === NONE) return false;
  for (const other of neighbours) if (share[other] !== NONE && share[other] !== share[f]) return true;
  return false;
}
