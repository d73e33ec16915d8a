/**
 * Light in use from light as calculated: E = E_initial · dim · MF. Dimmer and maintenance factor come in here; the factor goes out again
 * here for what is asked of new light. By hand it stands too where the dimmer is what is sought (design/found-levels), where layers
 * share a weight on the graphics processor (preview/light-cache), and for readings on site (design/verify, which takes the factor that they state,
 * and the page's own readings).
 */

import type { Layer, Scene } from "./scene.ts";
import type { Requirement } from "./target.ts";

/** Share of a layer's light, initial and at full output, that is counted on: its dimmer's, and what ageing and dirt leave. */
export function maintainedShare(
  { maintenance }: Pick<Scene, "maintenance">,
  { dim }: Pick<Layer, "dim">,
): number {
  return dim * maintenance;
}

/** What maintained light is multiplied by to be light as new; 1 where nothing is left of it. */
export function initialFactor(maintenance: number): number {
  return maintenance > 0 ? 1 / maintenance : 1;
}

/** What maintained light is multiplied by to be of the nature a target asks for. */
export function natureFactor(
  { maintenance }: Pick<Scene, "maintenance">,
  nature: Requirement["nature"] | undefined,
): number {
  return nature === "initial" ? initialFactor(maintenance) : 1;
}
