/** Luminaires as drawings name them: by number of layer and place in it. */

import type { LuminaireKey } from "./snap.ts";

export function sameLuminaire(a: LuminaireKey, b: LuminaireKey): boolean {
  return a.layer === b.layer && a.index === b.index;
}
