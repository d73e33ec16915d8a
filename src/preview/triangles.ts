/** Triangles as the room's shader takes them: position, normal, reflectance times tint, and light of each vertex. Shapes are kept by
 * kind and measures until {@link KEPT} scenes have been without them. */

import { BufferAttribute, BufferGeometry, type Matrix4, Vector3 } from "three";
import { mergeVertices } from "three/addons/utils/BufferGeometryUtils.js";
import type { Vec3 } from "../geometry/vector.ts";
import { RecentCache } from "../numerics/recent-cache.ts";

/** Scenes that a shape outlives without being in one. */
const KEPT = 4;
const shapes = new RecentCache<BufferGeometry>(KEPT);

/** A three geometry with each vertex once, as light is computed for every one; kept by its kind and measures, as most shapes
 * come again in the next scene, and finding equal vertices takes longer than all else about them. */
export function mergedShape(kind: string, measures: unknown, make: () => BufferGeometry): BufferGeometry {
  return shapes.get(`${kind} ${JSON.stringify(measures)}`, () => {
    const geometry = make();
    geometry.deleteAttribute("uv");
    const merged = mergeVertices(geometry, 1e-5);
    geometry.dispose();
    return merged;
  });
}

/** Another scene is there: shapes not asked for in the last few are forgotten. */
export function forgetOldShapes(): void {
  shapes.turn();
}

/** Vertices as the room's shader takes them, and the triangles between them. */
export class Triangles {
  readonly positions: number[] = [];
  readonly normals: number[] = [];
  readonly albedo: number[] = [];
  readonly index: number[] = [];

  /** Number of vertices. */
  get count(): number {
    return this.positions.length / 3;
  }

  /** A vertex of its own: three one after the other make a triangle. */
  corner(p: Vec3, n: Vec3, albedo: Vec3): void {
    this.index.push(this.count);
    this.vertex(p, n, albedo);
  }

  vertex(p: Vec3, n: Vec3, albedo: Vec3): void {
    this.positions.push(...p);
    this.normals.push(...n);
    this.albedo.push(...albedo);
  }

  /** The triangles of a {@link mergedShape}, moved. */
  add(shape: BufferGeometry, matrix: Matrix4, albedo: Vec3): void {
    const { position, normal } = shape.attributes;
    const first = this.count;
    for (const i of shape.index?.array ?? []) this.index.push(first + i);
    const p = new Vector3();
    const n = new Vector3();
    for (let i = 0; i < position.count; i++) {
      p.fromBufferAttribute(position, i).applyMatrix4(matrix);
      n.fromBufferAttribute(normal, i).transformDirection(matrix);
      this.vertex([p.x, p.y, p.z], [n.x, n.y, n.z], albedo);
    }
  }

  /** With room for each vertex's place in the atlas (`spot`) and its own light (`own`). */
  geometry(): BufferGeometry {
    const geometry = new BufferGeometry();
    const set = (name: string, values: ArrayLike<number>, size: number): void => {
      geometry.setAttribute(name, new BufferAttribute(Float32Array.from(values), size));
    };
    set("position", this.positions, 3);
    set("normal", this.normals, 3);
    set("albedo", this.albedo, 3);
    geometry.setIndex(new BufferAttribute(Uint32Array.from(this.index), 1));
    geometry.setAttribute("spot", new BufferAttribute(new Float32Array(2 * this.count), 2));
    geometry.setAttribute("own", new BufferAttribute(new Float32Array(4 * this.count), 4));
    return geometry;
  }
}
