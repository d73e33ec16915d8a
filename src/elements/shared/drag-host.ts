/** What the pointer and keys on luminaires need of the drawing they work in, and what they take hold of. */

import type { LuminaireKey, Move } from "../../drawing/luminaire-key.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Wording } from "../../words/wording.ts";

export interface DragHost extends EventTarget {
  readonly shownScene: Scene | undefined;
  readonly words: Wording;
  selection: readonly LuminaireKey[];
  /** Metres that the held luminaire moves for a shift on the page (px), in the island's axes. */
  moveOf(dx: number, dy: number, held?: LuminaireKey): Move;
  /** How near a snap must be (m). */
  readonly snapReach: number;
  /** A hold begins or ends: the drawing keeps its scales still meanwhile. */
  holding(held: boolean): void;
}

/** What is moved, and where it was: of every move, by pointer or key. */
export interface Start {
  readonly scene: Scene;
  readonly held: LuminaireKey;
  readonly moving: readonly LuminaireKey[];
}

/** `pendants 2`, or `3 luminaires`. */
export function nameOf(scene: Scene, keys: readonly LuminaireKey[]): string {
  if (keys.length === 1) return `${scene.layers[keys[0].layer].name} ${keys[0].index + 1}`;
  return `${keys.length} luminaires`;
}
