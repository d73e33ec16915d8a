/** What stands or hangs in the room and is no surface: pendants, trims of recessed luminaires, people. */

import { isPendant } from "../scene/is-pendant.ts";
import type { Scene } from "../scene/scene.ts";
import { luminaireTriangles } from "./luminaire-body.ts";
import { figureTriangles } from "./person-figure.ts";
import { forgetOldShapes, Triangles } from "./triangles.ts";

/** A thing that is no surface: its triangles and the blocker it stands for. */
export interface FreeBody {
  readonly name: string;
  readonly kind: "pendant" | "person" | "fitting";
  /** Index among the scene's blockers, −1 for none. */
  readonly blocker: number;
  readonly triangles: Triangles;
}

/** Pendants with cord and canopy, trims of recessed luminaires, and people where they are wanted. */
export function freeBodies(scene: Scene, people: boolean): FreeBody[] {
  forgetOldShapes();
  const things: FreeBody[] = [];
  scene.layers.forEach((each, layer) => {
    each.luminaires.forEach((placed, index) => {
      const triangles = new Triangles();
      const blocker = scene.blockers.findIndex(({ owner }) => owner?.[0] === layer && owner[1] === index);
      luminaireTriangles(scene, placed, isPendant(each, placed), triangles);
      if (triangles.count > 0)
        things.push({
          name: `${each.name} ${index + 1}`,
          kind: blocker < 0 ? "fitting" : "pendant",
          blocker,
          triangles,
        });
    });
  });
  scene.blockers.forEach((each, blocker) => {
    if (each.kind !== "person" || !people) return;
    const triangles = new Triangles();
    figureTriangles(each, triangles);
    things.push({ name: each.name, kind: "person", blocker, triangles });
  });
  return things;
}
