/**
 * What there is to say of an arrangement beside its verdict: what people take from the light, the published rules, all
 * findings. From drafts: nothing here decides.
 */

import { type BodyShadow, bodyShadows } from "../advice/body-shadow.ts";
import { type Findings, findingsOf, findingsPlanes, rulesInLight } from "../advice/findings.ts";
import { mirrorSpot } from "../advice/glare/mirror-image.ts";
import type { GuidelineCard } from "../advice/guidelines/guideline-card.ts";
import { SuperposedLight } from "../advice/superposed-light.ts";
import { assess } from "../assessment/assess.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import type { Vec3 } from "../geometry/vector.ts";
import { boxTags } from "../scene/ceiling-boxes.ts";
import type { Scene } from "../scene/scene.ts";
import { topPlane } from "../scene/top-plane.ts";
import type { OpenArrangement } from "./open-document.ts";

export interface PeopleInLight {
  /** Of everyone in their usual posture. */
  readonly shadows: readonly BodyShadow[];
  /** Where each person sees the image of a luminaire, by the tag of its box, in the top (m, in the room). */
  readonly images: readonly {
    readonly person: string;
    readonly tag: string;
    readonly spot: Vec3;
    readonly luminance: number;
  }[];
}

export async function peopleInLight(
  { study, engines, scene }: OpenArrangement,
  observer: Observer,
): Promise<PeopleInLight> {
  const { island, people, layers } = scene;
  const tagOf = boxTags(scene);
  const images = people.flatMap((person) =>
    layers.flatMap((layer, l) =>
      layer.luminaires.flatMap((placed, index) => {
        const image = island === undefined ? undefined : mirrorSpot(island, placed, person.eye, layer.dim);
        return image === undefined
          ? []
          : [
              {
                person: person.name,
                tag: tagOf([l, index]),
                spot: image.spot,
                luminance: image.luminance,
              },
            ];
      }),
    ),
  );
  const engine = await engines.shadows();
  return {
    shadows: bodyShadows(scene, { options: study.options, engine, observer, usualAlone: true }),
    images,
  };
}

/** What the bodies of the study's own people take from where their hands work, in their usual posture. */
export async function ownShadows(
  { study, engines }: Pick<OpenArrangement, "study" | "engines">,
  scene: Scene,
): Promise<readonly BodyShadow[]> {
  const engine = await engines.shadows();
  return bodyShadows(scene, { options: study.options, engine, usualAlone: true, withoutStandIns: true });
}

/** The published rules held against the arrangement, with the light each would give. */
export async function rulesAgainst(
  { study, engines, scene }: OpenArrangement,
  observer: Observer,
): Promise<readonly GuidelineCard[]> {
  const plane = scene.planes[topPlane(scene)];
  if (plane === undefined) return rulesInLight(study, scene, undefined, undefined);
  const engine = await engines.uncertainty();
  const lit = { ...scene, planes: [plane], zones: [] };
  const [field] = engine.calculate(lit, { ...study.options, quality: "quick" }, observer).planes;
  const light = new SuperposedLight(scene, plane, field, undefined, observer);
  return rulesInLight(study, scene, plane, light);
}

/** Eyes and heads, surroundings, look, load, years. */
export async function draftFindings(
  { study, engines, scene }: OpenArrangement,
  observer: Observer,
): Promise<Findings> {
  const engine = await engines.uncertainty();
  const planes = [...scene.planes, ...findingsPlanes(scene)];
  const result = engine.calculate({ ...scene, planes }, { ...study.options, quality: "quick" }, observer);
  const own = { ...result, planes: result.planes.slice(0, scene.planes.length) };
  const extra = result.planes.slice(scene.planes.length);
  return findingsOf(study, scene, own, assess(study, scene, own, null), extra);
}
