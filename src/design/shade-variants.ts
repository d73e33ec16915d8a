/**
 * Clear against solid: the same lamp and profile as clear, frosted and opal glass, and as a solid shade lined white or
 * dark, or the same strip in an open and in a covered housing, each hung in the same place.
 *
 * Finishes are the typical values of `luminaire/shade/finishes.ts`; figures the study gives for its own finish do not
 * carry over to another. The lowest point of each hangs where that of the original does.
 */

import { visualWeight } from "../advice/appearance/visual-weight.ts";
import { personGlare } from "../advice/glare/person-glare.ts";
import { maintainedLayers, totalOf } from "../assessment/layer-light.ts";
import { statistics } from "../assessment/statistics.ts";
import { surfaceMean } from "../assessment/surface-means.ts";
import { type Observer, throwIfCancelled } from "../diagnostics/cancelled.ts";
import { formatIssue } from "../diagnostics/issue.ts";
import type { Calculate } from "../engine/calculate.ts";
import { lowestPoint } from "../luminaire/extent.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { buildShadeLuminaire } from "../luminaire/shade/build.ts";
import type { FinishName } from "../luminaire/shade/finishes.ts";
import type { LampDocument, ShadeDocument } from "../luminaire/shade/shade-document.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { Scene } from "../scene/scene.ts";
import { topPlane } from "../scene/top-plane.ts";
import { withLuminaires } from "../scene/with-hanging.ts";

export interface ShadeVariant {
  readonly name: string;
  readonly finish: FinishName;
  readonly shade: ShadeDocument;
}

const FINISHES: readonly (readonly [name: string, finish: FinishName])[] = [
  ["clear", "clear glass"],
  ["frosted", "frosted glass"],
  ["opal", "opal glass"],
  ["solid, white inside", "white"],
  ["solid, dark inside", "black"],
];

/** Of a linear housing, which is solid: what closes its mouth, and how it is lined. */
const TROUGHS: readonly (readonly [name: string, finish: FinishName, cover: FinishName | undefined])[] = [
  ["open, white inside", "white", undefined],
  ["open, dark inside", "black", undefined],
  ["frosted cover, white inside", "white", "frosted glass"],
  ["opal cover, white inside", "white", "opal plastic"],
  ["opal cover, dark inside", "black", "opal plastic"],
];

/** The shade in five finishes. What was said of its surfaces is dropped, its form and openings are kept; a linear
 * housing is shown open and covered. */
export function shadeVariants(shade: ShadeDocument): ShadeVariant[] {
  const { inside: _i, outside: _o, transmittance: _t, diffusion: _d, ...form } = shade;
  if (form.profile === "linear") {
    const { bottom: _b, diffuser: _c, ...housing } = form;
    return TROUGHS.map(([name, finish, cover]) => {
      const mouth =
        cover === undefined
          ? ({ bottom: "open" } as const)
          : ({ bottom: "diffuser", diffuser: { finish: cover } } as const);
      return { name, finish, shade: { ...housing, finish, ...mouth } };
    });
  }
  return FINISHES.map(([name, finish]) => ({ name, finish, shade: { ...form, finish } }));
}

export interface ShadeVariantResult {
  readonly name: string;
  readonly finish: FinishName;
  /** Why there are no figures: a closed solid shade lets nothing out. */
  readonly unlit?: string;
  readonly figures?: {
    readonly lightOutputRatio: number;
    readonly downwardShare: number;
    /** On the whole top, all layers, maintained (lx; ratio). */
    readonly average: number;
    readonly uniformity: number;
    /** Mean illuminance of the ceiling, all layers, maintained (lx). */
    readonly ceiling: number;
    /** The brightest of these pendants towards each eye (cd/m²), 0 where none is in view. */
    readonly eyes: readonly {
      readonly person: string;
      readonly luminance: number;
      readonly lamp: boolean;
    }[];
    /** Share of the view between counter and ceiling: covered, and weighted by opacity. */
    readonly covered: number;
    readonly weight: number;
  };
}

export interface ShadeVariantRequest {
  readonly layer: number;
  readonly lamp: LampDocument;
  readonly shade: ShadeDocument;
  readonly calculate: Calculate;
  readonly options: Partial<CalculationOptions>;
  readonly observer?: Observer;
}

/** Each variant in the place of the layer's luminaires, calculated with everything else as it is. */
export function compareShadeVariants(scene: Scene, request: ShadeVariantRequest): ShadeVariantResult[] {
  const { layer, lamp, shade, calculate, options, observer } = request;
  const top = topPlane(scene);
  const planes = top < 0 ? [] : [scene.planes[top]];
  const variants = shadeVariants(shade);
  return variants.map(({ name, finish, shade: document }, i): ShadeVariantResult => {
    throwIfCancelled(observer);
    observer?.progress?.(name, i / variants.length);
    const built = buildShadeLuminaire(name, lamp, document, {}, observer);
    if (!built.ok)
      return {
        name,
        finish,
        unlit: built.issues.map((issue) => formatIssue({ ...issue, where: {} })).join(" "),
      };
    const { luminaire, lightOutputRatio, downwardShare } = built.value;
    const hung = { ...inPlace(scene, layer, luminaire), planes };
    const result = calculate(hung, options, observer);
    const light =
      top < 0
        ? { average: 0, uniformity: 0 }
        : statistics(
            totalOf(maintainedLayers(hung, result.planes[0]), planes[0].points.length / 3),
            planes[0].weights,
          );
    const view = visualWeight(hung);
    return {
      name,
      finish,
      figures: {
        lightOutputRatio,
        downwardShare,
        average: light.average,
        uniformity: light.uniformity,
        ceiling: surfaceMean(hung, result, "illuminance", (part) => part === "ceiling") ?? 0,
        eyes: hung.people.map((person) => {
          const seen = personGlare(hung, person).inView.find(
            (each) => each.layer === hung.layers[layer].name,
          );
          return { person: person.name, luminance: seen?.luminance ?? 0, lamp: seen?.what === "lamp" };
        }),
        covered: view?.covered ?? 0,
        weight: view?.weight ?? 0,
      },
    };
  });
}

/** Another luminaire where the layer's hang, its lowest point at the same height. */
function inPlace(scene: Scene, layer: number, luminaire: Luminaire): Scene {
  return withLuminaires(
    scene,
    layer,
    scene.layers[layer].luminaires.map(({ luminaire: before, frame: { origin, rotation } }) => {
      const [x, y, z] = origin;
      const rise = lowestPoint(before, rotation) - lowestPoint(luminaire, rotation);
      return { luminaire, frame: { origin: [x, y, z + rise], rotation } };
    }),
  );
}
