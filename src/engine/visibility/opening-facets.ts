/** Facets of a luminous opening, from the polygons of its shape, and of a lamp's outline. */

import type { Vec3 } from "../../geometry/vector.ts";
import { addDisc, addFace } from "../../luminaire/opening/facet-polygons.ts";
import type { OpeningSurface } from "../../luminaire/opening/opening-surface.ts";
import { type Facets, facetsOf } from "./facets.ts";

const facetsBySurface = new WeakMap<OpeningSurface, Map<number, Facets>>();

/** Found once for a surface, which outlives every place its luminaire hangs in.
 * @param rings cells from a disc's centre to its edge, half of those along the longest side of a rectangle */
export function openingFacets(surface: OpeningSurface, rings: number): Facets {
  const ofSurface = facetsBySurface.get(surface) ?? new Map<number, Facets>();
  facetsBySurface.set(surface, ofSurface);
  const facets = ofSurface.get(rings) ?? facetsOf(surface.polygons(rings));
  ofSurface.set(rings, facets);
  return facets;
}

/** Facets of the unit disc across z. */
export function discFacets(rings: number): Facets {
  const polygons: Vec3[][] = [];
  addDisc([1, 1, 0], 2, 0, rings, polygons);
  return facetsOf(polygons);
}

/** Facets of the stretch −1…1 of y, that thick. */
export function lineFacets(steps: number, thick: number): Facets {
  const polygons: Vec3[][] = [];
  addFace([thick / 2, 1, 0], 2, 1, 0, steps / 2, polygons);
  return facetsOf(polygons);
}
