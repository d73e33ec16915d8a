/**
 * Doors and drawers of cupboards and of the island's front, as thin lines: they scale the picture and take part in no light.
 *
 * The study says of a cupboard only its box, so fronts are drawn as they usually are: modules of some 0.6 m; a drawer over
 * each door at the height of a worktop, a joint at that height in what is taller. Common practice, no source.
 */

import { BufferAttribute, BufferGeometry } from "three";
import { type FlatSurface, flatSurface } from "../engine/surfaces/surface-lattice.ts";
import { pointOfPlane } from "../geometry/plane-frame.ts";
import { add, scale, type Vec3 } from "../geometry/vector.ts";
import type { Scene } from "../scene/scene.ts";
import type { Surface } from "../scene/surface.ts";

/** Width of a door (m). */
const MODULE = 0.6;
/** Height of a drawer (m). */
const DRAWER = 0.16;
/** A front under a worktop reaches this high, and something taller has a joint there (m). */
const WORKTOP = 0.92;
/** Narrower and lower than this a face is an end or a plinth (m); what hangs, if narrower, may be a hood. */
const LEAST = { width: 0.55, height: 0.4, hanging: 1 };
const OFF = 0.001;

/** Pairs of points, a line each, with the normal of their face. */
export function frontLines(scene: Scene): BufferGeometry {
  const positions: number[] = [];
  const normals: number[] = [];
  for (const surface of scene.surfaces) {
    if (!isFront(surface, scene)) continue;
    const flat = flatSurface(surface);
    for (const line of linesOn(flat, lowest(surface)))
      for (const [x, y] of line) {
        positions.push(...add(pointOfPlane([x, y], flat), scale(flat.normal, OFF)));
        normals.push(...flat.normal);
      }
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(Float32Array.from(positions), 3));
  geometry.setAttribute("normal", new BufferAttribute(Float32Array.from(normals), 3));
  return geometry;
}

function lowest({ vertices }: Surface): number {
  return Math.min(...vertices.map(([, , z]) => z));
}

/** Whether a surface is a face that opens: the longer one of a cupboard, of the island the one turned from who sits. */
function isFront(surface: Surface, { island, bodies = [] }: Scene): boolean {
  const { part, normal, name, vertices } = surface;
  if (Math.abs(normal[2]) > 1e-3 || vertices.length !== 4) return false;
  const { length, width } = sizeOf(surface);
  if (width < LEAST.height || length < LEAST.width) return false;
  if (part === "island sides") {
    if (island === undefined || length < 0.6 * island.length) return false;
    const side = island.overhang?.side ?? island.seats?.side;
    const across: Vec3 = [-Math.sin(island.turn), Math.cos(island.turn), 0];
    const along = normal[0] * across[0] + normal[1] * across[1];
    return side === "y-" ? along > 0.5 : side === "y+" ? along < -0.5 : true;
  }
  if (part !== "body") return false;
  if (lowest(surface) > 1 && length < LEAST.hanging) return false;
  const body = bodies.find((each) => each.name === name);
  if (body === undefined || body.outline.length !== 4) return false;
  const longest = Math.max(...body.outline.map((p, i) => distance(p, body.outline[(i + 1) % 4])));
  return length > 0.9 * longest;
}

function sizeOf(surface: Surface): { readonly length: number; readonly width: number } {
  const flat = flatSurface(surface);
  const upright = Math.abs(flat.v[2]) > 0.5;
  return upright ? flat : { length: flat.width, width: flat.length };
}

/** Lines on a face whose lower edge is at a height (m), in its own coordinates. */
function linesOn(flat: FlatSurface, bottom: number): (readonly [number, number])[][] {
  const isUpright = Math.abs(flat.v[2]) > 0.5;
  const [length, height] = isUpright ? [flat.length, flat.width] : [flat.width, flat.length];
  const isUp = (isUpright ? flat.v : flat.u)[2] > 0;
  const at = (x: number, z: number): readonly [number, number] => {
    const up = isUp ? z - bottom : height - (z - bottom);
    return isUpright ? [x, up] : [up, x];
  };
  const count = Math.max(1, Math.round(length / MODULE));
  const top = bottom + height;
  const lines = Array.from({ length: count - 1 }, (_, i) => {
    const x = ((i + 1) * length) / count;
    return [at(x, bottom), at(x, top)];
  });
  const joint = top > WORKTOP + 0.3 ? WORKTOP : top - DRAWER;
  if (bottom < 0.3) lines.push([at(0, joint), at(length, joint)]);
  return lines;
}

function distance([ax, ay]: readonly [number, number], [bx, by]: readonly [number, number]): number {
  return Math.hypot(bx - ax, by - ay);
}
