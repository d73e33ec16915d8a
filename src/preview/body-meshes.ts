/**
 * Pendants, trims and people in the light: direct light computed at every vertex, interreflected light from the six
 * faces of the cube about each,
 *
 *   E = Σ w (E_direct + Σ n_k² E_k),   k the face of the cube that n points to along each axis
 *
 * What has no cube, such as a trim in the ceiling, takes the interreflected light of the surface it lies on.
 */

import { type BufferAttribute, type Material, Mesh } from "three";
import { type FreeBody, freeBodies } from "./free-bodies.ts";
import type { Light, LightCache } from "./light-cache.ts";
import { MOVING } from "./preview-quality.ts";
import { type SceneTexture, SLOTS } from "./scene-texture.ts";
import { texelOf } from "./surface-atlas.ts";
import { surfaceAt } from "./surface-reading.ts";

interface LitThing {
  readonly thing: FreeBody;
  readonly mesh: Mesh;
  direct: Float32Array;
}

export class BodyMeshes {
  readonly #things: LitThing[];

  constructor({ scene, people }: Light) {
    this.#things = freeBodies(scene, people).map((thing) => ({
      thing,
      mesh: new Mesh(thing.triangles.geometry()),
      direct: new Float32Array(0),
    }));
  }

  get meshes(): readonly Mesh[] {
    return this.#things.map(({ mesh }) => mesh);
  }

  useMaterials(material: Material): void {
    for (const { mesh } of this.#things) mesh.material = material;
  }

  /** Everything is drawn but the person of that name, whose eye it is. */
  leaveOut(name: string | undefined): void {
    for (const { thing, mesh } of this.#things) mesh.visible = thing.kind !== "person" || thing.name !== name;
  }

  /** Direct light at every vertex of every thing; then developed. */
  light(cache: LightCache, light: Light, still: boolean): void {
    const { records, points } = cache;
    const positions: number[] = [];
    const normals: number[] = [];
    const rows: number[] = [];
    for (const { thing } of this.#things) {
      const { triangles } = thing;
      const row = rowOf(thing, records);
      for (let i = 0; i < triangles.count; i++) rows.push(row);
      positions.push(...triangles.positions);
      normals.push(...triangles.normals);
    }
    if (rows.length === 0) return;
    const lit = points.at(
      Float32Array.from(positions),
      Float32Array.from(normals),
      rows,
      still ? { ...MOVING, probes: 8 } : MOVING,
    );
    let from = 0;
    for (const each of this.#things) {
      const to = from + 4 * each.thing.triangles.count;
      each.direct = lit.slice(from, to);
      from = to;
    }
    this.develop(cache, light);
  }

  /** Weighs each vertex's light and adds the interreflected light on the cube about the thing. */
  develop(cache: LightCache, light: Light): void {
    const { weights, tints } = cache;
    const folded = light.scene.layers.length > SLOTS;
    const cubes = light.surfaces?.things ?? [];
    const bodies = light.scene.blockers.filter(({ kind }) => kind === "pendant" || kind === "person");
    for (const { thing, mesh, direct } of this.#things) {
      const cube = thing.blocker < 0 ? undefined : cubes[bodies.indexOf(light.scene.blockers[thing.blocker])];
      const own = mesh.geometry.getAttribute("own") as BufferAttribute;
      const out = own.array as Float32Array;
      const { normals, count } = thing.triangles;
      const around = cube === undefined ? besideSurface(thing, cache, light) : undefined;
      for (let i = 0; i < count; i++) {
        const n = normals.slice(3 * i, 3 * i + 3);
        out.fill(0, 4 * i, 4 * i + 4);
        const add = (slot: number, E: number): void => {
          const w = weights[slot] * E;
          for (let k = 0; k < 3; k++) out[4 * i + k] += w * tints[slot][k];
          out[4 * i + 3] += w;
        };
        for (let slot = 0; slot < SLOTS; slot++) add(slot, direct[4 * i + slot] ?? 0);
        around?.forEach((E, slot) => {
          add(slot, E);
        });
        cube?.layers.forEach((faces, layer) => {
          let E = 0;
          for (let k = 0; k < 3; k++) E += n[k] * n[k] * faces[2 * k + (n[k] < 0 ? 1 : 0)];
          add(folded ? 0 : layer, folded ? E * light.scene.layers[layer].dim : E);
        });
      }
      own.needsUpdate = true;
    }
  }
}

/** Row: every solid may stand between but the thing itself. */
function rowOf({ blocker }: FreeBody, records: SceneTexture): number {
  const solid = blocker < 0 ? -1 : records.solidOf[blocker];
  return solid < 0 ? records.rowOfAnything : records.rowWithout + solid;
}

/** Interreflected light of the surface that a thing's first vertex lies on, each slot's. */
function besideSurface(
  { triangles }: FreeBody,
  cache: LightCache,
  { scene }: Light,
): Float64Array | undefined {
  const [x, y, z] = triangles.positions;
  const cells = cache.target?.atlas.cells;
  const surface = cells === undefined ? undefined : surfaceAt(scene, cells, [x, y, z]);
  return surface === undefined
    ? undefined
    : cache.interreflectedSlotsAt(...texelOf(surface.cell, surface.place));
}
