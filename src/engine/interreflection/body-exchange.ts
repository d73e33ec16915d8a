/**
 * Bodies that come and go (pendants, people) in the exchange of light: their parts beside the patches of the room.
 *
 *   K_ij = A_i F_ij (1 − h_ij)   between patches, h the share that bodies hide (`pair-shares.ts`)
 *   K_qi = Σ_k w_k F_ki (1 − h_ki),  K_qr = Σ_k w_k F_kr   from the nodes k of part q, F_kr past everything
 *
 * Rows that then miss one by no
 * more than quadrature errs are brought to one, symmetrically; what they missed is reported. A patch on which a body
 * stands counts with the area that is left of it.
 *
 * Keys: what a body hides and what its nodes see of the room by room and body; what two bodies see of each other by them
 * and all that can stand between.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { boxOfPoints } from "../../geometry/box.ts";
import { deepInside } from "../../geometry/polyhedron-faces.ts";
import type { BodySolid } from "./body-solid.ts";
import { balanceRows, type Exchange } from "./exchange.ts";
import type { Gather } from "./gather.ts";
import { PairShares } from "./pair-shares.ts";
import type { Patches } from "./patches.ts";
import { addScaled, areasOfRow, weighedRow } from "./row-sums.ts";
import type { SceneSight } from "./scene-sight.ts";
import { Screens } from "./screens.ts";
import { type HiddenShares, SharesLeft } from "./shares-left.ts";

/** What a body hides of the room from the room. */
export interface HiddenPairs {
  /** Pairs i < j of patches, and the share hidden. */
  readonly i: Uint32Array;
  readonly j: Uint32Array;
  readonly share: Float64Array;
  /** Patches that the body stands on, and the share of each that it covers. */
  readonly covered: ReadonlyMap<number, number>;
}

export function screensOfBody(patches: Patches, solid: BodySolid, passes: number): Screens {
  return new Screens(
    patches,
    solid.pieces.map((piece) => ({ solid: piece, passes })),
  );
}

export function hiddenPairs(
  gather: Gather,
  factors: Float32Array,
  solid: BodySolid,
  screens: Screens,
  observer?: Observer,
): HiddenPairs {
  const { patches: p, surfaceBoxes } = gather;
  const first: number[] = [];
  const second: number[] = [];
  const share: number[] = [];
  const shares = new PairShares(gather, screens, false);
  for (let s = 0; s < p.grids.length; s++) {
    const surfaces: number[] = [];
    for (let t = s + 1; t < p.grids.length; t++)
      if (screens.any(surfaceBoxes[s], surfaceBoxes[t], screens.before[t])) surfaces.push(t);
    if (surfaces.length === 0) continue;
    for (let i = p.firstOfSurface[s]; i < p.firstOfSurface[s + 1]; i++) {
      const others = hiddenFrom(i, surfaces, gather, factors, screens);
      if (others.length === 0) continue;
      throwIfCancelled(observer);
      const seen = shares.of(i, others);
      for (let m = 0; m < others.length; m++) {
        if (seen[m] > 1 - 1e-12) continue;
        first.push(i);
        second.push(others[m]);
        share.push(1 - seen[m]);
      }
    }
  }
  return {
    i: Uint32Array.from(first),
    j: Uint32Array.from(second),
    share: Float64Array.from(share),
    covered: coveredPatches(p, solid),
  };
}

/** Patches of other surfaces that exchange light with patch i and that something may hide from it. */
function hiddenFrom(
  i: number,
  surfaces: readonly number[],
  { patches: p, surfaceBoxes, patchBoxes }: Gather,
  factors: Float32Array,
  screens: Screens,
): number[] {
  const others: number[] = [];
  for (let k = 0; k < surfaces.length; k++) {
    const t = surfaces[k];
    const before = screens.meeting(patchBoxes[i], surfaceBoxes[t], screens.before[t]);
    if (before.length === 0) continue;
    for (let j = p.firstOfSurface[t]; j < p.firstOfSurface[t + 1]; j++)
      if (factors[i * p.count + j] > 0 && screens.any(patchBoxes[i], patchBoxes[j], before)) others.push(j);
  }
  return others;
}

/** A body that begins nearer than this above a patch stands on it (m). */
const STANDS = 1e-5;

function coveredPatches(p: Patches, { pieces, box }: BodySolid): Map<number, number> {
  const covered = new Map<number, number>();
  for (let i = 0; i < p.count; i++) {
    const b = 6 * i;
    let apart = false;
    for (let c = 0; c < 3; c++)
      apart ||= p.bounds[b + c] > box[c + 3] + STANDS || p.bounds[b + c + 3] < box[c] - STANDS;
    if (apart) continue;
    const s = 3 * p.surface[i];
    let area = 0;
    for (let k = p.nodeStart[i]; k < p.nodeStart[i + 1]; k++) {
      const x = p.nodes[3 * k] + STANDS * p.normal[s];
      const y = p.nodes[3 * k + 1] + STANDS * p.normal[s + 1];
      const z = p.nodes[3 * k + 2] + STANDS * p.normal[s + 2];
      if (pieces.some((piece) => deepInside(piece, x, y, z, 0))) area += p.nodeWeights[k];
    }
    if (area > 0) covered.set(i, area / p.area[i]);
  }
  return covered;
}

/** Factors from each node of a body to every patch past what stands, `row[k * patches + i]`. */
export function bodyRows(gather: Gather, { nodes }: BodySolid): Float64Array {
  const n = gather.patches.count;
  const rows = new Float64Array(nodes.part.length * n);
  for (let k = 0; k < nodes.part.length; k++) {
    const m = 3 * k;
    const { at, normal } = nodes;
    gather.row(at[m], at[m + 1], at[m + 2], normal[m], normal[m + 1], normal[m + 2], rows, k * n);
  }
  return rows;
}

/** What the nodes of one body lose of the room behind another, and see of its parts. */
export interface BodySight {
  /** Hidden shares of the room, row by node. */
  readonly hidden: HiddenShares;
  /** Nodes that lie in or on the other, 1 each. */
  readonly covered: Uint8Array;
  /** `factor[k * parts + r]` */
  readonly factor: Float64Array;
}

export function bodySight(
  gather: Gather,
  rows: Float64Array,
  { nodes }: BodySolid,
  screens: Screens,
  sight: SceneSight,
  own: number,
  other: number,
  candidates: readonly number[],
): BodySight {
  const n = gather.patches.count;
  const { parts } = sight.bodies[other].solid;
  const count = nodes.part.length;
  const start = new Uint32Array(count + 1);
  const patch: number[] = [];
  const share: number[] = [];
  const factor = new Float64Array(count * parts);
  const covered = new Uint8Array(count);
  for (let k = 0; k < count; k++) {
    const x = nodes.at[3 * k];
    const y = nodes.at[3 * k + 1];
    const z = nodes.at[3 * k + 2];
    const nx = nodes.normal[3 * k];
    const ny = nodes.normal[3 * k + 1];
    const nz = nodes.normal[3 * k + 2];
    if (other !== own && sight.holds(other, x, y, z, other < own)) covered[k] = 1;
    gather.hiddenBy(screens, x, y, z, nx, ny, nz, rows, k * n, patch, share);
    start[k + 1] = patch.length;
    sight.from(x, y, z, nx, ny, nz);
    sight.factors(other, candidates, factor, k * parts);
  }
  const hidden = { start, patch: Uint32Array.from(patch), share: Float64Array.from(share) };
  return { hidden, covered, factor };
}

export function nodesBox({ nodes }: BodySolid): Float64Array {
  return boxOfPoints(nodes.at);
}

/** One body in the exchange: what it hides, and what its nodes see of the room and of every body. */
export interface ExchangingBody {
  readonly solid: BodySolid;
  readonly rows: Float64Array;
  /** By number of the other body. */
  readonly sights: readonly BodySight[];
}

/** Exchange areas (m²) of all parts: with each patch at `q * patches + i`, with each part at `q * parts + r`. */
export interface PartExchange {
  readonly parts: number;
  /** First part of each body, and one past the last. */
  readonly first: Uint32Array;
  readonly area: Float64Array;
  readonly reflectance: Float64Array;
  readonly patches: Float64Array;
  readonly others: Float64Array;
}

export function partExchange(
  gather: Gather,
  together: Screens,
  bodies: readonly ExchangingBody[],
  observer?: Observer,
): PartExchange {
  const n = gather.patches.count;
  const left = new SharesLeft(gather, together);
  const first = new Uint32Array(bodies.length + 1);
  bodies.forEach(({ solid }, b) => {
    first[b + 1] = first[b] + solid.parts;
  });
  const parts = first[bodies.length];
  const area = new Float64Array(parts);
  const reflectance = new Float64Array(parts);
  const patches = new Float64Array(parts * n);
  const others = new Float64Array(parts * parts);
  const row = new Float64Array(n);
  bodies.forEach(({ solid, rows, sights }, b) => {
    reflectance.set(solid.reflectance, first[b]);
    const { part, area: weight, at, normal } = solid.nodes;
    throwIfCancelled(observer);
    observer?.progress?.("what bodies see", b / bodies.length);
    for (let k = 0; k < part.length; k++) {
      if (sights.some(({ covered }) => covered[k] === 1)) continue;
      const q = first[b] + part[k];
      area[q] += weight[k];
      row.set(rows.subarray(k * n, (k + 1) * n));
      sights.forEach(({ hidden, factor }, c) => {
        left.take(hidden, k);
        const count = first[c + 1] - first[c];
        addScaled(factor, k * count, count, weight[k], others, q * parts + first[c]);
      });
      const m = 3 * k;
      left.finish(at[m], at[m + 1], at[m + 2], normal[m], normal[m + 1], normal[m + 2], (i, share) => {
        row[i] *= share;
      });
      addScaled(row, 0, n, weight[k], patches, q * n);
    }
  });
  // Each pair was looked at from both sides.
  for (let q = 0; q < parts; q++)
    for (let r = 0; r < q; r++) {
      const mean = (others[q * parts + r] + others[r * parts + q]) / 2;
      others[q * parts + r] = mean;
      others[r * parts + q] = mean;
    }
  return { parts, first, area, reflectance, patches, others };
}

/** The exchange of patches and parts together: patches first. */
export interface JoinedExchange {
  readonly count: number;
  readonly area: Float64Array;
  readonly factors: Float32Array;
  readonly rowSums: Float64Array;
}

export function joinedExchange(
  { patches: p, factors }: Exchange,
  gather: Gather,
  together: Screens,
  parts: PartExchange,
  hidden: readonly HiddenPairs[],
  observer?: Observer,
): JoinedExchange {
  const n = p.count;
  const N = n + parts.parts;
  const areas = new Float32Array(N * N);
  for (let i = 0; i < n; i++) areasOfRow(factors, i * n, n, p.area[i], areas, i * N);
  const area = new Float64Array(N);
  area.set(p.area);
  area.set(parts.area, n);
  const left = pairsLeft(gather, together, hidden, observer);
  for (let i = 0; i < n; i++) {
    left.others[i].forEach((j, m) => {
      const share = left.shares[i][m];
      areas[i * N + j] *= share;
      areas[j * N + i] *= share;
    });
  }
  for (const { covered } of hidden) {
    for (const [patch, part] of covered) area[patch] -= part * p.area[patch];
  }
  for (let i = 0; i < n; i++) if (area[i] < 1e-9 * p.area[i]) area[i] = 0;
  for (let q = 0; q < parts.parts; q++) {
    for (let i = 0; i < n; i++) {
      const k = parts.patches[q * n + i];
      areas[(n + q) * N + i] = k;
      areas[i * N + n + q] = k;
    }
    for (let r = 0; r < parts.parts; r++) areas[(n + q) * N + n + r] = parts.others[q * parts.parts + r];
  }
  const one = new Float64Array(N).fill(1);
  const sums = Float64Array.from(area, (_, i) => weighedRow(areas, i * N, N, one));
  const rowSums = balanceRows(areas, area, sums);
  return { count: N, area, factors: areas, rowSums };
}

/** Of each patch, the later ones of which bodies hide part, and what all of them leave. Where more than one does, they are
 * asked together. */
function pairsLeft(
  gather: Gather,
  together: Screens,
  hidden: readonly HiddenPairs[],
  observer?: Observer,
): { readonly others: readonly number[][]; readonly shares: readonly number[][] } {
  const n = gather.patches.count;
  const others: number[][] = Array.from({ length: n }, () => []);
  const shares: number[][] = Array.from({ length: n }, () => []);
  const pairs = new PairShares(gather, together, false);
  const next = hidden.map(() => 0);
  const left = new Float64Array(n).fill(1);
  const bodies = new Uint8Array(n);
  for (let i = 0; i < n; i++) {
    const touched: number[] = [];
    hidden.forEach((own, b) => {
      for (; own.i[next[b]] === i; next[b]++) {
        const j = own.j[next[b]];
        if (bodies[j] === 0) touched.push(j);
        if (bodies[j] < 2) bodies[j]++;
        left[j] *= 1 - own.share[next[b]];
      }
    });
    touched.sort((a, b) => a - b);
    const several = touched.filter((j) => bodies[j] > 1);
    if (several.length > 0) {
      throwIfCancelled(observer);
      observer?.progress?.("what bodies hide of one another", i / n);
    }
    const seen = several.length > 0 ? pairs.of(i, several) : undefined;
    let m = 0;
    for (const j of touched) {
      others[i].push(j);
      shares[i].push(bodies[j] > 1 ? seen![m++] : left[j]);
      left[j] = 1;
      bodies[j] = 0;
    }
  }
  return { others, shares };
}
