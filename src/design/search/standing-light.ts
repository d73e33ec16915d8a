/**
 * The light a search does not vary: the other layers whole, and what each kind of pendant sends back by way of the
 * room, taken once from a calculation of a plain row of it.
 *
 *   interreflected light of a row ≈ Σ over its pendants of R_k / n_k,  R_k that of n_k of the kind in equal bays
 *
 * Known error: interreflected light hardly depends on where a luminaire of given flux hangs over the island; against
 * full calculations it moves averages by under 2 % (tests). Shadows of the candidates' own bodies are left out.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import type { Calculate } from "../../engine/calculate.ts";
import { maintainedShare } from "../../scene/maintained.ts";
import type { Scene } from "../../scene/scene.ts";
import { withLuminaires } from "../../scene/with-hanging.ts";
import { hungCandidate, type Kind } from "./candidate.ts";
import type { SearchGrid } from "./search-grid.ts";

export interface StandingLight {
  /** Of the layers not searched, maintained and dimmed (lx) at the grid's points. */
  readonly fixed: Float64Array;
  /** By kind: interreflected light of one pendant, full output, initial (lx). */
  readonly returned: readonly Float64Array[];
}

const CLEARANCE = 0.85;

export function standingLight(
  scene: Scene,
  layer: number,
  kinds: readonly Kind[],
  grid: SearchGrid,
  calculate: Calculate,
  observer?: Observer,
): StandingLight {
  const { island } = grid;
  const count = grid.points.length / 3;
  const plane = {
    name: "search",
    role: "probe" as const,
    quantity: "planar" as const,
    points: grid.points,
    normal: [0, 0, 1] as const,
    weights: new Float64Array(count).fill(1),
  };
  const fixed = new Float64Array(count);
  const returned = kinds.map((kind, k) => {
    observer?.progress?.("light of the room", k / kinds.length);
    const n = Math.max(1, Math.min(3, Math.floor(island.length / Math.max(kind.rim, 0.3))));
    const pitch = n === 1 ? 0 : 2 * Math.round(island.length / n / 2 / grid.step);
    const row = { kinds: [k] as const, count: n, pitch, along: 0, across: 0, clearance: CLEARANCE };
    const hung = withLuminaires(scene, layer, hungCandidate(row, { kinds, island, step: grid.step }));
    const { layers } = calculate(
      { ...hung, planes: [plane] },
      { quality: "quick" },
      {
        cancelled: () => observer?.cancelled?.() === true,
      },
    ).planes[0];
    if (k === 0)
      layers.forEach(({ direct, interreflected }, l) => {
        if (l === layer) return;
        const weight = maintainedShare(scene, scene.layers[l]);
        for (let i = 0; i < count; i++) fixed[i] += weight * (direct[i] + interreflected[i]);
      });
    return layers[layer].interreflected.map((value) => value / n);
  });
  return { fixed, returned };
}
