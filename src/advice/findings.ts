/**
 * What there is to say of an arrangement beside its verdict: rules of thumb, people's eyes and heads, load, years, look.
 * Information, each with its own source; no verdict rests on any of it.
 */

import { targetOf } from "../assessment/assess.ts";
import type { ArrangementAssessment } from "../assessment/assessment.ts";
import { averageOf } from "../assessment/layer-light.ts";
import { statistics } from "../assessment/statistics.ts";
import { type Observer, throwIfCancelled } from "../diagnostics/cancelled.ts";
import type { CalculationResult, PlaneField } from "../engine/result.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Person, Scene } from "../scene/scene.ts";
import { topPlane } from "../scene/top-plane.ts";
import { type AgeRemark, oldestEyes } from "./age.ts";
import { type Cohesion, cohesion } from "./appearance/style-match.ts";
import { type VisualWeight, viewpointOf, visualWeight } from "./appearance/visual-weight.ts";
import { type CostReport, costReport } from "./cost.ts";
import { type CountSizeTable, countSizeTable } from "./count-size-table.ts";
import { type AgeingRow, ageing } from "./depreciation.ts";
import { type PersonGlare, personGlare } from "./glare/person-glare.ts";
import { guidelineCards } from "./guidelines/cards.ts";
import type { GuidelineCard } from "./guidelines/guideline-card.ts";
import { type LoadReport, loadReport } from "./load.ts";
import { type PendantRow, pendantRow } from "./pendant-row.ts";
import { type EyeLight, eyeLight, eyePlanes } from "./people/eye-light.ts";
import { type HeadRoom, headRoom } from "./people/head-room.ts";
import { type Sightline, sightlines } from "./people/sightlines.ts";
import { SuperposedLight } from "./superposed-light.ts";
import { type Surround, surround } from "./surround.ts";
import { surroundPlanes } from "./surround-planes.ts";

export interface PersonFindings {
  readonly person: string;
  readonly posture: Person["posture"];
  readonly age?: number;
  readonly glare: PersonGlare;
  /** Where the light at the eyes was calculated. */
  readonly light?: EyeLight;
  /** Over pendants with a body. */
  readonly head?: HeadRoom;
  readonly sightlines: readonly Sightline[];
}

export interface Findings {
  readonly cards: readonly GuidelineCard[];
  readonly people: readonly PersonFindings[];
  readonly load: LoadReport;
  readonly cost: CostReport;
  /** Average on the whole top new, over the years and maintained, with usual depreciation (lx). */
  readonly ageing: readonly AgeingRow[];
  readonly age?: AgeRemark;
  readonly view?: VisualWeight;
  readonly cohesion?: Cohesion;
  readonly sizes?: CountSizeTable;
  readonly surround: Surround;
  /** The pendants over the island in numbers. */
  readonly row?: PendantRow;
}

/** The planes to calculate beside a scene's own for what is said beside its verdict. */
export function findingsPlanes(scene: Scene): CalculationPlane[] {
  return [...eyePlanes(scene), ...surroundPlanes(scene).map(({ plane }) => plane)];
}

/** @param fields light calculated on `findingsPlanes(scene)`, in their order @param full the table of counts and sizes too */
export function findingsOf(
  study: Pick<ResolvedStudy, "display" | "targets">,
  scene: Scene,
  result: CalculationResult,
  assessment: ArrangementAssessment,
  fields?: readonly PlaneField[],
  full = true,
  observer?: Observer,
): Findings {
  const top = topPlane(scene);
  const plane = scene.planes[top];
  const field = result.planes[top];
  const light =
    plane === undefined || field === undefined
      ? undefined
      : new SuperposedLight(scene, plane, field, undefined, observer);
  const viewpoint = viewpointOf(scene);
  const row = pendantRow(scene);
  const view = visualWeight(scene, viewpoint);
  const look = cohesion(scene, viewpoint?.eye, result);
  const sizes = light === undefined || !full ? undefined : countSizeTable(scene, plane, light);
  const age = oldestEyes(scene, assessment, (id) => targetOf(study, id));
  const layers = assessment.planes[top]?.layers ?? [];
  const eyes = eyePlanes(scene).length;
  return {
    cards: rulesInLight(study, scene, plane, light),
    people: peopleFindings(scene, assessment, fields?.slice(0, eyes), observer),
    load: loadReport(scene),
    cost: costReport(scene),
    ageing:
      layers.length === 0
        ? []
        : ageing(
            layers.map((each, i) => ({
              illuminance: averageOf(layers, plane.weights, (other) => other === each).both,
              ...(scene.layers[i].hours === undefined ? {} : { hoursPerDay: scene.layers[i].hours }),
            })),
            scene.maintenance,
          ),
    ...(age === undefined ? {} : { age }),
    ...(view === undefined ? {} : { view }),
    ...(look === undefined ? {} : { cohesion: look }),
    ...(sizes === undefined ? {} : { sizes }),
    surround: surround(scene, result, assessment, fields?.slice(eyes)),
    ...(row === undefined ? {} : { row }),
  };
}

/** The published rules held against the arrangement, with the light on the whole top that each would give.
 * @param light on that plane */
export function rulesInLight(
  { display }: Pick<ResolvedStudy, "display">,
  scene: Scene,
  plane: CalculationPlane | undefined,
  light: SuperposedLight | undefined,
): GuidelineCard[] {
  const { length } = display;
  if (plane === undefined || light === undefined) return guidelineCards(scene, { length });
  return guidelineCards(scene, {
    length,
    light: (changed) => statistics(light.of(changed), plane.weights),
  });
}

/** Eyes, heads and faces of everyone. @param eyes light calculated on `eyePlanes(scene)`, where it was */
export function peopleFindings(
  scene: Scene,
  assessment: ArrangementAssessment,
  eyes?: readonly PlaneField[],
  observer?: Observer,
): PersonFindings[] {
  return peopleOf(scene, eyes, nearestOnTop(scene, assessment, topPlane(scene)), observer);
}

function peopleOf(
  scene: Scene,
  eyes: readonly PlaneField[] | undefined,
  topIlluminance: ((x: number, y: number) => number) | undefined,
  observer: Observer | undefined,
): PersonFindings[] {
  const lights = eyes === undefined || eyes.length === 0 ? [] : eyeLight(scene, eyes);
  const heads = headRoom(scene);
  const lines = sightlines(scene);
  return scene.people.map((person, i): PersonFindings => {
    throwIfCancelled(observer);
    observer?.progress?.("people's eyes and heads", i / scene.people.length);
    const light = lights[i];
    const head = heads[i];
    return {
      person: person.name,
      posture: person.posture,
      ...(person.age === undefined ? {} : { age: person.age }),
      glare: personGlare(scene, person, {
        ...(light === undefined ? {} : { verticalInterreflected: light.verticalInterreflected }),
        ...(topIlluminance === undefined ? {} : { topIlluminance }),
      }),
      ...(light === undefined ? {} : { light }),
      ...(head === undefined ? {} : { head }),
      sightlines: lines.filter((line) => line.person === person.name),
    };
  });
}

/** Illuminance (lx) at the point of the top's grid nearest to a place. */
function nearestOnTop(
  scene: Scene,
  assessment: ArrangementAssessment,
  top: number,
): ((x: number, y: number) => number) | undefined {
  const plane = scene.planes[top];
  const values = assessment.planes[top]?.illuminance;
  if (plane === undefined || values === undefined || values.length === 0) return undefined;
  const { points } = plane;
  return (x, y) => {
    let best = 0;
    let nearest = Infinity;
    for (let i = 0; i < values.length; i++) {
      const distance = Math.hypot(points[3 * i] - x, points[3 * i + 1] - y);
      if (distance < nearest) {
        nearest = distance;
        best = i;
      }
    }
    return values[best];
  };
}
