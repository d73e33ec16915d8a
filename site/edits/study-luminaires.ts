/** The luminaires of a study: renamed wherever they hang, added, hung, kept, as named edits. */

import { metresOf } from "../../src/app.ts";
import type { Embedded } from "../storage/embedded.ts";
import type { Edit } from "../store/history.ts";
import type { Json } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import { freshName, type RawLuminaire, type RawStudy } from "./raw-study.ts";

/** Another name for a luminaire, in the list and in every layer of every option. */
export function renameLuminaire(study: RawStudy, from: string, to: string): NamedEdit {
  const luminaires = Object.fromEntries(
    Object.entries(study.luminaires ?? {}).map(([name, each]) => [name === from ? to : name, each]),
  );
  const edits: Edit[] = [{ path: ["luminaires"], value: luminaires as unknown as Json }];
  study.arrangements.forEach(({ layers }, a) => {
    layers.forEach(({ luminaire }, l) => {
      if (luminaire === from) edits.push({ path: ["arrangements", a, "layers", l, "luminaire"], value: to });
    });
  });
  return { name: `rename ${from} ${to}`, edits };
}

/** What is wrong with a new name of a luminaire; undefined when nothing is. */
export function nameProblem(study: RawStudy, from: string | undefined, to: string): string | undefined {
  if (to === "" || to.length > 200) return "Expected a name of 1 to 200 characters.";
  if (to !== from && Object.hasOwn(study.luminaires ?? {}, to)) return `Another luminaire is called ${to}.`;
  return undefined;
}

/** A luminaire that is to join a study, with the files it names. */
export interface NewLuminaire {
  readonly name: string;
  readonly luminaire: RawLuminaire;
  readonly embedded?: Embedded;
}

/** Where a luminaire is to hang: a layer of an option. */
export interface LayerPlace {
  readonly arrangement: number;
  readonly layer: number;
}

/** Adds a luminaire to the list and, if a place is given, hangs it there instead of what hangs there now. */
export function addLuminaireToStudy(
  study: RawStudy,
  { name: wish, luminaire, embedded = {} }: NewLuminaire,
  place?: LayerPlace,
): NamedEdit & { readonly luminaire: string } {
  const name = freshName(wish, Object.keys(study.luminaires ?? {}));
  const paths = pathsIn(study, embedded);
  const path = luminaire.photometry === undefined ? undefined : paths.get(luminaire.photometry);
  const edits: Edit[] = Object.entries(embedded).map(([from, file]) => ({
    path: ["embedded", paths.get(from) ?? from],
    value: file as Json,
  }));
  const document = path === undefined ? luminaire : { ...luminaire, photometry: path };
  edits.push({ path: ["luminaires", name], value: document as unknown as Json });
  if (place === undefined) return { name: `keep ${name}`, edits, luminaire: name };
  const { arrangement, layer } = place;
  edits.push({ path: ["arrangements", arrangement, "layers", layer, "luminaire"], value: name });
  const { name: into } = study.arrangements[arrangement].layers[layer];
  return { name: `${name} in ${into}`, edits, luminaire: name };
}

/** Hangs what a layer hangs now in the layers of its name of the other options too, where these hang what it hung before; undefined where
 * none does. */
export function hangInOthers(
  study: RawStudy,
  { arrangement, layer }: LayerPlace,
  before: string,
): NamedEdit | undefined {
  const { name, luminaire } = study.arrangements[arrangement].layers[layer];
  const edits = study.arrangements.flatMap(({ layers }, a) =>
    layers.flatMap((each, l): Edit[] =>
      a === arrangement || each.name !== name || each.luminaire !== before
        ? []
        : [{ path: ["arrangements", a, "layers", l, "luminaire"], value: luminaire }],
    ),
  );
  return edits.length === 0 ? undefined : { name: `${luminaire} in ${name} of every option`, edits };
}

/** Paths for files that come into a study: their own, unless another file has it already. */
function pathsIn(study: RawStudy, embedded: Embedded): Map<string, string> {
  const there = new Map(Object.entries(study.embedded ?? {}));
  const paths = new Map<string, string>();
  for (const [path, file] of Object.entries(embedded)) {
    const same = there.get(path);
    const isFree = same === undefined || (same.text === file.text && same.base64 === file.base64);
    const dot = path.lastIndexOf(".");
    const [stem, ending] = dot < 0 ? [path, ""] : [path.slice(0, dot), path.slice(dot)];
    const names = [...there.keys()].filter((each) => each.endsWith(ending));
    const stems = names.map((each) => each.slice(0, each.length - ending.length));
    paths.set(path, isFree ? path : `${freshName(stem, stems)}${ending}`);
  }
  return paths;
}

/** Whether a luminaire hangs anywhere in the study. */
export function isHung(study: RawStudy, name: string): boolean {
  return study.arrangements.some((each) => each.layers.some((layer) => layer.luminaire === name));
}

/** A shade to begin with: a plain dome around a frosted lamp. Typical values, to be replaced by the real ones. */
export const FIRST_SHADE: RawLuminaire = {
  lamp: { flux: 806, watts: 8, shape: "A60", finish: "frosted" },
  shade: { profile: "dome", diameter: 0.3, height: 0.2, finish: "white" },
};

/** A beam to begin with. Typical values, to be replaced by the real ones. */
export const FIRST_BEAM: RawLuminaire = {
  beam: { flux: 800, angle: 60 },
  body: { profile: "cylinder", diameter: 0.1, height: 0.15 },
};

/** The body with one of its values changed; a body nobody described begins as `first`: a box where the luminaire is longer one way.
 * Undefined removes the value. */
export function bodyWith(
  body: RawLuminaire["body"],
  key: string,
  value: Json | undefined,
  first: "drum" | "box" = "drum",
): Json | undefined {
  if (key === "profile" && value === undefined) return undefined;
  const next: Record<string, unknown> = { profile: first, ...body, [key]: value };
  if (value === undefined) delete next[key];
  // A box is as long and wide as it is said to be; what is round has a diameter.
  const across = metresOf(next.diameter) ?? Math.max(metresOf(next.length) ?? 0, metresOf(next.width) ?? 0);
  if (key === "profile" && value === "box") {
    delete next.diameter;
    if (across > 0 && first !== "box")
      Object.assign(next, { length: next.length ?? across, width: next.width ?? across });
  } else if (key === "profile") {
    delete next.length;
    delete next.width;
    if (across > 0) next.diameter = across;
  }
  return next as Json;
}
