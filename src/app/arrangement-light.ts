/** The light of one arrangement, calculated in full or as a draft, with what is asked beside it. */

import { bodyShadows } from "../advice/body-shadow.ts";
import { clashes } from "../advice/clashes/clashes.ts";
import { findingsOf, findingsPlanes } from "../advice/findings.ts";
import { assess, assessLayersOff, assessSetting } from "../assessment/assess.ts";
import { uncertaintyLight } from "../assessment/uncertainty/uncertainty-light.ts";
import { verdictMethod } from "../assessment/uncertainty/verdict-method.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import type { PlaneField } from "../engine/result.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import type { Scene } from "../scene/scene.ts";
import type { JudgedArrangement } from "./judged-arrangement.ts";
import type { OpenStudy } from "./open-document.ts";
import { type RefinedPlanes, refinedPlanes } from "./refined-planes.ts";
import { inSetting, levelsOf } from "./setting-levels.ts";

export interface LightOptions {
  /** A draft: the same method with a wider band. */
  readonly draft?: boolean;
  /** Lets the people of the study stand in the light, whatever the study says. */
  readonly people?: boolean;
  /** Probability with which a target must be reached to be called met, 0.5 to 0.999; 0.9 by default. */
  readonly confidence?: number;
  /** The setting whose light it is; without one, and in an arrangement that lacks it, the layers' own levels. */
  readonly setting?: string;
  /** False leaves figures without bands and verdicts: `not judged`. */
  readonly judged?: boolean;
  /** Whether rules of thumb, eyes and heads, load and look are worked out too; `full` with the table of sizes. */
  readonly findings?: "brief" | "full";
  /** False leaves out what is left with each layer off in turn. */
  readonly layersOff?: boolean;
  /** Whether it is worked out what people in the light take from their own hands. */
  readonly shadows?: boolean;
  /** What contours and fine figures are calculated on; every top and zone as finely as anybody draws, by default. */
  readonly refined?: RefinedPlanes;
  /** Further planes to calculate on. */
  readonly planes?: readonly CalculationPlane[];
}

export interface ArrangementLight extends JudgedArrangement {
  /** Light on the refined planes and on the further ones, in their order. */
  readonly fields: readonly PlaneField[];
}

/** The light of a scene of the study, maintained and dimmed, judged, its contours calculated to the very edge. */
export async function arrangementLight(
  { study, engines }: Pick<OpenStudy, "study" | "engines">,
  scene: Scene,
  options: LightOptions,
  observer: Observer = {},
): Promise<ArrangementLight> {
  const { draft, people, confidence, setting, judged = true, findings, shadows } = options;
  const { refined = refinedPlanes(scene.planes), planes: further = [], layersOff: asksOff = true } = options;
  const calculation: CalculationOptions = {
    ...study.options,
    quality: draft === true ? "quick" : study.options.quality,
    people: people ?? study.options.people,
  };
  const [engine, uncertainty] = [await engines.get(), await engines.uncertainty()];
  const beside = findings === undefined ? [] : findingsPlanes(scene);
  const parts = [scene.planes, refined.planes, beside, further];
  // One calculation for all of them: the room's interreflection is the same.
  const all = engine.calculate({ ...scene, planes: parts.flat() }, calculation, observer);
  const [own, fine, around, rest] = split(all.planes, parts);
  const result = { ...all, planes: own };
  const verdicts = judged
    ? verdictMethod(scene, result, uncertaintyLight(engine, calculation, uncertainty), {
        ...(confidence === undefined ? {} : { confidence }),
        observer,
      })
    : null;
  const withLevels = (await levelsOf(study))(scene, result, verdicts);
  const lit = inSetting(withLevels, setting);
  const others = (lit === withLevels ? [] : (withLevels.settings ?? []))
    .filter(({ name }) => name !== setting)
    .map((each) => assessSetting(study, withLevels, each, result, verdicts));
  const layersOff = asksOff ? assessLayersOff(study, lit, result, verdicts) : [];
  const assessment = {
    ...assess(study, lit, result, verdicts, refined.fines(fine)),
    ...(lit === withLevels ? {} : { setting, ...(others.length === 0 ? {} : { settings: others }) }),
    ...(layersOff.length === 0 ? {} : { layersOff }),
  };
  // Many small changes too, that would turn over the memory of the room in full.
  const lost =
    shadows === true && calculation.people
      ? bodyShadows(scene, { options: calculation, engine: await engines.shadows(), observer })
      : undefined;
  const found = clashes(lit);
  const isShift = judged && found.some(({ remedy }) => remedy.kind === "shift together");
  const shifted = isShift ? (await import("./shifted-light.ts")).shiftedLight(lit, result, found) : undefined;
  return {
    scene: lit,
    result,
    assessment,
    contours: refined.contours(lit, fine),
    fields: [...fine, ...rest],
    clashes: found,
    ...(shifted === undefined ? {} : { shifted }),
    ...(lost === undefined ? {} : { bodyShadows: lost }),
    ...(findings === undefined
      ? {}
      : { findings: findingsOf(study, lit, result, assessment, around, findings === "full", observer) }),
  };
}

/** Fields in the parts that their planes came in. */
function split(
  fields: readonly PlaneField[],
  parts: readonly (readonly CalculationPlane[])[],
): readonly (readonly PlaneField[])[] {
  let from = 0;
  return parts.map(({ length }) => {
    from += length;
    return fields.slice(from - length, from);
  });
}
