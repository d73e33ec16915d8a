/** What `inspect`, `shade` and `verify` print with --json, and `check --targets`. */

import { PHOTOMETRIC_FORMATS } from "../../photometry/photometric-formats.ts";
import {
  anything,
  count,
  flag,
  HEAD,
  list,
  number,
  numbers,
  object,
  oneOf,
  orNull,
  text,
  VERDICT,
} from "./answer-schema.ts";

const WIDTH = orNull(
  object("Between the two directions.", {
    angle: number("Between them.", "°"),
    from: number("One.", "°"),
    to: number("The other.", "°"),
  }),
);
const BEAM = object("Angle between the directions of a share of an intensity.", {
  level: number("The share: 0.5 of a beam, 0.1 of a field."),
  ofMaximum: orNull(number("Of the maximum.", "°")),
  ofAxial: orNull(number("Of the axial intensity.", "°")),
  planes: list(
    "In each plane.",
    object("A plane.", { C: number("C.", "°"), ofMaximum: WIDTH, ofAxial: WIDTH }),
  ),
});

const INSPECTED = object("A file that was read.", {
  file: text("Its path."),
  format: oneOf("Its format.", ...PHOTOMETRIC_FORMATS.map(({ name }) => name)),
  edition: text("Edition of the format; empty where there are none."),
  type: oneOf("Photometric type.", "A", "B", "C"),
  symmetry: text("Symmetry that the file declares."),
  measuredSymmetry: text("Symmetry that its figures have."),
  absolute: flag("Whether the candela are the luminaire's own, whatever the lamps."),
  description: text("What it says of itself."),
  flux: object("Luminous flux.", {
    rated: orNull(number("Of its lamps.", "lm")),
    integrated: number("Of its intensities.", "lm"),
    downward: number("Below the horizontal.", "lm"),
    upward: number("Above.", "lm"),
    downwardShare: orNull(number("0 to 1.")),
    zones: numbers("In zones of 10° from nadir.", "lm"),
  }),
  maximum: object("Greatest intensity.", {
    intensity: number("How great.", "cd"),
    C: number("Where: C.", "°"),
    gamma: number("Where: γ from nadir.", "°"),
  }),
  axial: number("Intensity straight down.", "cd"),
  beamAngle: BEAM,
  fieldAngle: BEAM,
  "fluxCode?": orNull(text("CIE flux code.")),
  watts: orNull(number("Power.", "W")),
  efficacy: orNull(number("Flux over power.", "lm/W")),
  opening: object("Luminous opening.", {
    shape: text("Its form."),
    length: number("Along C0–C180.", "m"),
    width: number("Along C90–C270.", "m"),
    height: number("Upright.", "m"),
  }),
  "maker?": text("Maker."),
  "order?": text("Catalogue number."),
  "lamp?": text("Lamp."),
  "driver?": text("Driver."),
  "generation?": anything("How the data came about, where the file says."),
  "lampSets?": anything("Lamp sets or emitters, where there are several."),
  planes: count("Planes of the table."),
  angles: count("Angles in each."),
  warnings: list("What is odd.", anything("Kind, words, place.")),
  "intensity?": list(
    "With --at.",
    object("A direction.", { C: number("C.", "°"), gamma: number("γ.", "°"), cd: number("There.", "cd") }),
  ),
  "svg?": text("Path of its polar diagram."),
});

export const INSPECT_ANSWER = list("What `inspect --json` prints: one object a file.", {
  anyOf: [
    INSPECTED,
    object("A file that was refused.", {
      file: text("Its path."),
      error: object("The first fault.", {
        code: text("Its kind."),
        message: text("In words."),
        "line?": count("Line, from 1."),
        "column?": count("Column, from 1."),
      }),
    }),
  ],
});

export const SHADE_ANSWER = list(
  "What `shade --json` prints: one object a luminaire.",
  object("A luminaire of lamp and shade.", {
    name: text("Its name."),
    lightOutputRatio: number("Share of the lamps' flux that leaves it."),
    lightOutputRatioBand: number("Statistical band of it at 95 %, relative."),
    downwardShare: number("Share of that which goes down."),
    flux: number("Flux of the luminaire.", "lm"),
    axialIntensity: orNull(number("Straight down.", "cd")),
    axialIntensityBand: number("Statistical band of it at 95 %, relative."),
    "axialIntensityWithin6?": number("Mean within 6° of straight down; of a shade of revolution.", "cd"),
    beamAngle: orNull(number("At half the maximum.", "°")),
    photons: count("Traced; 0 where light was found without."),
    evidence: text("How the light is known."),
    written: text("Path of the LM-63 file."),
    "diagram?": text("Path of the polar diagram."),
    assumptions: list(
      "What stood in for what was not said.",
      object("An assumption.", {
        key: text("Key of lamp or shade."),
        value: anything("The value."),
        why: text("Why it."),
      }),
    ),
  }),
);

export const VERIFY_ANSWER = object("What `verify --json` prints.", {
  ...HEAD,
  arrangement: text("The arrangement that was built."),
  background: number("Light that was there without any lamp lit.", "lx"),
  maintenance: number("What age and dirt have left of the light."),
  agree: count("Readings within their own band."),
  chance: number("Chance of readings as far off, all together, where nothing is wrong."),
  readings: list(
    "The readings.",
    object("A reading.", {
      at: numbers("Where, in the room: x, y, z.", "m", 3),
      line: count("Line of the file."),
      read: number("What was read.", "lx"),
      predicted: number("What was predicted.", "lx"),
      band: numbers("Of the prediction and the meter.", "lx", 2),
      agrees: flag("Whether it lies within."),
      "fitted?": number("After what was learnt.", "lx"),
      "explained?": flag("Whether what was learnt explains it."),
      "lit?": anything("Dim of each layer that was lit."),
    }),
  ),
  wrong: list(
    "What is wrong, the likeliest first; empty where nothing is.",
    object("A fault.", {
      kind: text("Its kind."),
      "layer?": text("In which layer."),
      "number?": count("Which luminaire, from 1; without it the whole layer."),
      "line?": count("Which reading."),
      "otherLine?": count("The reading that it was exchanged with."),
      "axis?": oneOf("What was counted from the other end.", "along", "across", "both"),
      "factor?": number("Share of the expected light that is left; of a unit, read over expected."),
      "by?": anything("Displacement in the room (m: x, y, z), or turn counter-clockwise (°)."),
      odds: orNull(number("How much likelier than that nothing is wrong.")),
      "words?": text("In words."),
      "instead?": anything("What explains the readings nearly as well."),
    }),
  ),
  learnt: list(
    "What the readings tell of the inputs.",
    object("An input.", {
      name: text("In words."),
      factor: number("The best estimate."),
      before: numbers("Its band before.", "", 2),
      band: numbers("Its band now.", "", 2),
      learnt: number("How much narrower, 0 to 1."),
    }),
  ),
  zones: list(
    "Verdicts with what was learnt.",
    object("A zone.", {
      name: text("Its name."),
      predicted: number("Before.", "lx"),
      average: number("Now.", "lx"),
      band: numbers("Its band now.", "lx", 2),
      "target?": number("What is asked.", "lx"),
      "verdict?": VERDICT,
    }),
  ),
  open: list("What the readings leave open.", anything("In words.")),
});

export const TARGETS_ANSWER = list(
  "What `check --targets --json` prints: published targets.",
  object("A target.", {
    id: text("The name that a zone's `target` takes."),
    name: text("What it is for."),
    requirements: list("What it asks.", anything("Quantity, statistic, value, nature.")),
    source: text("Where it comes from."),
    known: text("How it is known."),
    scope: text("Where it holds."),
    "surface?": text("The surface it is for."),
    "note?": text("A remark."),
    "ages?": text("Whose eyes it is for, where the source says so."),
  }),
);
