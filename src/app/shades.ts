/** One shade clear, frosted, opal and solid, in its place in the study. */

import { compareShadeVariants, type ShadeVariantResult } from "../design/shade-variants.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { failure, type Outcome, success } from "../diagnostics/issue.ts";
import { isShadeLamp } from "../luminaire/shade/shade-document.ts";
import type { Scene } from "../scene/scene.ts";
import { arrangementIndex } from "./named-in-study.ts";
import type { OpenStudy } from "./open-document.ts";

export interface ShadeComparison {
  readonly scene: Scene;
  readonly layer: number;
  readonly luminaire: string;
  readonly variants: readonly ShadeVariantResult[];
}

/** The first arrangement, or the one named, that hangs a luminaire of lamp and shade, or the one named. */
export async function compareShades(
  opened: OpenStudy,
  options: { readonly arrangement?: string; readonly luminaire?: string },
  observer: Observer = {},
): Promise<Outcome<ShadeComparison>> {
  const { study, document, engines } = opened;
  const place = placeOf(opened, options);
  if (!place.ok) return place;
  const { scene, layer, luminaire } = place.value;
  const { lamp, shade } = document.luminaires?.[luminaire] ?? {};
  if (!isShadeLamp(lamp) || shade === undefined) return success({ ...place.value, variants: [] });
  const engine = await engines.get();
  const variants = compareShadeVariants(scene, {
    layer,
    lamp,
    shade,
    calculate: (...of) => engine.calculate(...of),
    // Differences between finishes are large; the quick calculation's bound is a few per cent of interreflected light.
    options: { ...study.options, quality: "quick" },
    observer,
  });
  return success({ scene, layer, luminaire, variants });
}

function placeOf(
  { study, document }: OpenStudy,
  { arrangement, luminaire }: { readonly arrangement?: string; readonly luminaire?: string },
): Outcome<Omit<ShadeComparison, "variants">> {
  const index = arrangementIndex(study.scenes, arrangement);
  if (!index.ok) return index;
  const scenes = arrangement === undefined ? study.scenes : [study.scenes[index.value]];
  for (const scene of scenes) {
    const layer = scene.layers.findIndex(({ luminaires: hung }) =>
      hung.some(({ luminaire: { name } }) => {
        const { lamp, shade } = document.luminaires?.[name] ?? {};
        return isShadeLamp(lamp) && shade !== undefined && (luminaire === undefined || name === luminaire);
      }),
    );
    if (layer >= 0)
      return success({ scene, layer, luminaire: scene.layers[layer].luminaires[0].luminaire.name });
  }
  return failure({
    code: "shade-comparison",
    message: "No arrangement hangs a luminaire of lamp and shade whose finish could be changed.",
    expected: '"lamp" and a "shade" in a luminaire that an arrangement uses',
    ...(luminaire === undefined ? {} : { received: luminaire }),
  });
}
