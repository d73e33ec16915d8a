/** The plan of the top on its page, which everything drawn on it shares. */

import type { Vec2 } from "../geometry/vector.ts";
import type { Scene } from "../scene/scene.ts";
import type { Wording } from "../words/wording.ts";
import type { IslandAxes } from "./island-axes.ts";
import type { SheetScale } from "./sheet-scale.ts";

export interface PlanFrame {
  readonly height: number;
  /** Page y of the chain of dimensions under the top. */
  readonly chain: number;
  /** Page y of a place across the island; across grows up the page. */
  y(across: number): number;
  across(y: number): number;
}

export interface PlanPage {
  readonly scene: Scene;
  readonly axes: IslandAxes;
  readonly scale: SheetScale;
  readonly frame: PlanFrame;
  readonly words: Wording;
  /** Where a place of the island's frame (m) comes to lie. */
  at(place: Vec2): Vec2;
}
