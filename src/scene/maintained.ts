/** Light in use from light as calculated: E = E_initial · dim · MF, the only place where dimmer and maintenance factor come in. */

import type { Layer, Scene } from "./scene.ts";

/** Share of a layer's light, initial and at full output, that is counted on: its dimmer's, and what ageing and dirt leave. */
export function maintainedShare(
  { maintenance }: Pick<Scene, "maintenance">,
  { dim }: Pick<Layer, "dim">,
): number {
  return dim * maintenance;
}
