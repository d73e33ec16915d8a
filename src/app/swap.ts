/** Another luminaire of the study, or other light, in place of a layer's own: every verdict before and after. */

import { type Swap, swap } from "../design/swap.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import type { Outcome } from "../diagnostics/issue.ts";
import { studyCheck } from "./full-check.ts";
import { arrangementIndex, layerIndex, unknownLuminaire } from "./named-in-study.ts";
import type { OpenStudy } from "./open-document.ts";

export interface SwapOptions {
  /** By name or number; the first by default. */
  readonly arrangement?: string | number;
  /** The layer by name; the first of pendants by default. */
  readonly layer?: string;
  /** A luminaire's name, or the share of the planned one's light that another lamp or trim leaves, above 0 to 5. */
  readonly instead: string | number;
  /** Probability with which a target must be reached to be called met, 0.5 to 0.999; 0.9 by default. */
  readonly confidence?: number;
}

export async function swapLuminaire(
  opened: OpenStudy,
  { arrangement, layer: name, instead, confidence }: SwapOptions,
  observer: Observer = {},
): Promise<Outcome<Swap>> {
  const { study, document } = opened;
  const index = arrangementIndex(study.scenes, arrangement);
  if (!index.ok) return index;
  const layer = layerIndex(study.scenes[index.value], name);
  if (!layer.ok) return layer;
  if (typeof instead === "string" && !study.luminaires.has(instead))
    return unknownLuminaire(study.luminaires, instead);
  const check = await studyCheck(opened, confidence, observer);
  return swap(document.arrangements[index.value], layer.value, study.luminaires, instead, check);
}
