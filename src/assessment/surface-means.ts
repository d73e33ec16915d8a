/** Mean light of the room's surfaces as it is counted on: Σ A_i Σ_l x_l,i d_l MF / Σ A_i over the patches of chosen parts. */

import type { CalculationResult } from "../engine/result.ts";
import { maintainedShare } from "../scene/maintained.ts";
import type { Scene } from "../scene/scene.ts";
import type { SurfacePart } from "../scene/surface.ts";

/** Mean illuminance (lx) or exitance (lm/m²) of the parts wanted, dimmed and maintained; undefined without interreflection, and
 * where there is no such part. */
export function surfaceMean(
  scene: Scene,
  { patches }: Pick<CalculationResult, "patches">,
  quantity: "illuminance" | "exitance",
  wanted: (part: SurfacePart) => boolean,
): number | undefined {
  if (patches === undefined) return undefined;
  const shares = scene.layers.map((layer) => maintainedShare(scene, layer));
  let area = 0;
  let flux = 0;
  for (let i = 0; i < patches.area.length; i++) {
    const part = scene.surfaces[patches.surface[i]]?.part;
    if (part === undefined || !wanted(part)) continue;
    area += patches.area[i];
    patches.layers.forEach((layer, l) => {
      flux += patches.area[i] * layer[quantity][i] * shares[l];
    });
  }
  return area > 0 ? flux / area : undefined;
}
