/** Parts of a body of revolution: its two ends, and bands between by slope and height, in eighths. */

import { widened } from "../../geometry/solids.ts";
import { cross, normalize, subtract, type Vec3 } from "../../geometry/vector.ts";
import { AROUND, type BodyParts } from "./body-parts.ts";

type Ring = readonly [radius: number, z: number];
type ToRoom = (x: number, y: number, z: number) => Vec3;

/** Bands are no higher than this (m). */
const BAND = 0.13;
/** An end wider than this is in quarters (m, radius). */
const WIDE = 0.2;
const QUARTER = AROUND / 4;
/** Gauss on [0, 1], two nodes. */
const LOW = 0.5 - 0.5 / Math.sqrt(3);
const HIGH = 0.5 + 0.5 / Math.sqrt(3);
/** A polygon of equal area: as `revolved` makes it. */
const WIDEN = widened(AROUND);

/** Adds the outside of a body whose profile [radius, height], lower end first, is turned about its axis; `room` leads
 * from its frame into the room. Its lower lid, if it has one, reflects `lid`. */
export function addRoundParts(
  parts: BodyParts,
  profile: readonly Ring[],
  room: ToRoom,
  reflectance: number,
  lid: number,
): void {
  const rings = divided(profile);
  const runs = convexRuns(profile);
  const piece = (z: number) =>
    Math.max(
      0,
      runs.findIndex((run) => z <= run[run.length - 1][1]),
    );
  const round = new RoundParts(parts, room);
  const [first, last] = [rings[0], rings[rings.length - 1]];
  if (first[0] > 0) round.lid(first, -1, piece(first[1]), lid);
  for (const band of bands(rings)) round.band(band, piece, reflectance);
  if (last[0] > 0) round.lid(last, 1, piece(last[1]), reflectance);
}

class RoundParts {
  readonly #parts: BodyParts;
  readonly #room: ToRoom;

  constructor(parts: BodyParts, room: ToRoom) {
    this.#parts = parts;
    this.#room = room;
  }

  lid([radius, z]: Ring, side: 1 | -1, piece: number, reflectance: number): void {
    const parts = this.#parts;
    const normal = subtract(this.#room(0, 0, side), this.#room(0, 0, 0));
    const area = Math.PI * radius * radius;
    for (const [from, to] of sectors(radius)) {
      const part = parts.part(reflectance);
      const loop = Array.from({ length: to - from + 1 }, (_, k) => this.#corner(radius, z, from + k));
      const whole = to - from === AROUND;
      if (whole) loop.pop();
      else loop.push(this.#room(0, 0, z));
      parts.facet(part, piece, side === 1 ? loop : loop.reverse(), normal);
      const share = (area * (to - from)) / AROUND;
      const node = (square: number, turn: number, list = parts.nodes, count = whole ? 6 : 4) =>
        list.add(part, this.#around(radius * Math.sqrt(square), z, turn), normal, share / count);
      for (let k = 0; k < (whole ? 6 : 4); k++)
        node(
          k % 2 === 0 ? LOW : HIGH,
          whole ? (k * AROUND) / 6 : from + QUARTER * [0.25, 0.25, 0.75, 0.75][k],
        );
      for (let k = from; k < to; k++)
        for (const square of [1 / 6, 1 / 2, 5 / 6]) node(square, k + 0.5, parts.litNodes, 3 * (to - from));
    }
  }

  band(rings: readonly Ring[], piece: (z: number) => number, reflectance: number): void {
    const parts = this.#parts;
    const flat = Math.abs(slope(rings[0], rings[rings.length - 1])) > STEEP;
    const widest = Math.max(...rings.map(([radius]) => radius));
    for (const [from, to] of flat ? sectors(widest) : EIGHTHS) {
      const part = parts.part(reflectance);
      for (let i = 0; i + 1 < rings.length; i++) {
        const [a, b] = [rings[i], rings[i + 1]];
        const own = piece((a[1] + b[1]) / 2);
        for (let k = from; k < to; k++) {
          const loop = [
            ...(a[0] > 0
              ? [this.#corner(a[0], a[1], k), this.#corner(a[0], a[1], k + 1)]
              : [this.#room(0, 0, a[1])]),
            ...(b[0] > 0
              ? [this.#corner(b[0], b[1], k + 1), this.#corner(b[0], b[1], k)]
              : [this.#room(0, 0, b[1])]),
          ];
          const normal = normalOf(loop);
          parts.facet(part, own, loop, normal);
          const area = coneArea(a, b) / AROUND;
          parts.litNodes.add(part, this.#onFacet((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, k), normal, area);
        }
      }
      const total =
        (rings.slice(1).reduce((sum, b, i) => sum + coneArea(rings[i], b), 0) * (to - from)) / AROUND;
      const count = to - from === AROUND ? 8 : to - from;
      for (let k = 0; k < count; k++) {
        const at = k % 4 === 0 || k % 4 === 3 ? LOW : HIGH;
        const turn = from + Math.floor(((k + 0.5) * (to - from)) / count);
        const { ring, below, above } = atShare(rings, at);
        const loop = [
          this.#corner(below[0], below[1], turn),
          this.#corner(below[0], below[1], turn + 1),
          this.#corner(above[0], above[1], turn + 1),
          this.#corner(above[0], above[1], turn),
        ];
        parts.nodes.add(part, this.#onFacet(ring[0], ring[1], turn), normalOf(loop), total / count);
      }
    }
  }

  #corner(radius: number, z: number, turn: number): Vec3 {
    return this.#around(radius * WIDEN, z, turn);
  }

  /** The middle of a facet at a ring. */
  #onFacet(radius: number, z: number, turn: number): Vec3 {
    return this.#around(radius * WIDEN * Math.cos(Math.PI / AROUND), z, turn + 0.5);
  }

  #around(radius: number, z: number, turn: number): Vec3 {
    const angle = (2 * Math.PI * turn) / AROUND;
    return this.#room(radius * Math.cos(angle), radius * Math.sin(angle), z);
  }
}

type Sector = readonly [from: number, to: number];
const QUARTERS = [0, 1, 2, 3].map((q): Sector => [q * QUARTER, (q + 1) * QUARTER]);
/** Beside a luminous neighbour a quarter is too much: its middle is several times as bright as its ends. */
const EIGHTHS = [0, 1, 2, 3, 4, 5, 6, 7].map((q): Sector => [(q * QUARTER) / 2, ((q + 1) * QUARTER) / 2]);

function sectors(radius: number): readonly Sector[] {
  return radius > WIDE ? QUARTERS : [[0, AROUND]];
}

/** An end is what is nearer to level than this. */
const STEEP = 0.75;
const SLANTED = 0.25;

/** Upward share of the outward normal. */
function slope([r0, z0]: Ring, [r1, z1]: Ring): number {
  return (r0 - r1) / Math.hypot(r1 - r0, z1 - z0);
}

function bands(rings: readonly Ring[]): Ring[][] {
  const kind = (a: Ring, b: Ring) => {
    const s = slope(a, b);
    return s < -STEEP ? 0 : s < -SLANTED ? 1 : s <= SLANTED ? 2 : s <= STEEP ? 3 : 4;
  };
  const parts: Ring[][] = [];
  let last = -1;
  for (let i = 0; i + 1 < rings.length; i++) {
    const own = kind(rings[i], rings[i + 1]);
    const band = parts[parts.length - 1];
    if (own === last && band !== undefined && rings[i + 1][1] - band[0][1] <= BAND + 1e-9)
      band.push(rings[i + 1]);
    else parts.push([rings[i], rings[i + 1]]);
    last = own;
  }
  return parts;
}

/** No two rings further apart than a band is high. */
function divided(profile: readonly Ring[]): Ring[] {
  const rings: Ring[] = [profile[0]];
  for (let i = 1; i < profile.length; i++) {
    const [a, b] = [profile[i - 1], profile[i]];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (length < 1e-9) continue;
    const steps = Math.ceil(length / BAND - 1e-9);
    for (let k = 1; k <= steps; k++)
      rings.push([a[0] + ((b[0] - a[0]) * k) / steps, a[1] + ((b[1] - a[1]) * k) / steps]);
  }
  return rings;
}

/** Area of the cone between two rings (m²). */
function coneArea([r0, z0]: Ring, [r1, z1]: Ring): number {
  return Math.PI * (r0 + r1) * Math.hypot(r1 - r0, z1 - z0);
}

/** The ring below which a share of a band's area lies, and the segment it is in. */
function atShare(rings: readonly Ring[], share: number): { ring: Ring; below: Ring; above: Ring } {
  let total = 0;
  for (let i = 0; i + 1 < rings.length; i++) total += coneArea(rings[i], rings[i + 1]);
  let wanted = share * total;
  for (let i = 0; ; i++) {
    const [below, above] = [rings[i], rings[i + 1]];
    const area = coneArea(below, above);
    if (wanted > area && i + 2 < rings.length) {
      wanted -= area;
      continue;
    }
    // Area grows with the square of the radius along a cone.
    const part = Math.min(1, wanted / area);
    const [r0, r1] = [below[0], above[0]];
    const radius = Math.sqrt(r0 * r0 + part * (r1 * r1 - r0 * r0));
    const t = Math.abs(r1 - r0) < 1e-9 ? part : (radius - r0) / (r1 - r0);
    return { ring: [r0 + t * (r1 - r0), below[1] + t * (above[1] - below[1])], below, above };
  }
}

function normalOf(loop: readonly Vec3[]): Vec3 {
  const [a, b] = loop;
  const c = loop[loop.length - 1];
  const normal = cross(subtract(b, a), subtract(c, a));
  // A corner on the axis may be there twice.
  if (Math.hypot(...normal) > 1e-14) return normalize(normal);
  return normalize(cross(subtract(loop[2], b), subtract(c, b)));
}

/** A profile, lower end first, parted where it bends inward: each run turns to a convex solid. */
export function convexRuns(profile: readonly Ring[]): Ring[][] {
  const runs: Ring[][] = [];
  let run: Ring[] = [];
  for (const point of profile) {
    const [a, b] = run.slice(-2);
    if (b !== undefined && (point[0] - b[0]) * (b[1] - a[1]) > (b[0] - a[0]) * (point[1] - b[1]) + 1e-12) {
      runs.push(run);
      run = [b];
    }
    run.push(point);
  }
  runs.push(run);
  return runs.filter((each) => each.length > 1 && each[each.length - 1][1] - each[0][1] > 1e-9);
}
