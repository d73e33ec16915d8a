/** Electrical power of luminaires as dimmed. */

import type { Layer, Scene } from "../scene/scene.ts";
import type { Energy } from "./assessment.ts";

/** Share of full power a layer draws at its dimming: the dimmer's own curve, straight between its points and
 * level beyond them; without one, linear with flux. */
export function powerShare({ dim, dimmer }: Pick<Layer, "dim" | "dimmer">): number {
  const curve = dimmer?.curve;
  if (curve === undefined || curve.length === 0) return dim;
  const after = curve.findIndex(([flux]) => flux >= dim);
  if (after < 0) return curve[curve.length - 1][1];
  if (after === 0) return curve[0][1];
  const [[f0, w0], [f1, w1]] = [curve[after - 1], curve[after]];
  return f1 === f0 ? w1 : w0 + ((dim - f0) / (f1 - f0)) * (w1 - w0);
}

/** Input power of a layer as dimmed (W), and how many of its luminaires did not state theirs. */
export function layerPower(layer: Layer): { readonly watts: number; readonly unknown: number } {
  let full = 0;
  let unknown = 0;
  for (const { luminaire } of layer.luminaires) {
    if (luminaire.watts === undefined) unknown++;
    else full += luminaire.watts;
  }
  return { watts: full * powerShare(layer), unknown };
}

/** Input power of an arrangement as dimmed (W), per floor area of the room (W/m²), and how many luminaires did
 * not say: they count as nothing, so with any of them the figure is a lower bound. */
export function energyOf(scene: Scene): Energy {
  let watts = 0;
  let unknownWatts = 0;
  for (const layer of scene.layers) {
    const power = layerPower(layer);
    watts += power.watts;
    unknownWatts += power.unknown;
  }
  const area = scene.room.length * scene.room.width;
  return { watts, wattsPerSquareMetre: area > 0 ? watts / area : 0, unknownWatts };
}
