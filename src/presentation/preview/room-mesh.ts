/** The scene's surfaces as one mesh, drawn from the nearest to the farthest, so that what is hidden is not shaded. */

import { Box3, type BufferAttribute, type Material, Mesh, Vector3 } from "three";
import type { Scene } from "../../scene/scene.ts";
import type { SurfaceAtlas } from "./surface-atlas.ts";
import { mirroringSurfaces, type RoomTriangles, roomTriangles, spotsOf } from "./surface-triangles.ts";

interface Part {
  readonly from: number;
  readonly to: number;
  readonly box: Box3;
  readonly mirrors: boolean;
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
      this.#parts.push({ from, to, box, mirrors: mirroring.includes(surfaces[from]), distance: 0 });
      from = to;
    }
    const geometry = triangles.geometry();
    const mirrored = this.#parts.reduce((sum, { from, to, mirrors }) => sum + (mirrors ? to - from : 0), 0);
    geometry.addGroup(0, mirrored, 1);
    geometry.addGroup(mirrored, surfaces.length - mirrored, 0);
    this.mesh = new Mesh(geometry);
  }

  /** One material for what mirrors, one for the rest. */
  dress(plain: Material, mirroring: Material): void {
    this.mesh.material = [plain, mirroring];
  }

  /** Puts the surfaces in their order from an eye; what mirrors is in front, as a group of its own. */
  sortFrom(eye: Vector3): void {
    for (const part of this.#parts) part.distance = part.box.distanceToPoint(eye);
    this.#parts.sort((a, b) => Number(b.mirrors) - Number(a.mirrors) || a.distance - b.distance);
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
