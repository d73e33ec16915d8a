/** The luminous openings of all luminaires as one geometry that glows. */

import { BufferAttribute, BufferGeometry, CylinderGeometry, SphereGeometry } from "three";
import { RoundedBoxGeometry } from "three/addons/geometries/RoundedBoxGeometry.js";
import type { Vec3 } from "../geometry/vector.ts";
import type { OpeningSurface } from "../luminaire/opening/opening-surface.ts";
import { openingSurface } from "../luminaire/opening/openings.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import type { Scene } from "../scene/scene.ts";
import { AROUND, bodyShapes, glowsWhole, matrixOf } from "./luminaire-body.ts";
import { mergedShape, Triangles } from "./triangles.ts";

/** Of no meaning: an opening is not lit, it glows. */
const WHITE: Vec3 = [1, 1, 1];

/** Luminous openings; `recordOf` gives the scene's record, `tintOf` the tint of a layer. */
export function luminousGeometry(
  scene: Scene,
  recordOf: (layer: number, index: number) => number,
  tintOf: (layer: number) => Vec3,
): BufferGeometry {
  const positions: number[] = [];
  const normals: number[] = [];
  const records: number[] = [];
  const tints: number[] = [];
  const index: number[] = [];
  scene.layers.forEach(({ luminaires }, layer) => {
    luminaires.forEach((placed, which) => {
      const matrix = matrixOf(placed.frame);
      const part = new Triangles();
      const first = positions.length / 3;
      for (const shape of luminousShapes(placed)) part.add(shape, matrix, WHITE);
      positions.push(...part.positions);
      normals.push(...part.normals);
      for (const k of part.index) index.push(first + k);
      for (let i = 0; i < part.count; i++) {
        records.push(recordOf(layer, which));
        tints.push(...tintOf(layer));
      }
    });
  });
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(Float32Array.from(positions), 3));
  geometry.setAttribute("normal", new BufferAttribute(Float32Array.from(normals), 3));
  geometry.setIndex(new BufferAttribute(Uint32Array.from(index), 1));
  geometry.setAttribute("record_", new BufferAttribute(Float32Array.from(records), 1));
  geometry.setAttribute("tint", new BufferAttribute(Float32Array.from(tints), 3));
  return geometry;
}

/** The body itself where all of it glows, such as an opal globe, else the opening that its file states. */
function luminousShapes(placed: PlacedLuminaire): BufferGeometry[] {
  const { body, emission } = placed.luminaire;
  return body !== undefined && glowsWhole(placed)
    ? bodyShapes(body, emission.opening)
    : [openingShape(placed)];
}

function openingShape({ luminaire }: PlacedLuminaire): BufferGeometry {
  const surface = openingSurface(luminaire.emission.opening, luminaire.distribution);
  const { kind, half, axis } = surface;
  return mergedShape(`opening ${kind}`, [axis, ...half], () => openingGeometry(surface));
}

function openingGeometry({ kind, half, axis }: OpeningSurface): BufferGeometry {
  const [a, b, c] = half;
  switch (kind) {
    case "point":
      return new SphereGeometry(0.02, 16, 12);
    case "ellipsoid":
      return new SphereGeometry(1, 40, 28).scale(a, b, c);
    case "box":
      return new RoundedBoxGeometry(2 * a, 2 * b, 2 * c, 2, 0.2 * Math.min(a, b, c));
    case "cylinder": {
      const tube = new CylinderGeometry(1, 1, 2, AROUND);
      if (axis === 2) tube.rotateX(Math.PI / 2);
      if (axis === 0) tube.rotateZ(Math.PI / 2);
      return tube.scale(a, b, c);
    }
    case "flat disc": {
      const disc = new CylinderGeometry(1, 1, 0.001, AROUND);
      if (axis === 2)
        disc
          .rotateX(Math.PI / 2)
          .scale(a, b, 1)
          .translate(0, 0, -0.003);
      else disc.rotateZ(Math.PI / 2).scale(1, b, c);
      return disc;
    }
    default:
      return new RoundedBoxGeometry(
        Math.max(2 * a, 0.004),
        Math.max(2 * b, 0.004),
        Math.max(2 * c, 0.002),
        1,
        0.0005,
      ).translate(0, 0, c === 0 ? -0.003 : 0);
  }
}
