/** From a study document to a scene, with the luminaires known from before. */

import { PUBLISHED_TARGETS_BY_ID } from "../assessment/targets-published.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { tiltedLuminaire } from "../luminaire/tilted.ts";
import { namesShades, resolveStudyWith } from "../scene/resolve-with.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { photometryPaths } from "../study/photometry-paths.ts";
import { checkStudy } from "../study/study.ts";
import type { LightRequest } from "./protocol.ts";
import { type Files, photometryOf } from "./study-files.ts";

export interface Resolved {
  readonly study: ResolvedStudy;
  readonly scene: Scene;
  readonly restored: (issues: readonly Issue[]) => readonly Issue[];
}

/** The study resolved, and the scene asked for with the luminaires known from before. `alone` resolves that
 * arrangement without its neighbours. */
export async function resolved(
  { document, arrangement, people }: Omit<LightRequest, "quality">,
  alone: boolean,
  files: Files,
  observer: Observer,
): Promise<Outcome<Resolved>> {
  const restored = (issues: readonly Issue[]): readonly Issue[] =>
    alone ? issues.map((issue) => atArrangement(issue, arrangement)) : issues;
  const checked = checkStudy(alone ? onlyArrangement(document, arrangement) : document);
  if (!checked.ok) return failure(...restored(checked.issues));
  await files.ready(photometryPaths(checked.value).map(({ path }) => path));
  const photometry = photometryOf(checked.value, files);
  const outcome = resolveStudyWith(
    checked.value,
    { photometry, publishedTargets: PUBLISHED_TARGETS_BY_ID, observer },
    namesShades(checked.value) ? (await import("../luminaire/shade/build.ts")).buildShadeLuminaire : noShade,
  );
  if (!outcome.ok) return failure(...restored(outcome.issues));
  const scene = outcome.value.scenes[alone ? 0 : arrangement];
  if (scene === undefined) {
    return failure({
      code: "arrangement-missing",
      severity: "error",
      message: "There is no such arrangement.",
      received: String(arrangement),
      where: { path: "/arrangements" },
    });
  }
  const known = new Map(
    [...outcome.value.luminaires].map(([name, made]) => [
      name,
      files.same(made, checked.value.luminaires?.[name], photometry(name)),
    ]),
  );
  const { options } = outcome.value;
  const study = people === undefined ? outcome.value : { ...outcome.value, options: { ...options, people } };
  return success({ study, scene: withKnownLuminaires(scene, known), restored });
}

function noShade(): never {
  throw new Error("A shade was met in a study that names none.");
}

/** The document with one arrangement and the luminaires that hang in it; whatever is not as it should be stays for
 * the check to name. */
function onlyArrangement(document: unknown, arrangement: number): unknown {
  const { arrangements, luminaires } = (document ?? {}) as { arrangements?: unknown; luminaires?: unknown };
  if (!Array.isArray(arrangements)) return document;
  const only = { ...(document as object), arrangements: arrangements.slice(arrangement, arrangement + 1) };
  const layers: unknown = arrangements[arrangement]?.layers;
  if (!Array.isArray(layers) || typeof luminaires !== "object" || luminaires === null) return only;
  const hung = new Set(layers.map((layer) => layer?.luminaire));
  if ([...hung].some((name) => typeof name !== "string" || !Object.hasOwn(luminaires, name))) return only;
  return {
    ...only,
    luminaires: Object.fromEntries(Object.entries(luminaires).filter(([name]) => hung.has(name))),
  };
}

function atArrangement(issue: Issue, arrangement: number): Issue {
  const { path } = issue.where;
  if (path === undefined || !path.startsWith("/arrangements/0")) return issue;
  return {
    ...issue,
    where: { ...issue.where, path: `/arrangements/${arrangement}${path.slice("/arrangements/0".length)}` },
  };
}

/** The scene with its luminaires as they are known from before, by name. */
export function withKnownLuminaires(scene: Scene, known: ReadonlyMap<string, Luminaire>): Scene {
  const layers = scene.layers.map((layer) => ({
    ...layer,
    luminaires: layer.luminaires.map((placed) => ({
      ...placed,
      luminaire: tiltedLuminaire(known.get(placed.luminaire.name) ?? placed.luminaire, placed.frame.rotation),
    })),
  }));
  return { ...scene, layers };
}
