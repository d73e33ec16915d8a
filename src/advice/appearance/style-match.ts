/**
 * Cohesion: whether pendants blend in, answer something in the room, or stand out. Our own construction, no source.
 *
 * Looked at: words shared by finishes; colour difference ΔE*ab and lightness difference ΔL* to top, cabinets and the
 * other luminaires (`cielab.ts`); widths of all pendants together against the top's length; lit luminance from a
 * viewpoint against the walls behind. Within ΔE 12 a colour repeats, beyond 35 it contrasts; ΔL 40 is light against
 * dark; 10 times the walls' luminance draws the eye. What the study does not say is not guessed.
 */

import { surfaceMean } from "../../assessment/surface-means.ts";
import { listed } from "../../diagnostics/sentence.ts";
import type { CalculationResult } from "../../engine/result.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import { maintainedShare } from "../../scene/maintained.ts";
import type { Scene } from "../../scene/scene.ts";
import { seenLuminaire } from "../glare/seen-luminaire.ts";
import { pendantRow } from "../pendant-row.ts";
import { colourDifference, type Lab, labOf } from "./cielab.ts";

export interface Likeness {
  /** `the top`, `wall units`, `luminaire downlight`. */
  readonly to: string;
  readonly kind: "top" | "body" | "luminaire";
  /** Words both finishes share. */
  readonly finish: readonly string[];
  readonly colourDifference?: number;
  /** L* of the pendant less that of the other. */
  readonly lightness?: number;
  readonly relation: "repeats" | "near" | "contrasts" | "not known";
}

export interface Cohesion {
  readonly likenesses: readonly Likeness[];
  /** Widths of all pendants together over the length of the top. */
  readonly sizeShare: number;
  /** Luminance of a lit pendant from the viewpoint over that of the walls; undefined without interreflection. */
  readonly litRatio?: number;
  readonly outcome: "blends in" | "answers" | "stands out" | "not known";
  readonly sentence: string;
}

const REPEATS = 12;
const CONTRASTS = 35;
const LIGHT_AGAINST_DARK = 40;
const DRAWS_THE_EYE = 10;
const LARGE = 0.45;
/** Words that say how a surface shines, or nothing. */
const SHEEN = new Set(
  "satin matt matte polished brushed gloss glossy paint painted lacquer lacquered finish finished the and with of".split(
    " ",
  ),
);

/** @param eye viewpoint (m) @param result calculated light, for the luminance of the walls */
export function cohesion(scene: Scene, eye?: Vec3, result?: CalculationResult): Cohesion | undefined {
  const row = pendantRow(scene);
  if (row === undefined) return undefined;
  const { luminaire, island } = row;
  const own = { finish: luminaire.finish, colour: luminaire.colour };
  const others = new Map(
    scene.layers.flatMap(({ luminaires }) => luminaires.map((p) => [p.luminaire.name, p.luminaire] as const)),
  );
  others.delete(luminaire.name);
  const likenesses = [
    likeness(own, "the top", "top", { colour: island.colour }),
    ...(scene.bodies ?? []).map((body) => likeness(own, body.name, "body", body)),
    ...[...others.values()].map((other) => likeness(own, other.name, "luminaire", other)),
  ].filter(({ relation }) => relation !== "not known");
  const missing =
    own.finish === undefined && own.colour === undefined
      ? "the study gives neither its colour nor its finish"
      : own.colour === undefined
        ? "its colour is not given, and no cabinet or other luminaire states a finish"
        : labOf(own.colour) === undefined
          ? `its colour ${JSON.stringify(own.colour)} is not one of those known here: give it as #rrggbb`
          : "no colour that is known here is given of the top, the cabinets or the other luminaires";
  const sizeShare = (row.count * row.rim) / island.length;
  const litRatio =
    eye === undefined || result === undefined ? undefined : litAgainstWalls(scene, row.layer, eye, result);
  const outcome = outcomeOf(likenesses);
  return {
    likenesses,
    sizeShare,
    ...(litRatio === undefined ? {} : { litRatio }),
    outcome,
    sentence: sentenceOf(luminaire.name, outcome, likenesses, sizeShare, litRatio, missing),
  };
}

interface Looks {
  readonly finish?: string;
  readonly colour?: string;
}

function likeness(own: Looks, to: string, kind: Likeness["kind"], other: Looks): Likeness {
  const finish = words(own.finish).filter((word) => words(other.finish).includes(word));
  const [p, q] = [labIn(own.colour), labIn(other.colour)];
  const difference = differenceOf(own.colour, other.colour);
  const relation =
    finish.length > 0 || (difference !== undefined && difference <= REPEATS)
      ? "repeats"
      : difference === undefined
        ? own.finish !== undefined && other.finish !== undefined
          ? "contrasts"
          : "not known"
        : difference > CONTRASTS
          ? "contrasts"
          : "near";
  return {
    to,
    kind,
    finish,
    ...(difference === undefined ? {} : { colourDifference: difference }),
    ...(p === undefined || q === undefined ? {} : { lightness: p.L - q.L }),
    relation,
  };
}

/** Two colours said in the same words are the same, whether or not the words are understood. */
function differenceOf(a: string | undefined, b: string | undefined): number | undefined {
  if (a === undefined || b === undefined) return undefined;
  if (a.trim().toLowerCase() === b.trim().toLowerCase()) return 0;
  const [p, q] = [labOf(a), labOf(b)];
  return p === undefined || q === undefined ? undefined : colourDifference(p, q);
}

const labIn = (colour: string | undefined): Lab | undefined =>
  colour === undefined ? undefined : labOf(colour);

function words(finish: string | undefined): string[] {
  return (
    (finish ?? "")
      .toLowerCase()
      .match(/[a-z]{3,}/g)
      ?.filter((word) => !SHEEN.has(word)) ?? []
  );
}

function outcomeOf(likenesses: readonly Likeness[]): Cohesion["outcome"] {
  const repeated = likenesses.filter(({ relation }) => relation === "repeats");
  const near = likenesses.filter(({ relation }) => relation === "near");
  if (likenesses.length === 0) return "not known";
  if (repeated.length === 0) return near.length > 0 ? "blends in" : "stands out";
  // What repeats everything around it is lost among it; what repeats one thing answers that thing.
  return repeated.length === likenesses.length && likenesses.length > 1 ? "blends in" : "answers";
}

function sentenceOf(
  name: string,
  outcome: Cohesion["outcome"],
  likenesses: readonly Likeness[],
  sizeShare: number,
  litRatio: number | undefined,
  missing: string,
): string {
  const repeated = likenesses.filter(({ relation }) => relation === "repeats");
  const first = ((): string => {
    switch (outcome) {
      case "answers":
        return `${name} answers ${listed(repeated.map(repeats))}`;
      case "blends in":
        return repeated.length > 0
          ? `${name} blends in: it repeats ${listed(repeated.map(repeats))}`
          : `${name} blends in with ${listed(likenesses.filter((l) => l.relation === "near").map(({ to }) => to))}`;
      case "stands out": {
        const dark = likenesses.find(({ lightness = 0 }) => Math.abs(lightness) >= LIGHT_AGAINST_DARK);
        const how =
          dark === undefined
            ? ""
            : (dark.lightness ?? 0) > 0
              ? ", light against dark"
              : ", dark against light";
        return `${name} stands out from ${listed(likenesses.map(({ to }) => to))}${how}`;
      }
      default:
        return `Whether ${name} blends in cannot be told: ${missing}`;
    }
  })();
  const size =
    sizeShare >= LARGE
      ? `${outcome === "not known" ? "; it is" : ","} large for the top (${Math.round(100 * sizeShare)} % of its length)`
      : "";
  const lit =
    litRatio !== undefined && litRatio >= DRAWS_THE_EYE
      ? `; lit, ${litRatio >= 100 ? "over 100" : Math.round(litRatio)} times as bright as the walls`
      : "";
  return `${first}${size}${lit}.`;
}

function repeats({ to, finish, kind }: Likeness): string {
  const whose = kind === "top" ? to : `${to}`;
  return finish.length > 0 ? `the ${finish.join(" ")} of ${whose}` : `the colour of ${whose}`;
}

/** L of the brightest pendant of a layer towards the eye over the mean luminance of the walls, M/π. */
function litAgainstWalls(
  scene: Scene,
  layer: number,
  eye: Vec3,
  result: CalculationResult,
): number | undefined {
  const exitance = surfaceMean(scene, result, "exitance", (part) => part.startsWith("wall"));
  if (exitance === undefined || !(exitance > 0)) return undefined;
  const { luminaires } = scene.layers[layer];
  const output = maintainedShare(scene, scene.layers[layer]);
  const brightest = Math.max(...luminaires.map((p) => seenLuminaire(p, eye, output).luminance));
  // A luminaire without an opening has no luminance to compare.
  return brightest > 0 ? brightest / (exitance / Math.PI) : undefined;
}
