import type { Layer } from "../scene/scene.ts";

/**
 * Whether luminaires are dimmed by digital control (DALI, DMX): by cores of its own, from a control unit. Their switches are then inputs of
 * the control, no pair in the mains, and no dimmer has a least load. Of the free words on dimming the names of the standards are
 * understood. Common practice, no source.
 */
export function isDigital({ luminaires }: Pick<Layer, "luminaires">): boolean {
  return luminaires.every(({ luminaire: { dimming } }) => /\bd(ali|mx|igital)/i.test(dimming ?? ""));
}
