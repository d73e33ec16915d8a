/**
 * A lamp's outline, as a point sees it, in small cells about its middle, in units of its size; each cell again in finer
 * ones, for where the shade's own edge cuts through it.
 */

import type { LampSource } from "../../luminaire/shade/lamp.ts";
import { type Facets, neighboursOf } from "./facets.ts";
import { discFacets, lineFacets } from "./opening-facets.ts";

/** Finer cells across and around one of a disc, and along one of a filament. */
const FINER = 3;
const FINER_ALONG = 9;
const THICK = 0.002;

export interface LampOutline {
  /** Areas are shares of the whole. */
  readonly cells: Facets;
  readonly fine: Facets;
  /** Of each cell those that touch it, and the fine ones that fill it. */
  readonly neighbours: readonly (readonly number[])[];
  readonly filling: readonly (readonly number[])[];
}

const DISC = discOutline(4);
/** Of one of many lamps. */
const SMALL_DISC = discOutline(1);
const FILAMENT = outlineOf(lineFacets(48, THICK), lineFacets(48 * FINER_ALONG, THICK), (g) =>
  Math.floor(g / FINER_ALONG),
);
/** Most corners of a cell. */
export const MOST_CORNERS = Math.max(
  ...[DISC, SMALL_DISC, FILAMENT].flatMap((o) => [o.cells.most, o.fine.most]),
);
export const MOST_CELLS = Math.max(...[DISC, SMALL_DISC, FILAMENT].map(({ cells }) => cells.count));

export function lampOutline({ shape, radius }: LampSource): LampOutline {
  if (shape === "filament") return FILAMENT;
  return radius > 0 ? SMALL_DISC : DISC;
}

function discOutline(rings: number): LampOutline {
  const sectors = 6 * rings;
  return outlineOf(discFacets(rings), discFacets(FINER * rings), (g) => {
    const ring = Math.floor(g / (FINER * sectors));
    return Math.floor(ring / FINER) * sectors + Math.floor((g % (FINER * sectors)) / FINER);
  });
}

/** @param filled the cell that fine cell g helps to fill */
function outlineOf(cells: Facets, fine: Facets, filled: (g: number) => number): LampOutline {
  const filling: number[][] = Array.from({ length: cells.count }, () => []);
  for (let g = 0; g < fine.count; g++) filling[filled(g)].push(g);
  return { cells: shared(cells), fine: shared(fine), neighbours: neighboursOf(cells), filling };
}

function shared(cells: Facets): Facets {
  const whole = cells.area.reduce((sum, area) => sum + area, 0);
  return { ...cells, area: cells.area.map((area) => area / whole) };
}

/** Axes of a lamp's outline as seen along (x, y, z) from it, and that direction: of a sphere across it, of a disc level, of
 * a filament across and along itself. */
export function outlineAxes({ shape }: LampSource, x: number, y: number, z: number, out: Float64Array): void {
  const d = Math.hypot(x, y, z);
  const level = Math.hypot(x, y);
  const ax = level > 1e-9 * d ? -y / level : 1;
  const ay = level > 1e-9 * d ? x / level : 0;
  out.set([ax, ay, 0, 0, 0, 1, x / d, y / d, z / d]);
  if (shape === "disc") out.set([-ay, ax, 0], 3);
  else if (shape === "sphere") out.set([(-z * ay) / d, (z * ax) / d, (x * ay - y * ax) / d], 3);
}
