/**
 * Answers beside the light, which nobody's first light waits for: the plan as a drawing, what people take from
 * the light, the published rules.
 */

import { bodyShadows } from "../advice/body-shadow.ts";
import { findingsOf } from "../advice/findings.ts";
import { mirrorSpot } from "../advice/glare/mirror-image.ts";
import { guidelineCards } from "../advice/guidelines/cards.ts";
import type { GuidelineCard } from "../advice/guidelines/guideline-card.ts";
import { eyePlanes } from "../advice/people/eye-light.ts";
import { lightArrangement } from "../app/light-arrangement.ts";
import { assess, wholeTopPlane } from "../assessment/assess.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { type Outcome, success } from "../diagnostics/issue.ts";
import { readJson } from "../diagnostics/json-text.ts";
import { SKETCHED_LIGHT, SURFACE_LIGHT, surfaceLight } from "../engine/surfaces/surface-light.ts";
import { isoluxSheet } from "../papers/isolux-sheet.ts";
import type { Scene } from "../scene/scene.ts";
import { migrate } from "../study/migrate.ts";
import { readStudy } from "../study/study-text.ts";
import { type FindingsSection, findingsSections } from "../words/findings-sections.ts";
import type { Engines } from "./engines.ts";
import type { LightRequest, PeopleAnswer, RoomAnswer, RoomQuestion } from "./protocol.ts";
import { resolved } from "./resolved.ts";
import { RoomLights } from "./room-light.ts";
import type { Files } from "./study-files.ts";

/** A study's text checked: the document as it was written, lengths with their units, lifted to the present
 * version. */
export function studyOfText(text: string, file: string): Outcome<{ readonly document: unknown }> {
  const checked = readStudy(text, file);
  if (!checked.ok) return checked;
  const json = readJson(text, file);
  return json.ok ? success({ document: migrate(json.value.value) }, checked.warnings) : json;
}

/** The plan of one arrangement with its isolux lines, as SVG. */
export async function planOfStudy(
  request: Omit<LightRequest, "quality">,
  files: Files,
  engines: Engines,
  observer: Observer,
): Promise<Outcome<string>> {
  const found = await resolved(request, false, files, observer);
  if (!found.ok) return found;
  const { study, scene } = found.value;
  const report = (stage: string, fraction: number): void => observer.progress?.(stage, fraction);
  const own = { light: await engines.get(), uncertainty: await engines.uncertainty() };
  const judged = lightArrangement(study, scene, study.options, own, report);
  return success(isoluxSheet(study, [judged]));
}

/** Body shadows of everyone in their usual posture, and images in a polished top. */
export async function peopleOfStudy(
  request: Omit<LightRequest, "quality">,
  files: Files,
  engines: Engines,
  observer: Observer,
): Promise<Outcome<PeopleAnswer>> {
  const found = await resolved(request, true, files, observer);
  if (!found.ok) return found;
  const { study, scene } = found.value;
  const engine = await engines.uncertainty();
  const { island, people, layers } = scene;
  const images = people.flatMap((person) =>
    layers.flatMap((layer) =>
      layer.luminaires.flatMap((placed) => {
        const image = island === undefined ? undefined : mirrorSpot(island, placed, person.eye, layer.dim);
        return image === undefined
          ? []
          : [{ person: person.name, spot: image.spot, luminance: image.luminance }];
      }),
    ),
  );
  const shadows = bodyShadows(scene, { options: study.options, engine, observer });
  return success({ shadows: shadows.filter(({ usual }) => usual), images });
}

/** The published rules held against the arrangement; the light of what they ask for is calculated quickly. */
export async function rulesOfStudy(
  request: Omit<LightRequest, "quality">,
  files: Files,
  engines: Engines,
  observer: Observer,
): Promise<Outcome<readonly GuidelineCard[]>> {
  const found = await resolved(request, true, files, observer);
  if (!found.ok) return found;
  const { study, scene } = found.value;
  const engine = await engines.uncertainty();
  const light = (implied: Scene) => {
    const top = wholeTopPlane(implied);
    if (top < 0) return undefined;
    const planes = [implied.planes[top]];
    const lit = { ...implied, planes, zones: [] };
    const result = engine.calculate(lit, { ...study.options, quality: "quick" }, observer);
    return assess(study, lit, result, null).planes[0].statistics;
  };
  return success(guidelineCards(scene, { length: study.display.length, light }));
}

/** Beside a worker's engines, but loaded with what asks for it. */
const rooms = new WeakMap<Engines, RoomLights>();

function roomsOf(engines: Engines): RoomLights {
  const found = rooms.get(engines) ?? new RoomLights();
  rooms.set(engines, found);
  return found;
}

/** The light on every surface, with everyone standing in it when they are asked to. */
export async function roomOfStudy(
  request: RoomQuestion,
  files: Files,
  engines: Engines,
  observer: Observer,
): Promise<Outcome<RoomAnswer>> {
  const found = await resolved(request, true, files, observer);
  if (!found.ok) return found;
  const { study, scene } = found.value;
  const isSketch = request.quality === "sketch";
  // In full, rows of thousands of nodes: 170 MB of a kitchen that nobody asks for again.
  const engine = await (isSketch ? engines.get() : engines.passing());
  const people = request.people ?? study.options.people;
  const calculation = { ...study.options, people };
  const { key, surfaces } = roomsOf(engines).of(scene, request.quality, calculation, () =>
    surfaceLight(
      scene,
      (...asked) => engine.calculate(...asked),
      { ...(isSketch ? SKETCHED_LIGHT : SURFACE_LIGHT), calculation, sources: engine.sources },
      observer,
    ),
  );
  return success({ scene, surfaces, people, key });
}

/** What there is to say beside the verdict, in words, from a quick calculation. */
export async function besideOfStudy(
  request: Omit<LightRequest, "quality">,
  files: Files,
  engines: Engines,
  observer: Observer,
): Promise<Outcome<readonly FindingsSection[]>> {
  const found = await resolved(request, true, files, observer);
  if (!found.ok) return found;
  const { study, scene } = found.value;
  const engine = await engines.uncertainty();
  const eyes = eyePlanes(scene);
  const planes = [...scene.planes, ...eyes];
  const result = engine.calculate({ ...scene, planes }, { ...study.options, quality: "quick" }, observer);
  const own = { ...result, planes: result.planes.slice(0, scene.planes.length) };
  const lit = result.planes.slice(scene.planes.length);
  const findings = findingsOf(study, scene, own, assess(study, scene, own, null), lit);
  return success(findingsSections(findings, study.display));
}
