/**
 * The study document, key by key. Lengths come out in metres, angles stay in degrees as written.
 *
 * Objects list their keys in the order in which the JSON Schema and the documentation show them.
 */

import * as v from "valibot";
import { NAMED_BODY_PROFILES } from "../luminaire/body-profiles.ts";
import { lampSchema, shadeSchema } from "./shade-schema.ts";
import {
  angle,
  angleWithin,
  coordinate,
  dictionary,
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
  polygon,
  positiveLength,
  ratio,
  reflectance,
  size2,
  text,
  tupleMessage,
  wholeNumber,
} from "./study-fields.ts";

const optional = v.optional;
const side = oneOf(["x-", "x+", "y-", "y+"]);
const watts = numberWithin("power", " W", { from: 0, to: 100_000 });
const flux = numberWithin("luminous flux", " lm", { above: 0, to: 1e7 });

const wallReflectances = v.strictTuple(
  [reflectance, reflectance, reflectance, reflectance],
  tupleMessage("one reflectance, or four: [wall 0, wall 1, wall 2, wall 3]"),
);
/** One for all walls, or one each. */
const walls = v.pipe(
  v.lazy((input): typeof reflectance | typeof wallReflectances =>
    Array.isArray(input) ? wallReflectances : reflectance,
  ),
  v.metadata({ kind: "either", options: [reflectance, wallReflectances] }),
);

const room = object({
  length: positiveLength,
  width: positiveLength,
  ceilingHeight: positiveLength,
  ceiling: optional(object({ slope: optional(angleWithin({ from: 0, to: 80 })), towards: optional(angle) })),
  reflectance: optional(
    object({ ceiling: optional(reflectance), walls: optional(walls), floor: optional(reflectance) }),
  ),
  openings: optional(
    list(
      object({
        name: optional(name),
        wall: wholeNumber(0, 3),
        from: lengthFromZero,
        length: positiveLength,
        sill: optional(lengthFromZero),
        height: positiveLength,
        reflectance: optional(reflectance),
      }),
      0,
      100,
      "openings",
    ),
  ),
  joists: optional(
    object({
      along: oneOf(["x", "y"]),
      spacing: positiveLength,
      first: lengthFromZero,
      width: optional(positiveLength),
    }),
  ),
  keepOuts: optional(
    list(
      object({
        name: optional(name),
        from: optional(point2),
        size: optional(size2),
        polygon: optional(polygon),
      }),
      0,
      200,
      "keep-outs",
    ),
  ),
});

const zone = object({
  name,
  from: optional(point2),
  size: optional(size2),
  polygon: optional(polygon),
  height: optional(positiveLength),
  target: optional(v.nullable(name)),
});

const basinDepth = v.pipe(
  v.lazy((input): typeof flag | typeof positiveLength =>
    typeof input === "boolean" ? flag : positiveLength,
  ),
  v.metadata({ kind: "either", options: [flag, positiveLength] }),
);

const island = object({
  centre: optional(point2),
  length: optional(positiveLength),
  width: optional(positiveLength),
  height: optional(lengthWithin({ above: 0.05, to: 3 })),
  turn: optional(angle),
  outline: optional(polygon),
  levels: optional(
    list(
      object({
        name: optional(name),
        from: optional(point2),
        size: optional(size2),
        polygon: optional(polygon),
        height: positiveLength,
      }),
      0,
      20,
      "levels",
    ),
  ),
  overhang: optional(object({ side, depth: lengthFromZero })),
  reflectance: optional(object({ top: optional(reflectance), sides: optional(reflectance) })),
  finish: optional(oneOf(["matt", "satin", "polished"])),
  colour: optional(text),
  zones: optional(list(zone, 0, 100, "zones")),
  hob: optional(object({ from: point2, size: size2 })),
  sink: optional(object({ from: point2, size: size2, basin: optional(basinDepth) })),
  seats: optional(
    object({ side: optional(side), count: optional(wholeNumber(1, 40)), width: optional(positiveLength) }),
  ),
});

const body = object({
  name,
  box: v.strictTuple([point3, point3], tupleMessage("[[x0, y0, z0], [x1, y1, z1]]")),
  turn: optional(angle),
  reflectance: optional(reflectance),
  transmittance: optional(ratio),
  finish: optional(text),
  colour: optional(text),
});

const person = object({
  name,
  stature: optional(lengthWithin({ from: 0.8, to: 2.5 })),
  at: point2,
  facing: optional(angle),
  posture: optional(oneOf(["standing", "leaning", "seated"])),
  seat: optional(lengthWithin({ from: 0.2, to: 1.2 })),
  age: optional(numberWithin("age", " years", { from: 0, to: 130 })),
  hand: optional(oneOf(["left", "right"])),
});

const radiusAndHeight = v.strictTuple([lengthFromZero, coordinate], tupleMessage("[radius, height]"));

const luminaire = object({
  photometry: optional(text),
  beam: optional(
    object({
      flux,
      angle: angleWithin({ from: 1, to: 180 }),
      peak: optional(numberWithin("luminous intensity", " cd", { above: 0, to: 1e8 })),
      fieldAngle: optional(angleWithin({ from: 1, to: 180 })),
    }),
  ),
  lamp: optional(lampSchema),
  shade: optional(shadeSchema),
  opening: optional(
    object({
      shape: optional(oneOf(["point", "disc", "rectangle", "box", "ellipsoid", "cylinder"])),
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
  suspension: optional(oneOf(["rod", "cord", "chain", "cable"])),
  finish: optional(text),
  colour: optional(text),
  maker: optional(text),
  order: optional(text),
  base: optional(text),
  driver: optional(text),
  dimming: optional(text),
  price: optional(numberWithin("price", "", { from: 0, to: 1e7 })),
  suspensions: optional(list(point2, 1, 20, "points")),
  feed: optional(point2),
  note: optional(text),
});

const row = object({
  count: wholeNumber(1, 200),
  gap: optional(lengthFromZero),
  spacing: optional(positiveLength),
  end: optional(coordinate),
  clearance: optional(positiveLength),
  offset: optional(point2),
  turn: optional(angle),
  aim: optional(point3),
  followSlope: optional(flag),
});

const grid = object({
  columns: wholeNumber(1, 100),
  rows: wholeNumber(1, 100),
  margin: optional(lengthFromZero),
  over: optional(v.strictTuple([point2, point2], tupleMessage("[[x0, y0], [x1, y1]]"))),
  height: optional(positiveLength),
  turn: optional(angle),
  aim: optional(point3),
  followSlope: optional(flag),
});

const place = object({
  position: point3,
  turn: optional(angle),
  tilt: optional(angle),
  spin: optional(angle),
  aim: optional(point3),
});

const dimmer = object({
  name: optional(text),
  minimumWatts: optional(watts),
  maximumWatts: optional(watts),
  curve: optional(
    list(v.strictTuple([ratio, ratio], tupleMessage("[share of flux, share of watts]")), 2, 50, "points"),
  ),
});

const layer = object({
  name,
  role: optional(oneOf(["pendant", "recessed", "accent", "other"])),
  luminaire: name,
  dim: optional(ratio),
  row: optional(row),
  grid: optional(grid),
  at: optional(list(place, 1, 1000, "places")),
  circuit: optional(text),
  dimmer: optional(dimmer),
  hours: optional(numberWithin("hours of use a day", " h", { from: 0, to: 24 })),
});

const arrangement = object({
  name,
  layers: list(layer, 0, 50, "layers"),
  note: optional(text),
});

const plane = object({
  name,
  on: optional(name),
  rectangle: optional(object({ corner: point3, u: point3, v: point3 })),
  points: optional(list(point3, 1, 100_000, "points")),
  normal: optional(point3),
  spacing: optional(lengthWithin({ from: 0.001, to: 1000 })),
  margin: optional(lengthFromZero),
  quantity: optional(oneOf(["planar", "cylindrical", "semi-cylindrical"])),
});

const target = object({
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
const maintenance = v.pipe(
  v.lazy((input): typeof factor | typeof maintenanceParts =>
    typeof input === "object" && input !== null ? maintenanceParts : factor,
  ),
  v.metadata({ kind: "either", options: [factor, maintenanceParts] }),
);

export const studySchema = object({
  $schema: optional(text),
  format: v.literal(
    "candlespan-study",
    (issue) => `The document is not a study.${PART}"candlespan-study"${PART}${issue.received}`,
  ),
  version: v.literal(1, (issue) => `The version is not known.${PART}1${PART}${issue.received}`),
  title: optional(text),
  note: optional(text),
  display: optional(
    object({ length: optional(oneOf(["mm", "m", "ft-in"])), illuminance: optional(oneOf(["lx", "fc"])) }),
  ),
  room,
  island: optional(island),
  bodies: optional(list(body, 0, 200, "bodies")),
  people: optional(list(person, 0, 50, "people")),
  luminaires: optional(dictionary(luminaire)),
  maintenance: optional(maintenance),
  arrangements: list(arrangement, 1, 50, "arrangements"),
  planes: optional(list(plane, 0, 100, "planes")),
  targets: optional(dictionary(target)),
  embedded: optional(dictionary(embeddedFile)),
  calculation: optional(
    object({
      interreflection: optional(flag),
      occlusion: optional(flag),
      nearFieldError: optional(numberWithin("error bound", "", { from: 1e-6, to: 0.1 })),
    }),
  ),
});

export type StudyDocument = v.InferOutput<typeof studySchema>;
export type RoomDocument = v.InferOutput<typeof room>;
export type IslandDocument = v.InferOutput<typeof island>;
export type ZoneDocument = v.InferOutput<typeof zone>;
export type BodyDocument = v.InferOutput<typeof body>;
export type PersonDocument = v.InferOutput<typeof person>;
export type LuminaireDocument = v.InferOutput<typeof luminaire>;
export type ArrangementDocument = v.InferOutput<typeof arrangement>;
export type LayerDocument = v.InferOutput<typeof layer>;
export type RowDocument = v.InferOutput<typeof row>;
export type GridDocument = v.InferOutput<typeof grid>;
export type PlaceDocument = v.InferOutput<typeof place>;
export type PlaneDocument = v.InferOutput<typeof plane>;
export type TargetDocument = v.InferOutput<typeof target>;
