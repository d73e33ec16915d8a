/**
 * From a study document to the light of one of its arrangements: checked, resolved, calculated, judged.
 */

import { assess } from "../assessment/assess.ts";
import type { VerdictMethod } from "../assessment/uncertainty/verdict-method.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { success } from "../diagnostics/issue.ts";
import { unobstructedLight } from "../engine/direct/unobstructed-light.ts";
import type { CalculationResult } from "../engine/result.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { Scene } from "../scene/scene.ts";
import { forDrawing } from "./drawn-scene.ts";
import type { Engines } from "./engines.ts";
import type { InterreflectedLight, LightAnswer, LightRequest } from "./protocol.ts";
import { resolved } from "./resolved.ts";
import type { Answer } from "./serve.ts";
import type { Files } from "./study-files.ts";
import { buffersOf } from "./transfer.ts";

/** Bound on the near-field error of the first light. */
const FIRST_NEAR_FIELD_ERROR = 0.02;

/** The light of one arrangement, see {@link LightRequest.quality}. */
export async function lightOfStudy(
  request: LightRequest,
  files: Files,
  engines: Engines,
  observer: Observer,
): Promise<Answer<LightAnswer>> {
  const { quality } = request;
  const alone = quality === "first" || quality === "quick";
  const found = await resolved(request, alone, files, observer);
  if (!found.ok) return found;
  const { study, restored } = found.value;
  const scene = forDrawing(found.value.scene, alone);
  const { title, targets, options, defaults, warnings } = study;
  const result = await calculated(scene, request, options, engines, observer);
  const verdicts = quality === "judged" ? await verdictsOf(scene, result, engines, observer) : null;
  const light = {
    assessment: assess(study, scene, result, verdicts),
    interreflected: alone ? [] : interreflectedOf(result),
  };
  const told = restored(warnings);
  return {
    ...success({ title, scene, ...light, targets, options, defaults, warnings: told }, told),
    // A page that lent its interreflected light keeps it; luminaires and points are the worker's.
    transfer: buffersOf(light, [scene, request]),
  };
}

async function calculated(
  scene: Scene,
  { quality, interreflected = [] }: LightRequest,
  options: CalculationOptions,
  engines: Engines,
  observer: Observer,
): Promise<CalculationResult> {
  if (quality === "first") return unobstructedLight(scene, FIRST_NEAR_FIELD_ERROR, observer);
  const engine = await engines.get();
  if (quality !== "quick") return engine.calculate(scene, { ...options, quality: "full" }, observer);
  const asked = { ...options, quality, interreflection: false };
  const luminaires = scene.layers.reduce((sum, layer) => sum + layer.luminaires.length, 0);
  await engines.rehearse(luminaires, (another) => another.calculate(scene, asked, observer));
  const direct = engine.calculate(scene, asked, observer);
  return withInterreflected(direct, interreflected);
}

/** The verdict method of an answer that stands, loaded with the rest of the full calculation. */
async function verdictsOf(
  scene: Scene,
  result: CalculationResult,
  engines: Engines,
  observer: Observer,
): Promise<VerdictMethod> {
  const [{ verdictMethod }, engine] = await Promise.all([
    import("../assessment/uncertainty/verdict-method.ts"),
    engines.uncertainty(),
  ]);
  return verdictMethod(scene, result, (...asked) => engine.calculate(...asked), {
    observer: { cancelled: () => observer.cancelled?.() === true },
    sources: engine.sources,
  });
}

function interreflectedOf(result: CalculationResult): InterreflectedLight {
  return result.planes.flatMap(({ plane, layers }) =>
    layers.map(({ layer, interreflected }) => ({ plane, layer, interreflected })),
  );
}

/** Direct light with the interreflected light of an earlier answer, where plane, layer and points are the same. */
function withInterreflected(direct: CalculationResult, earlier: InterreflectedLight): CalculationResult {
  if (earlier.length === 0) return direct;
  const planes = direct.planes.map((plane) => ({
    ...plane,
    layers: plane.layers.map((field) => {
      const found = earlier.find((each) => each.plane === plane.plane && each.layer === field.layer);
      if (found === undefined || found.interreflected.length !== field.direct.length) return field;
      return { ...field, interreflected: found.interreflected };
    }),
  }));
  const description = `${direct.method.description}; interreflected light of the arrangement before`;
  return { ...direct, planes, method: { ...direct.method, description } };
}
