/** Lamp and shade of a luminaire without a photometric file; see luminaire/shade/shade-document.ts. */

import * as v from "valibot";
import { FINISH_NAMES, type FinishName } from "../luminaire/shade/finishes.ts";
import { LAMP_FINISHES } from "../luminaire/shade/lamp-finishes.ts";
import { LOWER_ENDS } from "../luminaire/shade/shade-document.ts";
import { SHADE_PROFILES } from "../luminaire/shade/shade-forms.ts";
import {
  angleWithin,
  coordinate,
  lengthFromZero,
  lengthWithin,
  list,
  numberWithin,
  object,
  oneOf,
  PART,
  positiveLength,
  ratio,
  reflectance,
  text,
  tupleMessage,
  wholeNumber,
} from "./study-fields.ts";

const finish = oneOf(FINISH_NAMES as readonly FinishName[]);
const optional = v.optional;

const side = object({
  finish: optional(finish),
  reflectance: optional(reflectance),
  specular: optional(ratio),
  transmittance: optional(ratio),
  diffusion: optional(ratio),
});

export const lampSchema = object({
  flux: numberWithin("luminous flux", " lm", { above: 0, to: 1e6 }),
  watts: optional(numberWithin("power", " W", { above: 0, to: 1e5 })),
  shape: optional(text),
  diameter: optional(lengthWithin({ above: 0, to: 2 })),
  finish: optional(oneOf(LAMP_FINISHES)),
  beam: optional(angleWithin({ from: 1, to: 170 })),
  orientation: optional(oneOf(["base-up", "base-down", "horizontal"])),
  height: optional(coordinate),
  radius: optional(lengthFromZero),
  count: optional(wholeNumber(1, 60)),
  filament: optional(lengthWithin({ above: 0, to: 1 })),
});

const profilePoint = v.strictTuple([lengthFromZero, coordinate], tupleMessage("[radius, height]"));

export const shadeSchema = object({
  profile: v.union(
    [oneOf(SHADE_PROFILES), list(profilePoint, 2, 200, "points")],
    ({ received }) =>
      `The profile is neither a known form nor a list of points.${PART}one of ${SHADE_PROFILES.map((form) => `"${form}"`).join(", ")}, or [radius, height] points${PART}${received}`,
  ),
  diameter: optional(lengthWithin({ above: 0, to: 5 })),
  length: optional(lengthWithin({ above: 0, to: 10 })),
  width: optional(lengthWithin({ above: 0, to: 5 })),
  height: optional(positiveLength),
  topDiameter: optional(lengthFromZero),
  finish: optional(finish),
  inside: optional(side),
  outside: optional(side),
  transmittance: optional(ratio),
  diffusion: optional(ratio),
  top: optional(oneOf(["open", "closed"])),
  bottom: optional(oneOf(LOWER_ENDS)),
  diffuser: optional(side),
});
