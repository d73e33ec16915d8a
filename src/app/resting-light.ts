/** The light of one arrangement for a screen that rests, loaded after the light of the first. */

import type { Observer } from "../diagnostics/cancelled.ts";
import type { PlaneField } from "../engine/result.ts";
import { arrangementLight } from "./arrangement-light.ts";
import type { InterreflectedLight, Light, LightRequest } from "./light-answer.ts";
import { movingPlanes } from "./moving-planes.ts";
import { oddInputs } from "./odd-inputs.ts";
import type { OpenArrangement } from "./open-document.ts";

/** `judged`: as everybody gets it; `full`: its contours as coarse as while something moves. With both, what stands in
 * while something moves. */
export async function restingLight(
  opened: OpenArrangement,
  { quality, setting }: LightRequest,
  observer: Observer,
): Promise<Light> {
  const moving = movingPlanes(opened.scene);
  const options = {
    ...(setting === undefined ? {} : { setting }),
    ...(quality === "judged" ? { planes: moving.planes } : { judged: false, refined: moving }),
  };
  const light = await arrangementLight(opened, opened.scene, options, observer);
  const { scene, assessment, contours, clashes: found, shifted, result, fields } = light;
  return {
    scene,
    assessment,
    contours,
    clashes: found,
    ...(shifted === undefined ? {} : { shifted }),
    interreflected: interreflectedOf([...result.planes, ...fields]),
    odd: oddInputs(opened.document, opened.study),
  };
}

function interreflectedOf(planes: readonly PlaneField[]): InterreflectedLight {
  return planes.flatMap(({ plane, layers }) =>
    layers.map(({ layer, interreflected }) => ({ plane, layer, interreflected })),
  );
}
