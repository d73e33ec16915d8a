/** A luminaire, as the study writes it; `keys/luminaire-keys.ts` says what each key means. */

import * as v from "valibot";
import { NAMED_BODY_PROFILES } from "../luminaire/body-profiles.ts";
import { UPRIGHT_OPENINGS } from "../photometry/luminous-opening.ts";
import { lampSchema, shadeSchema } from "./shade-schema.ts";
import {
  angleWithin,
  coordinate,
  either,
  lengthFromZero,
  list,
  numberWithin,
  object,
  oneOf,
  point2,
  positiveLength,
  ratio,
  reflectance,
  size2,
  text,
  tupleMessage,
  wholeNumber,
} from "./study-fields.ts";

const optional = v.optional;

const watts = numberWithin("power", " W", { from: 0, to: 100_000 });
const flux = numberWithin("luminous flux", " lm", { above: 0, to: 1e7 });
const radiusAndHeight = v.strictTuple([lengthFromZero, coordinate], tupleMessage("[radius, height]"));

export const luminaireSchema = object({
  photometry: optional(text),
  beam: optional(
    object({
      flux,
      angle: angleWithin({ from: 1, to: 180 }),
      peak: optional(numberWithin("luminous intensity", " cd", { above: 0, to: 1e8 })),
      fieldAngle: optional(angleWithin({ from: 1, to: 180 })),
    }),
  ),
  /** Of a shade, the lamp in it; beside a file or a beam, the lamp to order. */
  lamp: optional(either((input) => typeof input === "string", text, lampSchema)),
  shade: optional(shadeSchema),
  opening: optional(
    object({
      shape: optional(oneOf(UPRIGHT_OPENINGS)),
      diameter: optional(positiveLength),
      length: optional(positiveLength),
      width: optional(positiveLength),
      height: optional(lengthFromZero),
    }),
  ),
  body: optional(
    object({
      profile: oneOf([...NAMED_BODY_PROFILES, "profile"]),
      diameter: optional(positiveLength),
      height: optional(positiveLength),
      length: optional(positiveLength),
      width: optional(positiveLength),
      outline: optional(list(radiusAndHeight, 2, 200, "points")),
      offset: optional(coordinate),
      reflectance: optional(reflectance),
      lining: optional(reflectance),
      transmittance: optional(ratio),
    }),
  ),
  lampSet: optional(wholeNumber(0, 1000)),
  flux: optional(flux),
  fluxFrom: optional(oneOf(["file", "lamps"])),
  watts: optional(watts),
  markedWatts: optional(watts),
  cct: optional(numberWithin("colour temperature", " K", { from: 1000, to: 25_000 })),
  cri: optional(numberWithin("colour rendering index", "", { from: 0, to: 100 })),
  weight: optional(numberWithin("weight", " kg", { above: 0, to: 10_000 })),
  canopy: optional(object({ diameter: positiveLength, height: optional(positiveLength) })),
  cutOut: optional(either(Array.isArray, size2, positiveLength)),
  suspension: optional(oneOf(["rod", "cord", "chain", "cable"])),
  finish: optional(text),
  colour: optional(text),
  maker: optional(text),
  order: optional(text),
  measured: optional(text),
  base: optional(text),
  driver: optional(text),
  dimming: optional(text),
  price: optional(numberWithin("price", "", { from: 0, to: 1e7 })),
  powerFactor: optional(numberWithin("power factor", "", { above: 0, to: 1 })),
  lampPrice: optional(numberWithin("price", "", { from: 0, to: 1e7 })),
  lampLife: optional(numberWithin("life", " h", { above: 0, to: 1e7 })),
  suspensions: optional(list(point2, 1, 20, "points")),
  feed: optional(point2),
  note: optional(text),
});

export type LuminaireDocument = v.InferOutput<typeof luminaireSchema>;
