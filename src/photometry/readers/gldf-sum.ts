/**
 * The light of a GLDF product's emitters that shine together, each where the product's model has it (l3d.ts, emitters-together.ts). Without
 * such a model, about one centre.
 */

import { sumIfAll } from "../../numerics/known-sum.ts";
import type { IntensityDistribution } from "../intensity-distribution.ts";
import { luminousFlux } from "../luminous-flux.ts";
import type { LuminousOpening } from "../luminous-opening.ts";
import type { Photometry } from "../photometry.ts";
import { readContainer } from "./container.ts";
import { emittersTogether, togetherWords } from "./emitters-together.ts";
import { type LightEmitter, objectsOfEmitter } from "./gldf-emitters.ts";
import { type LightEmittingObject, lightEmittingObjects } from "./l3d.ts";
import type { ReadOptions } from "./read-options.ts";
import { relampFactor } from "./relamp.ts";
import { quote, type SourceText } from "./source-text.ts";
import { sumDistributions } from "./sum-distributions.ts";
import type { XmlElement } from "./xml.ts";

const MODELS = "geo/";

/** Light-emitting objects of each emitter in the product's model; undefined where one of them has no place there. */
export function placesOfEmitters(
  root: XmlElement,
  emitters: readonly LightEmitter[],
  bytes: Uint8Array,
  options: ReadOptions,
): readonly (readonly LightEmittingObject[])[] | undefined {
  const objects = emitters.map((emitter) => objectsOfEmitter(root, emitter));
  const file = objects[0]?.file;
  if (file === undefined || objects.some((each) => each?.file !== file)) return undefined;
  const key = MODELS + file.toLowerCase();
  const container = readContainer(bytes, (name) => name === key);
  const model = container.ok ? container.files.get(key) : undefined;
  const lights = model === undefined ? undefined : lightEmittingObjects(model, `${options.file}/${file}`);
  const places = objects.map((each) =>
    (each?.names ?? []).flatMap((name) => {
      const object = lights?.get(name);
      return object === undefined ? [] : [object];
    }),
  );
  return places.every((each, i) => each.length > 0 && each.length === objects[i]?.names.length)
    ? places
    : undefined;
}

/** The light of emitters that shine together; `places` says where each of them does. */
export function sumOfEmitters(
  all: readonly Photometry[],
  places: ReturnType<typeof placesOfEmitters>,
  root: XmlElement,
  options: ReadOptions,
  source: SourceText,
): Photometry | undefined {
  if (all.some(({ distribution }) => distribution.type !== all[0].distribution.type))
    return source.error(root.at, "gldf-types-differ", "The emitters' files differ in photometric type.");
  const ratedFlux = sumIfAll(all.map((each) => each.ratedFlux));
  const absolute = all.every((each) => each.absolute);
  const factor = relampFactor({ absolute, ownFlux: ratedFlux, wanted: options.flux, at: root.at }, source);
  if (factor === undefined) return undefined;
  const sum = sumDistributions(all.map(({ distribution }) => distribution));
  const fluxes = all.map(({ distribution }) => luminousFlux(distribution).total);
  const strongest = all[fluxes.indexOf(Math.max(...fluxes))];
  const lumens = fluxes.map((flux) => `${Math.round(flux * factor)} lm`).join(" and ");
  const opening = places === undefined ? undefined : coveringOpening(all, places, sum, lumens, root, source);
  if (opening === undefined)
    source.warn(
      root.at,
      "gldf-emitters-summed",
      "The light of all emitters is summed about one centre, as nothing in the archive says where in the luminaire they are; the opening is that of the strongest.",
      { expected: `a model under ${quote(MODELS)} with the objects that emit light`, received: lumens },
    );
  return {
    ...strongest,
    opening: opening ?? strongest.opening,
    distribution: scaledTo(sum, factor),
    absolute,
    ratedFlux: options.flux ?? ratedFlux,
  };
}

/** The opening of all emitters in their places; says what summing them costs in accuracy. */
function coveringOpening(
  all: readonly Photometry[],
  places: NonNullable<ReturnType<typeof placesOfEmitters>>,
  sum: IntensityDistribution,
  lumens: string,
  root: XmlElement,
  source: SourceText,
): LuminousOpening {
  const emitters = all.flatMap(({ distribution, opening }, i) =>
    places[i].map((place) => ({
      distribution: scaledTo(distribution, 1 / places[i].length),
      opening: place.opening ?? opening,
      centre: place.centre,
    })),
  );
  const together = emittersTogether(emitters, sum);
  const { message, ...detail } = togetherWords(together, lumens);
  source.warn(root.at, "gldf-emitters-summed", message, detail);
  return together.opening;
}

function scaledTo(distribution: IntensityDistribution, share: number): IntensityDistribution {
  return share === 1
    ? distribution
    : { ...distribution, intensity: distribution.intensity.map((candela) => candela * share) };
}
