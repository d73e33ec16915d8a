/**
 * What can stand between an eye and what it looks at: every solid but people, in one tree.
 *
 * Cache: by the scene's list of solids, for as long as that lives.
 */

import { type Box, boxOfMesh } from "../../geometry/box.ts";
import { VisibilityTree } from "../../geometry/visibility-tree.ts";
import type { Blocker, Scene } from "../../scene/scene.ts";

export interface ViewBlockers {
  readonly blockers: readonly Blocker[];
  readonly boxes: readonly Box[];
  /** Solids numbered as in `blockers`. */
  readonly tree: VisibilityTree;
}

const views = new WeakMap<readonly Blocker[], ViewBlockers>();

export function viewBlockers({ blockers: all }: Pick<Scene, "blockers">): ViewBlockers {
  let view = views.get(all);
  if (view === undefined) {
    const blockers = all.filter(({ kind }) => kind !== "person");
    view = {
      blockers,
      boxes: blockers.map(({ mesh }) => boxOfMesh(mesh)),
      tree: new VisibilityTree(blockers),
    };
    views.set(all, view);
  }
  return view;
}
