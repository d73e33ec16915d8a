/**
 * The book: all that the shaders must know of a scene's light, as records of four floats in one texture.
 *
 *   chapter        records a piece
 *   Gauss nodes    n: node 0…1, weight; rules of 1 … {@link MOST_NODES} nodes one after the other
 *   distributions  3: type, planes, angles, first cell | first plane, first angle, planes and angles per step |
 *                  least and greatest plane and angle; then a record an angle (this, next, 1 / difference), a record a
 *                  cell (I00, I01, I10, I11)
 *   luminaires     8: see `luminaireRecords`
 *   solids         3: least corner, kind | greatest corner, transmittance | first, count, triangles; then planes, or
 *                  nodes of the hierarchy and its triangles
 *   pairs          1 a surface and luminaire: first of the list of solids that can stand between, how many, lit or not
 *
 * Nothing here depends on dimming or maintenance; key of a book: luminaires in their places, solids, surfaces.
 */

import { openingSurface } from "../../engine/direct/opening-surface.ts";
import { boxOfMesh, boxOfPoints, shaftMeetsBox } from "../../geometry/box.ts";
import { convexSolid } from "../../geometry/convex-solid.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import { VisibilityTree } from "../../geometry/visibility-tree.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { gaussLegendre } from "../../numerics/quadrature.ts";
import type { IntensityDistribution } from "../../photometry/intensity-distribution.ts";
import type { Blocker, Scene } from "../../scene/scene.ts";

export const BOOK_WIDTH = 1024;
/** A disc of twelve rings asks for no rule longer than this. */
export const MOST_NODES = 12;
/** Layers kept apart, one a channel. */
export const SLOTS = 4;

/** Kinds as `shaders/light/opening.glsl` numbers them. */
const KINDS = {
  point: 0,
  "flat rectangle": 1,
  "flat disc": 2,
  box: 3,
  ellipsoid: 4,
  cylinder: 5,
} as const;
const TYPES = { A: 0, B: 1, C: 2 } as const;

/** Steps of an angle list this even count as one step (rad). */
const EVEN = 1e-9;

export interface LightBook {
  /** Records, rows of {@link BOOK_WIDTH}. */
  readonly data: Float32Array;
  readonly rows: number;
  readonly gauss: number;
  readonly luminaires: number;
  readonly luminaireCount: number;
  readonly solids: number;
  /** Pairs of surface s and luminaire i at `pairs + s * luminaireCount + i`; the last row is of no surface: every
   * solid may stand between. */
  readonly pairs: number;
  readonly rowOfAnything: number;
  /** Row in which every solid may stand between but the one of that index: `rowWithout + index`. */
  readonly rowWithout: number;
  /** Index among the book's solids of each blocker of the scene, −1 for what is left out. */
  readonly solidOf: readonly number[];
  /** Record of the distribution and of the luminaire itself, per luminaire in the order of the layers. */
  readonly placed: readonly { readonly layer: number; readonly index: number; readonly record: number }[];
  /** How each layer's light is stored: its channel, or all in the first, weighted already. */
  readonly slotOfLayer: readonly number[];
  /** Luminaires whose light near by cannot be told from here: it must be given as a field. */
  readonly traced: number;
  /** Elements, samples and solids of the scene, for what a frame costs. */
  readonly solidCount: number;
}

export interface BookOptions {
  readonly people: boolean;
  /** Take what is traced from lamp and shade by its far field from the opening, for lack of anything better. */
  readonly approximate?: boolean;
}

class Writer {
  #data = new Float32Array(4 * 4096);
  #length = 0;

  get length(): number {
    return this.#length;
  }

  put(a: number, b = 0, c = 0, d = 0): number {
    if (4 * this.#length === this.#data.length) {
      const more = new Float32Array(2 * this.#data.length);
      more.set(this.#data);
      this.#data = more;
    }
    this.#data.set([a, b, c, d], 4 * this.#length);
    return this.#length++;
  }

  /** Overwrites floats of a record from its `part` on. */
  amend(index: number, part: number, ...values: readonly number[]): void {
    this.#data.set(values, 4 * index + part);
  }

  finish(): { data: Float32Array; rows: number } {
    const rows = Math.max(1, Math.ceil(this.#length / BOOK_WIDTH));
    const data = new Float32Array(4 * rows * BOOK_WIDTH);
    data.set(this.#data.subarray(0, 4 * this.#length));
    return { data, rows };
  }
}

/** Writes the book of a scene. */
export function lightBook(scene: Scene, { people, approximate = false }: BookOptions): LightBook {
  const writer = new Writer();
  const gauss = writer.length;
  for (let n = 1; n <= MOST_NODES; n++) {
    const { nodes, weights } = gaussLegendre(n);
    for (let i = 0; i < n; i++) writer.put(nodes[i], weights[i]);
  }

  const blockers = scene.blockers
    .filter(({ kind }) => people || kind !== "person")
    .flatMap((blocker) => (blocker.kind === "person" ? partsOf(blocker) : [blocker]));
  const solids = writeSolids(writer, blockers);

  const folded = scene.layers.length > SLOTS;
  const distributions = new Map<IntensityDistribution, number>();
  const list = scene.layers.flatMap(({ luminaires, dim }, layer) =>
    luminaires.map((placed, index) => ({ placed, layer, index, share: folded ? dim : 1 })),
  );
  const litHere = ({ luminaire }: PlacedLuminaire): boolean =>
    approximate || luminaire.emission.kind === "opening";
  const shown = list;
  for (const { placed } of shown) {
    const { distribution } = placed.luminaire;
    if (!distributions.has(distribution))
      distributions.set(distribution, writeDistribution(writer, distribution));
  }
  const luminaires = writer.length;
  const placed = shown.map(({ placed: each, layer, index, share }) => {
    const own = blockers.findIndex(({ owner }) => owner?.[0] === layer && owner[1] === index);
    const distribution = distributions.get(each.luminaire.distribution) ?? 0;
    const record = luminaireRecords(writer, each, { slot: folded ? 0 : layer, own, distribution, share });
    return { layer, index, record };
  });

  const boxes = blockers.map(({ mesh }) => boxOfMesh(mesh));
  const lists: { readonly solids: number[]; readonly lit: boolean }[] = [];
  for (const surface of scene.surfaces) {
    const { vertices, normal } = surface;
    const bounds = boxOfPoints(vertices.flat());
    const level = dot(normal, vertices[0]);
    const behind = blockers.map(({ mesh }) => isBehind(mesh.positions, normal, level + 1e-3));
    for (const { placed: each, layer, index } of shown) {
      const reach = roomReach(each);
      const [x, y, z] = each.frame.origin;
      const box = Float64Array.of(
        x - reach[0],
        y - reach[1],
        z - reach[2],
        x + reach[0],
        y + reach[1],
        z + reach[2],
      );
      const up = dot(normal, each.frame.origin) - level;
      const most =
        up + Math.abs(normal[0]) * reach[0] + Math.abs(normal[1]) * reach[1] + Math.abs(normal[2]) * reach[2];
      const between = boxes.flatMap((solid, s) => {
        const { owner } = blockers[s];
        if (behind[s] || (owner?.[0] === layer && owner[1] === index)) return [];
        return shaftMeetsBox(bounds, box, solid) ? [s] : [];
      });
      lists.push({ solids: between, lit: most > 1e-9 && litHere(each) });
    }
  }
  const every = blockers.map((_, s) => s);
  for (const { placed: each } of shown) lists.push({ solids: every, lit: litHere(each) });
  blockers.forEach(({ name, kind }) => {
    const others = every.filter((s) => blockers[s].name !== name || blockers[s].kind !== kind);
    for (const { placed: each } of shown) lists.push({ solids: others, lit: litHere(each) });
  });
  const starts = new Map<string, number>();
  const resolved = lists.map(({ solids: between, lit }) => {
    const key = between.join(" ");
    let first = starts.get(key);
    if (first === undefined) {
      first = writer.length;
      for (const s of between) writer.put(s);
      starts.set(key, first);
    }
    return [first, between.length, lit ? 1 : 0] as const;
  });
  const pairs = writer.length;
  for (const [first, count, lit] of resolved) writer.put(first, count, lit);
  return {
    ...writer.finish(),
    gauss,
    luminaires,
    luminaireCount: shown.length,
    solids,
    pairs,
    rowOfAnything: scene.surfaces.length,
    rowWithout: scene.surfaces.length + 1,
    solidOf: scene.blockers.map((blocker) =>
      blockers.findIndex(({ name, kind }) => name === blocker.name && kind === blocker.kind),
    ),
    placed,
    slotOfLayer: scene.layers.map((_, i) => (folded ? 0 : i)),
    solidCount: blockers.length,
    traced: list.filter(({ placed: each }) => each.luminaire.emission.kind === "surfaces").length,
  };
}

/** The separate boxes of a figure, each a solid of its own: planes cut faster than a hierarchy, and empty space between
 * limbs is told from bounds. */
function partsOf(blocker: Blocker): Blocker[] {
  const { positions, triangles } = blocker.mesh;
  const count = positions.length / 3;
  const part = Int32Array.from({ length: count }, (_, i) => i);
  for (let changed = true; changed; ) {
    changed = false;
    for (let t = 0; t < triangles.length; t += 3) {
      const least = Math.min(part[triangles[t]], part[triangles[t + 1]], part[triangles[t + 2]]);
      for (let k = 0; k < 3; k++)
        if (part[triangles[t + k]] !== least) {
          part[triangles[t + k]] = least;
          changed = true;
        }
    }
  }
  const parts = [...new Set(part)];
  if (blocker.transmittance > 0 || parts.length < 2) return [blocker];
  return parts.map((least) => {
    const index = new Map<number, number>();
    const kept: number[] = [];
    for (let i = 0; i < count; i++)
      if (part[i] === least) {
        index.set(i, index.size);
        kept.push(positions[3 * i], positions[3 * i + 1], positions[3 * i + 2]);
      }
    const faces = triangles
      .filter((vertex) => part[vertex] === least)
      .map((vertex) => index.get(vertex) ?? 0);
    return { ...blocker, mesh: { ...blocker.mesh, positions: Float64Array.from(kept), triangles: faces } };
  });
}

function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function isBehind(positions: Float64Array, normal: Vec3, level: number): boolean {
  for (let k = 0; k < positions.length; k += 3)
    if (positions[k] * normal[0] + positions[k + 1] * normal[1] + positions[k + 2] * normal[2] > level)
      return false;
  return true;
}

/** Half extents (m) of the room's box about all that emits. */
function roomReach({ luminaire, frame: { rotation: r } }: PlacedLuminaire): Vec3 {
  const { half } = openingSurface(luminaire.emission.opening, luminaire.distribution);
  const along = (k: number): number =>
    Math.abs(r[k]) * half[0] + Math.abs(r[k + 3]) * half[1] + Math.abs(r[k + 6]) * half[2];
  return [along(0), along(1), along(2)];
}

function luminaireRecords(
  writer: Writer,
  placed: PlacedLuminaire,
  at: { readonly slot: number; readonly own: number; readonly distribution: number; readonly share: number },
): number {
  const { luminaire, frame } = placed;
  const { origin, rotation: r } = frame;
  const surface = openingSurface(luminaire.emission.opening, luminaire.distribution);
  const { half, ends, kind, axis } = surface;
  const first = writer.put(origin[0], origin[1], origin[2], KINDS[kind]);
  for (let k = 0; k < 3; k++) writer.put(r[3 * k], r[3 * k + 1], r[3 * k + 2], half[k]);
  writer.put(at.slot, at.own, at.distribution, surface.radius);
  writer.put(ends[0], ends[2], ends[4], axis);
  writer.put(ends[1], ends[3], ends[5], sharpness(luminaire.distribution));
  const reach = roomReach(placed);
  writer.put(reach[0], reach[1], reach[2], at.share);
  return first;
}

/** How many times more nodes than a smooth lobe a distribution asks for, by its steepest change with angle: 1 where
 * it takes 0.6 rad and more to fall by its maximum, 4 at a cut-off. */
function sharpness({ horizontal, vertical, intensity }: IntensityDistribution): number {
  let peak = 0;
  let steepest = 0;
  const size = vertical.length;
  for (let h = 0; h < horizontal.length; h++)
    for (let v = 0; v < size; v++) {
      const I = intensity[h * size + v];
      peak = Math.max(peak, I);
      if (v > 0)
        steepest = Math.max(
          steepest,
          Math.abs(I - intensity[h * size + v - 1]) / (vertical[v] - vertical[v - 1]),
        );
    }
  return peak === 0 ? 1 : Math.min(4, Math.max(1, (0.6 * steepest) / peak));
}

function writeDistribution(writer: Writer, distribution: IntensityDistribution): number {
  const { type, horizontal, vertical, intensity } = distribution;
  const planes = horizontal.length;
  const angles = vertical.length;
  const first = writer.put(TYPES[type], planes, angles, 0);
  const h = first + 3;
  const v = h + planes;
  const cells = v + angles;
  writer.put(h, v, perStep(horizontal), perStep(vertical));
  writer.put(horizontal[0], horizontal[planes - 1], vertical[0], vertical[angles - 1]);
  for (const list of [horizontal, vertical])
    for (let i = 0; i < list.length; i++) {
      const next = list[i + 1] ?? list[i];
      writer.put(list[i], next, next > list[i] ? 1 / (next - list[i]) : 0);
    }
  for (let i = 0; i < Math.max(1, planes - 1); i++)
    for (let j = 0; j < Math.max(1, angles - 1); j++) {
      const i1 = Math.min(i + 1, planes - 1) * angles;
      const j1 = Math.min(j + 1, angles - 1);
      const i0 = i * angles;
      writer.put(intensity[i0 + j], intensity[i0 + j1], intensity[i1 + j], intensity[i1 + j1]);
    }
  writer.amend(first, 3, cells);
  return first;
}

/** Steps per radian of an evenly spaced list, 0 of any other. */
function perStep(list: Float64Array): number {
  if (list.length < 2) return 0;
  const step = (list[list.length - 1] - list[0]) / (list.length - 1);
  for (let i = 1; i < list.length; i++) if (Math.abs(list[i] - list[0] - i * step) > EVEN) return 0;
  return 1 / step;
}

function writeSolids(writer: Writer, blockers: readonly Blocker[]): number {
  const table = writer.length;
  for (let i = 0; i < 3 * blockers.length; i++) writer.put(0);
  blockers.forEach(({ mesh, transmittance }, i) => {
    const box = boxOfMesh(mesh);
    const planes = convexSolid(mesh);
    const first = writer.length;
    let count: number;
    let triangles = 0;
    if (planes !== undefined) {
      count = planes.length / 4;
      for (let k = 0; k < planes.length; k += 4)
        writer.put(planes[k], planes[k + 1], planes[k + 2], planes[k + 3]);
    } else {
      const {
        bounds,
        skip,
        first: from,
        count: held,
        corner,
      } = new VisibilityTree([{ mesh, transmittance }]).arrays;
      count = skip.length;
      for (let n = 0; n < count; n++) {
        const b = bounds.subarray(6 * n, 6 * n + 6);
        writer.put(b[0], b[1], b[2], skip[n]);
        writer.put(b[3], b[4], b[5], 8 * from[n] + held[n]);
      }
      triangles = writer.length;
      for (let k = 0; k < corner.length; k += 3) writer.put(corner[k], corner[k + 1], corner[k + 2]);
    }
    writer.amend(table + 3 * i, 0, box[0], box[1], box[2], planes === undefined ? 1 : 0);
    writer.amend(table + 3 * i + 1, 0, box[3], box[4], box[5], transmittance);
    writer.amend(table + 3 * i + 2, 0, first, count, triangles, 0);
  });
  return table;
}
