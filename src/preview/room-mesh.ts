/** The scene's surfaces as one mesh, drawn from the nearest to the farthest, so that what is hidden is not shaded. */

import { Box3, type BufferAttribute, type Material, Mesh, Vector3 } from "three";
import type { Scene } from "../scene/scene.ts";
import type { SurfacePart } from "../scene/surface.ts";
import type { SurfaceAtlas } from "./surface-atlas.ts";
import { mirroringSurfaces, type RoomTriangles, roomTriangles, spotsOf } from "./surface-triangles.ts";

/** Groups of the geometry, in the order they are drawn: what mirrors, what stands in the room, the room itself. */
const MIRRORS = 0;
const BODIES = 1;
const SHELL = 2;
const STANDING: readonly SurfacePart[] = ["island top", "island sides", "body"];

interface Part {
  readonly from: number;
  readonly to: number;
  readonly box: Box3;
  readonly group: number;
  distance: number;
}

export class RoomMesh {
  readonly mesh: Mesh;
  /** Corners (m) of each part of the top that mirrors. */
  readonly mirrorOutlines: readonly (readonly Vector3[])[];
  readonly #triangles: RoomTriangles;
  readonly #parts: Part[];

  constructor(scene: Scene) {
    this.#triangles = roomTriangles(scene);
    const { triangles, surfaces } = this.#triangles;
    const mirroring = mirroringSurfaces(scene);
    this.mirrorOutlines = mirroring.map((s) => scene.surfaces[s].vertices.map((p) => new Vector3(...p)));
    this.#parts = [];
    for (let from = 0; from < surfaces.length; ) {
      let to = from + 1;
      while (surfaces[to] === surfaces[from]) to++;
      const box = new Box3().setFromArray(triangles.positions.slice(3 * from, 3 * to));
      const s = surfaces[from];
      const group = mirroring.includes(s)
        ? MIRRORS
        : STANDING.includes(scene.surfaces[s].part)
          ? BODIES
          : SHELL;
      this.#parts.push({ from, to, box, group, distance: 0 });
      from = to;
    }
    const geometry = triangles.geometry();
    let first = 0;
    for (const group of [MIRRORS, BODIES, SHELL]) {
      const parts = this.#parts.filter((part) => part.group === group);
      const count = parts.reduce((sum, { from, to }) => sum + to - from, 0);
      geometry.addGroup(first, count, group);
      first += count;
    }
    this.mesh = new Mesh(geometry);
  }

  useMaterials(mirroring: Material, bodies: Material, shell: Material): void {
    this.mesh.material = [mirroring, bodies, shell];
  }

  /** Puts the surfaces of each group in their order from an eye. */
  sortFrom(eye: Vector3): void {
    for (const part of this.#parts) part.distance = part.box.distanceToPoint(eye);
    this.#parts.sort((a, b) => a.group - b.group || a.distance - b.distance);
    const index = this.mesh.geometry.index as BufferAttribute;
    let at = 0;
    for (const { from, to } of this.#parts) for (let k = from; k < to; k++) index.setX(at++, k);
    index.needsUpdate = true;
  }

  /** Where each vertex finds its light. */
  useAtlas(atlas: SurfaceAtlas): void {
    const spot = this.mesh.geometry.getAttribute("spot") as BufferAttribute;
    (spot.array as Float32Array).set(spotsOf(this.#triangles, atlas));
    spot.needsUpdate = true;
  }
}
