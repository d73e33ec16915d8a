/** Which arrangement, layer and luminaires a question is about: by name, or the usual ones. */

import { pendantShortlist } from "../design/search/shortlist.ts";
import { didYouMean } from "../diagnostics/did-you-mean.ts";
import { failure, type Outcome, success } from "../diagnostics/issue.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { Scene } from "../scene/scene.ts";
import type { OpenStudy } from "./open-document.ts";

/** The arrangement of a name or number; the first without either. */
export function arrangementIndex(
  scenes: readonly Scene[],
  name: string | number | undefined,
): Outcome<number> {
  const index = typeof name === "string" ? indexOfNamed(scenes, name) : (name ?? 0);
  if (scenes[index] !== undefined) return success(index);
  const names = scenes.map((scene) => scene.name);
  return unknown(
    `The study has no arrangement of that name.${typeof name === "string" ? didYouMean(name, names) : ""}`,
    scenes.map(({ letter, name: own }) => `${letter} ${JSON.stringify(own)}`).join(", "),
    JSON.stringify(name),
  );
}

/** By its name, else by the letter that papers give it. */
function indexOfNamed(scenes: readonly Scene[], name: string): number {
  const named = scenes.findIndex((scene) => scene.name === name);
  return named >= 0 ? named : scenes.findIndex(({ letter }) => letter === name.toUpperCase());
}

/** The scenes that have a setting of a name, with that setting alone. */
export function scenesWithSetting(scenes: readonly Scene[], name: string): Outcome<readonly Scene[]> {
  const shortlist = scenes.flatMap((scene) => {
    const settings = scene.settings?.filter((setting) => setting.name === name) ?? [];
    return settings.length === 0 ? [] : [{ ...scene, settings }];
  });
  if (shortlist.length > 0) return success(shortlist);
  const names = new Set(scenes.flatMap(({ settings }) => settings ?? []).map((setting) => setting.name));
  const expected = [...names].map((each) => JSON.stringify(each)).join(", ");
  return unknown(
    `The study has no setting of that name.${didYouMean(name, names)}`,
    expected || '"settings" in an arrangement',
    JSON.stringify(name),
  );
}

/** The layer of a name; the first of pendants without one. */
export function layerIndex({ layers }: Scene, name: string | undefined): Outcome<number> {
  const index =
    name === undefined
      ? layers.findIndex(({ role }) => role === "pendant")
      : layers.findIndex((layer) => layer.name === name);
  if (index >= 0) return success(index);
  return unknown(
    name === undefined
      ? "The arrangement has no layer of pendants."
      : `There is no such layer.${didYouMean(
          name,
          layers.map((layer) => layer.name),
        )}`,
    layers.map((layer) => JSON.stringify(layer.name)).join(", ") || "a layer",
    name === undefined ? undefined : JSON.stringify(name),
  );
}

/** The luminaires of these names; without any all that hang as pendants somewhere, and those that hang nowhere and could. */
export function shortlist(
  { study, document }: Pick<OpenStudy, "study" | "document">,
  names: readonly string[] | undefined,
): Outcome<Luminaire[]> {
  const chosen = names ?? pendantShortlist(document);
  const luminaires: Luminaire[] = [];
  for (const name of chosen) {
    const luminaire = study.luminaires.get(name);
    if (luminaire === undefined) return unknownLuminaire(study.luminaires, name);
    luminaires.push(luminaire);
  }
  return success(luminaires);
}

export function unknownLuminaire<T>(luminaires: ReadonlyMap<string, Luminaire>, name: string): Outcome<T> {
  const names = [...luminaires.keys()];
  return unknown(`The study has no such luminaire.${didYouMean(name, names)}`, names.join(", "), name);
}

function unknown<T>(message: string, expected: string, received: string | undefined): Outcome<T> {
  return failure({
    code: "unknown-name",
    message,
    expected,
    ...(received === undefined ? {} : { received }),
  });
}
