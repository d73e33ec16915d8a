/**
 * The light of one arrangement for a screen, at the fidelity the moment allows. While a luminaire moves: direct light on the top and
 * the zones, with the interreflected light of the last full answer laid over it (the very first light has none); figures without
 * band or verdict. At rest: the arrangement's light as everybody gets it.
 */

import { assess } from "../assessment/assess.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { type Outcome, success } from "../diagnostics/issue.ts";
import { unobstructedLight } from "../engine/direct/unobstructed-light.ts";
import type { CalculationResult } from "../engine/result.ts";
import type { Scene } from "../scene/scene.ts";
import { topPlane } from "../scene/top-plane.ts";
import type { InterreflectedLight, Light, LightAnswer, LightRequest } from "./light-answer.ts";
import { movingPlanes } from "./moving-planes.ts";
import { type OpenArrangement, openArrangement, type Workspace } from "./open-document.ts";
import { inSetting, levelsOf } from "./setting-levels.ts";

/** The light of one arrangement, see {@link LightRequest.quality}. */
export async function lightOfRequest(
  request: LightRequest,
  workspace: Workspace,
  observer: Observer,
): Promise<Outcome<LightAnswer>> {
  const moving = request.quality === "first" || request.quality === "quick";
  const opened = await openArrangement(request, moving, workspace, observer);
  if (!opened.ok) return opened;
  const { study, restored } = opened.value;
  const { title, targets, options, defaults, warnings } = study;
  const { odd, ...light } = await (moving
    ? movingLight(opened.value, request, observer)
    : (await import("./resting-light.ts")).restingLight(opened.value, request, observer));
  const placed = restored([...warnings, ...odd]);
  return success({ title, ...light, targets, options, defaults, warnings: placed }, placed);
}

async function movingLight(
  { study, engines, scene: whole }: OpenArrangement,
  { quality, setting, interreflected = [] }: LightRequest,
  observer: Observer,
): Promise<Light> {
  const top = whole.planes[topPlane(whole)];
  const scene = {
    ...whole,
    planes: whole.planes.filter((plane) => plane.zone !== undefined || plane === top),
  };
  const fine = movingPlanes(scene);
  const extended = { ...scene, planes: [...scene.planes, ...fine.planes] };
  const result =
    quality === "first"
      ? unobstructedLight(extended, observer)
      : withInterreflected(await directLight(extended), interreflected);
  const own = { ...result, planes: result.planes.slice(0, scene.planes.length) };
  const fields = result.planes.slice(scene.planes.length);
  const lit = inSetting((await levelsOf(study))(scene, own, null), setting);
  return {
    scene: lit,
    assessment: assess(study, lit, own, null, fine.fines(fields)),
    contours: fine.contours(lit, fields),
    clashes: [],
    interreflected: [],
    odd: [],
  };

  async function directLight(of: Scene): Promise<CalculationResult> {
    const options = { ...study.options, quality: "quick", interreflection: false } as const;
    const luminaires = of.layers.reduce((sum, layer) => sum + layer.luminaires.length, 0);
    const engine = await engines.get();
    await engines.rehearse(luminaires, (another) => another.calculate(of, options, observer));
    return engine.calculate(of, options, observer);
  }
}

/** Direct light with the interreflected light of an earlier answer, where plane, layer and points are the same. */
function withInterreflected(direct: CalculationResult, earlier: InterreflectedLight): CalculationResult {
  if (earlier.length === 0) return direct;
  const planes = direct.planes.map((plane) => ({
    ...plane,
    layers: plane.layers.map((field) => {
      const same = earlier.find(
        ({ plane: name, layer, interreflected }) =>
          name === plane.plane && layer === field.layer && interreflected.length === field.direct.length,
      );
      return same === undefined ? field : { ...field, interreflected: same.interreflected };
    }),
  }));
  return { ...direct, planes, method: { ...direct.method, interreflection: "of an earlier arrangement" } };
}
