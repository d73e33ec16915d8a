/**
 * The study document, key by key. Lengths come out in metres, angles stay in degrees as written.
 *
 * Objects list their keys in the order in which the JSON Schema and the documentation show them. What each key means is said beside
 * this file, in `keys/`, which a page that opens a study need not load.
 */

import * as v from "valibot";
import { arrangementSchema } from "./arrangement-schema.ts";
import { islandSchema } from "./island-schema.ts";
import { luminaireSchema } from "./luminaire-schema.ts";
import { bodySchema, personSchema, roomSchema } from "./room-schema.ts";
import {
  angle,
  dictionary,
  either,
  fileContent,
  flag,
  illuminance,
  lengthFromZero,
  lengthWithin,
  list,
  name,
  numberWithin,
  object,
  oneOf,
  PART,
  point2,
  point3,
  ratio,
  text,
} from "./study-fields.ts";

const optional = v.optional;

export const planeSchema = object({
  name,
  on: optional(name),
  rectangle: optional(object({ corner: point3, u: point3, v: point3 })),
  points: optional(list(point3, 1, 100_000, "points")),
  normal: optional(point3),
  spacing: optional(lengthWithin({ from: 0.001, to: 1000 })),
  margin: optional(lengthFromZero),
  target: optional(name),
  quantity: optional(oneOf(["planar", "cylindrical", "semi-cylindrical"])),
});

export const targetSchema = object({
  name: optional(text),
  illuminance: optional(illuminance),
  minimum: optional(illuminance),
  uniformity: optional(ratio),
  nature: optional(oneOf(["maintained", "initial"])),
  source: optional(text),
});

/** A file the study names, carried inside it: its text, or its bytes in base64. */
const embeddedFile = object({ text: optional(fileContent), base64: optional(fileContent) });

const factor = numberWithin("maintenance factor", "", { above: 0, to: 1 });
const maintenanceParts = object({
  lampFlux: optional(factor),
  survival: optional(factor),
  luminaire: optional(factor),
  surfaces: optional(factor),
});
/** One number, or its parts, which multiply. */
const maintenance = either((input) => typeof input === "object" && input !== null, maintenanceParts, factor);

/** Who the papers are for and from. */
const project = object({
  client: optional(text),
  address: optional(text),
  author: optional(text),
  logo: optional(text),
  number: optional(text),
});

const tariff = object({
  perKilowattHour: numberWithin("price", "", { from: 0, to: 1e6 }),
  currency: optional(text),
});

/** A drawing of the house beneath the plan. */
const underlay = object({
  image: text,
  scale: optional(numberWithin("scale", " m a pixel", { from: 1e-6, to: 100 })),
  turn: optional(angle),
  origin: optional(point2),
  opacity: optional(ratio),
});

export const studySchema = object({
  $schema: optional(text),
  format: v.literal(
    "candlespan-study",
    (issue) => `The document is not a study.${PART}"candlespan-study"${PART}${issue.received}`,
  ),
  version: v.literal(1, (issue) => `The version is not known.${PART}1${PART}${issue.received}`),
  title: optional(text),
  note: optional(text),
  project: optional(project),
  display: optional(
    object({ length: optional(oneOf(["mm", "m", "ft-in"])), illuminance: optional(oneOf(["lx", "fc"])) }),
  ),
  room: roomSchema,
  island: optional(islandSchema),
  bodies: optional(list(bodySchema, 0, 200, "bodies")),
  people: optional(list(personSchema, 0, 50, "people")),
  luminaires: optional(dictionary(luminaireSchema)),
  maintenance: optional(maintenance),
  arrangements: list(arrangementSchema, 1, 50, "arrangements"),
  planes: optional(list(planeSchema, 0, 100, "planes")),
  targets: optional(dictionary(targetSchema)),
  tariff: optional(tariff),
  underlay: optional(underlay),
  embedded: optional(dictionary(embeddedFile)),
  calculation: optional(
    object({
      interreflection: optional(flag),
      occlusion: optional(flag),
      nearFieldError: optional(numberWithin("error bound", "", { from: 1e-6, to: 0.1 })),
    }),
  ),
});

export type PlaneDocument = v.InferOutput<typeof planeSchema>;
export type TargetDocument = v.InferOutput<typeof targetSchema>;
export type StudyDocument = v.InferOutput<typeof studySchema>;
