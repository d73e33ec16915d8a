import type { Layer } from "../scene/scene.ts";

/** Digital controls by the names of their standards; of the free words on dimming these are understood. */
const DIGITAL = /\b(dali|dmx|digital)/i;

/**
 * Whether a layer is dimmed by digital control: by cores of its own, from a control unit. Its switches are then inputs of the control, no
 * pair in the mains, and no dimmer has a least load. Common practice, no source.
 */
export function isDigital({ luminaires }: Pick<Layer, "luminaires">): boolean {
  return (
    luminaires.length > 0 && luminaires.every(({ luminaire: { dimming = "" } }) => DIGITAL.test(dimming))
  );
}
