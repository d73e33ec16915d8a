/** The set-out plan on paper as it fills, which everything drawn on it shares. */

import type { Vec2 } from "../geometry/vector.ts";
import type { Scene } from "../scene/scene.ts";
import type { Box } from "./drawing.ts";

/** A part of the room, by its corners (m). */
export interface PlanWindow {
  readonly from: Vec2;
  readonly to: Vec2;
}

export interface SetOutPage {
  readonly scene: Scene;
  /** Points a metre. */
  readonly perMetre: number;
  /** For CAD: places and sizes are the true ones; nothing is enlarged or moved aside to be legible. */
  readonly isFullSize: boolean;
  /** Paper of a place of the room (m). */
  at(place: Vec2): Vec2;
  /** What of the room is shown, and the paper it takes, on which words stay (points). */
  readonly window: PlanWindow;
  readonly field: Box;
  /** What is drawn or written already (points); whoever writes adds to it. */
  readonly taken: Box[];
}
