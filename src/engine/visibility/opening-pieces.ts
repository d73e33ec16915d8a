/**
 * The share of an opening's light that a point sees: facet by facet what the part seen sends, over what all of it sends,
 *   E = A I(v) cos ξ / d² of a flat opening,   E = A n·v I(v) cos ξ / (A_p(v) d²) of a body,
 * A the area of the part and v from its centroid to the point, as the elements of `direct/` are weighed. Area and
 * centroid do not depend on the order in which solids cut the facet.
 */

import type { Clipping } from "../../geometry/clipping.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import type { OpeningQuadrature } from "../direct/opening-quadrature.ts";
import type { Receiver } from "../direct/receiver.ts";
import { type Facets, inRoom } from "./facets.ts";
import { openingFacets } from "./opening-facets.ts";

/** Rings of facets, from what is far and even to what is near or varies much over the opening. */
const RINGS = [3, 4, 6, 9, 14, 20] as const;
/** Share of its distance that the opening's radius may be for the first, and the second. */
const FAR = [0.2, 0.5] as const;
/** Least over greatest intensity towards the point, from the ends of the opening, under which facets are smaller by a step
 * each. */
const EVEN = [0.6, 0.3, 0.1, 0.01] as const;

/** A part is what is seen of a facet, all of it above the horizon, or both where nothing is hidden. */
const SEEN = 0;
const ALL = 1;
const WHOLE = 2;

export class OpeningPieces {
  readonly #placed: PlacedLuminaire;
  readonly #emitter: OpeningQuadrature;
  readonly #facets = new Map<number, Facets>();
  #inHand!: Facets;
  #facet = 0;
  #polygon = new Float64Array(3 * 16);
  /** Area, and area times position from the point (m², m³), of what is seen of the facet in hand and what is hidden. */
  readonly #seen = new Float64Array(4);
  readonly #hidden = new Float64Array(4);
  /** Parts: vector from centroid to point in the luminaire's frame, inverse distance, value, and what it is. */
  #vectors = new Float64Array(3 * 512);
  #inverse = new Float64Array(512);
  #values = new Float64Array(512);
  #part = new Uint8Array(512);
  #count = 0;

  constructor(placed: PlacedLuminaire, emitter: OpeningQuadrature) {
    this.#placed = placed;
    this.#emitter = emitter;
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
    const facets = this.#facetsFor(px, py, pz);
    const { corners, start, normal, centre, area, radius } = facets;
    const flat = this.#emitter.flat;
    const seen = this.#seen;
    const hidden = this.#hidden;
    this.#inHand = facets;
    this.#reserve(2 * facets.count, 3 * facets.most);
    this.#count = 0;
    const polygon = this.#polygon;
    for (let f = 0; f < facets.count; f++) {
      const k = 3 * f;
      const height =
        normal[k] * (x - centre[k]) +
        normal[k + 1] * (y - centre[k + 1]) +
        normal[k + 2] * (z - centre[k + 2]);
      if (!flat && height <= 0) continue;
      const dx = centre[k] - x;
      const dy = centre[k + 1] - y;
      const dz = centre[k + 2] - z;
      const lost = clipping.hidden(dx, dy, dz, radius[f]);
      if (lost !== "part") {
        seen[0] = area[f];
        seen[1] = area[f] * dx;
        seen[2] = area[f] * dy;
        seen[3] = area[f] * dz;
        this.#put(seen, height, receiver, lost === "all" ? ALL : WHOLE);
        continue;
      }
      this.#facet = f;
      seen.fill(0);
      hidden.fill(0);
      let to = 0;
      for (let i = 3 * start[f]; i < 3 * start[f + 1]; i += 3) {
        polygon[to++] = corners[i] - x;
        polygon[to++] = corners[i + 1] - y;
        polygon[to++] = corners[i + 2] - z;
      }
      clipping.clip(polygon, to / 3, this.#addSeen, this.#addHidden);
      const isCut = hidden[0] > 0;
      if (seen[0] > 0) this.#put(seen, height, receiver, isCut ? SEEN : WHOLE);
      if (!isCut) continue;
      for (let c = 0; c < 4; c++) hidden[c] += seen[c];
      this.#put(hidden, height, receiver, ALL);
    }
    this.#emitter.lookup.multiply(this.#vectors, this.#inverse, this.#values, this.#count);
    return this.#sum();
  }

  #sum(): number {
    let all = 0;
    let seen = 0;
    for (let i = 0; i < this.#count; i++) {
      const part = this.#part[i];
      if (part !== SEEN) all += this.#values[i];
      if (part !== ALL) seen += this.#values[i];
    }
    return all > 0 ? Math.min(1, seen / all) : 1;
  }

  #facetsFor(px: number, py: number, pz: number): Facets {
    const { surface, lookup } = this.#emitter;
    const near = surface.radius / Math.sqrt(px * px + py * py + pz * pz);
    let least = Infinity;
    let most = 0;
    for (let end = -1; end <= 1; end += 2)
      for (let axis = 0; axis < 3; axis++) {
        const shift = end * surface.half[axis];
        const I = lookup.towards(
          px - (axis === 0 ? shift : 0),
          py - (axis === 1 ? shift : 0),
          pz - (axis === 2 ? shift : 0),
        );
        least = Math.min(least, I);
        most = Math.max(most, I);
      }
    const step =
      FAR.filter((share) => near > share).length + EVEN.filter((share) => least < share * most).length;
    const rings = RINGS[Math.min(step, RINGS.length - 1)];
    let facets = this.#facets.get(rings);
    if (facets === undefined) {
      facets = inRoom(openingFacets(surface, rings), this.#placed.frame);
      this.#facets.set(rings, facets);
    }
    return facets;
  }

  readonly #addSeen = (v: Float64Array, offset: number, count: number, share: number): void => {
    this.#add(v, offset, count, share, this.#seen);
  };

  readonly #addHidden = (
    v: Float64Array,
    offset: number,
    count: number,
    share: number,
    body: number,
  ): void => {
    // What lies below the horizon is no part of the light.
    if (body >= 0) this.#add(v, offset, count, share, this.#hidden);
  };

  /** Adds `share` of a piece of the facet in hand to its area and moments. */
  #add(v: Float64Array, offset: number, count: number, share: number, to: Float64Array): void {
    const { normal } = this.#inHand;
    const k = 3 * this.#facet;
    const nx = normal[k];
    const ny = normal[k + 1];
    const nz = normal[k + 2];
    const o = 3 * offset;
    const ox = v[o];
    const oy = v[o + 1];
    const oz = v[o + 2];
    for (let i = o + 3; i < o + 3 * (count - 1); i += 3) {
      const ax = v[i] - ox;
      const ay = v[i + 1] - oy;
      const az = v[i + 2] - oz;
      const bx = v[i + 3] - ox;
      const by = v[i + 4] - oy;
      const bz = v[i + 5] - oz;
      const a =
        0.5 * share * (nx * (ay * bz - az * by) + ny * (az * bx - ax * bz) + nz * (ax * by - ay * bx));
      to[0] += a;
      to[1] += a * (ox + (ax + bx) / 3);
      to[2] += a * (oy + (ay + by) / 3);
      to[3] += a * (oz + (az + bz) / 3);
    }
  }

  /** Notes the light of a part of the facet in hand, `height` below the point. */
  #put(part: Float64Array, height: number, receiver: Receiver, what: number): void {
    const area = part[0];
    const cx = -part[1] / area;
    const cy = -part[2] / area;
    const cz = -part[3] / area;
    const r = this.#placed.frame.rotation;
    const x = r[0] * cx + r[1] * cy + r[2] * cz;
    const y = r[3] * cx + r[4] * cy + r[5] * cz;
    const z = r[6] * cx + r[7] * cy + r[8] * cz;
    const dd = x * x + y * y + z * z;
    const inverse = 1 / Math.sqrt(dd);
    const { surface, flat } = this.#emitter;
    // n·v is the point's height over the facet wherever on it.
    const weight = flat ? area : (area * height) / surface.projectedArea(x, y, z);
    const n = this.#count++;
    this.#vectors[3 * n] = x;
    this.#vectors[3 * n + 1] = y;
    this.#vectors[3 * n + 2] = z;
    this.#inverse[n] = inverse;
    this.#values[n] = weight * receiver.weight(x, y, z, dd) * inverse * inverse * inverse;
    this.#part[n] = what;
  }

  #reserve(parts: number, corners: number): void {
    if (this.#polygon.length < corners) this.#polygon = new Float64Array(corners);
    if (this.#values.length >= parts) return;
    this.#vectors = new Float64Array(3 * parts);
    this.#inverse = new Float64Array(parts);
    this.#values = new Float64Array(parts);
    this.#part = new Uint8Array(parts);
  }
}
