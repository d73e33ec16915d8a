import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import type { Layer } from "./scene.ts";

/** Whether a luminaire hangs on something wherever it is: what is in a layer of pendants, or says what it hangs on. What
 * a layer is for, as a search or a dimmer asks, is its role alone. */
export function isPendant({ role }: Layer, { luminaire }: PlacedLuminaire): boolean {
  return role === "pendant" || luminaire.suspension !== undefined;
}
