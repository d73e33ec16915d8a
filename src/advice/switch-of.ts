import type { Layer } from "../scene/scene.ts";
import { isDigital } from "./digital-control.ts";
import { type SwitchKind, switchKind } from "./switching.ts";

/** Of a place of a layer: its kind, and whether it dims. A pair dims from its first place, a dimmer in each would fight; under digital control
 * each is an input by itself. */
export function switchOf(layer: Layer, place: number): { readonly kind: SwitchKind; readonly dims: boolean } {
  if (isDigital(layer)) return { kind: "one-way", dims: false };
  const kind = switchKind(place, layer.switches?.length ?? 0);
  return { kind, dims: layer.dimmer !== undefined && place === 0 };
}
