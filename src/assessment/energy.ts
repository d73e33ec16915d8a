import type { Scene } from "../scene/scene.ts";
import type { ArrangementAssessment } from "./assessment.ts";

/** Input power of an arrangement as dimmed (W; linear with flux), per floor area of the room (W/m²), and how
 * many luminaires did not say: they count as nothing, so with any of them the figure is a lower bound. */
export function energyOf(scene: Scene): ArrangementAssessment["energy"] {
  let watts = 0;
  let unknownWatts = 0;
  for (const layer of scene.layers)
    for (const { luminaire } of layer.luminaires) {
      if (luminaire.watts === undefined) unknownWatts++;
      else watts += luminaire.watts * layer.dim;
    }
  const area = scene.room.length * scene.room.width;
  return { watts, wattsPerSquareMetre: area > 0 ? watts / area : 0, unknownWatts };
}
