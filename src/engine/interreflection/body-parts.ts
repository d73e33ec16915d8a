/** The parts of a body while they are made: facets that are seen, and nodes that look. */

import type { Polyhedron } from "../../geometry/polyhedron.ts";
import { deepInside } from "../../geometry/polyhedron-faces.ts";
import type { Vec3 } from "../../geometry/vector.ts";

/** Sides of a round body. Of equal section it hides what the circle hides but for 0.1 % of its area. */
export const AROUND = 16;

/** Points with normals (3 each), the part and area (m²) of each. */
export interface BodyNodes {
  readonly part: Uint32Array;
  readonly at: Float64Array;
  readonly normal: Float64Array;
  readonly area: Float64Array;
}

export class BodyParts {
  readonly pieces: Polyhedron[] = [];
  readonly reflectance: number[] = [];
  readonly facetPart: number[] = [];
  readonly facetPiece: number[] = [];
  readonly start: number[] = [0];
  readonly vertices: number[] = [];
  readonly planes: number[] = [];
  readonly nodes = new NodeList();
  readonly litNodes = new NodeList();

  /** A new part; its number. */
  part(reflectance: number): number {
    return this.reflectance.push(reflectance) - 1;
  }

  /** A flat convex facet of a part, counter-clockwise seen from outside. */
  facet(part: number, piece: number, corners: readonly Vec3[], normal: Vec3): void {
    this.facetPart.push(part);
    this.facetPiece.push(piece);
    this.vertices.push(...corners.flat());
    this.start.push(this.vertices.length / 3);
    const [a] = corners;
    this.planes.push(...normal, a[0] * normal[0] + a[1] * normal[1] + a[2] * normal[2]);
  }
}

class NodeList {
  readonly part: number[] = [];
  readonly at: number[] = [];
  readonly normal: number[] = [];
  readonly area: number[] = [];

  add(part: number, at: Vec3, normal: Vec3, area: number): void {
    this.part.push(part);
    this.at.push(...at);
    this.normal.push(...normal);
    this.area.push(area);
  }

  /** Without the nodes that a piece covers. */
  exposed(pieces: readonly Polyhedron[]): BodyNodes {
    const out = new NodeList();
    for (let k = 0; k < this.part.length; k++) {
      const at: Vec3 = [this.at[3 * k], this.at[3 * k + 1], this.at[3 * k + 2]];
      const normal: Vec3 = [this.normal[3 * k], this.normal[3 * k + 1], this.normal[3 * k + 2]];
      const [x, y, z] = at.map((value, c) => value + COVER * normal[c]);
      if (!pieces.some((piece) => deepInside(piece, x, y, z, 0)))
        out.add(this.part[k], at, normal, this.area[k]);
    }
    return {
      part: Uint32Array.from(out.part),
      at: Float64Array.from(out.at),
      normal: Float64Array.from(out.normal),
      area: Float64Array.from(out.area),
    };
  }
}

/** A piece that begins nearer than this above a node covers it (m). */
const COVER = 1e-5;
