import type { Luminaire } from "./luminaire.ts";

/** As high as somebody said: without a body whose height is a usual one, which is no ground to say that it does not fit. */
export function ofKnownHeight(luminaire: Luminaire): Luminaire {
  if (luminaire.body?.isUsualHeight !== true) return luminaire;
  const { body: _, ...rest } = luminaire;
  return rest;
}
