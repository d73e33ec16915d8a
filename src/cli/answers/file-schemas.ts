/** What `inspect`, `shade` and `verify` print with --json, and `check --targets`. */

import type { PublishedTarget } from "../../assessment/targets-published.ts";
import type { ShadeVariantResult } from "../../design/shade-variants.ts";
import type { LuminousOpening } from "../../photometry/luminous-opening.ts";
import { PHOTOMETRIC_FORMATS } from "../../photometry/photometric-formats.ts";
import type {
  BeamSummary,
  PhotometrySummary,
  WarningSummary,
  WidthSummary,
} from "../../photometry/summary.ts";
import type { Requirement } from "../../scene/target.ts";
import type { DetectableJson } from "../../words/undetected-faults.ts";
import type { FindingJson, VerifyJson } from "../../words/verify-text.ts";
import type { InspectedJson, RefusedJson } from "../commands/inspect.ts";
import type { ShadeJson } from "../commands/shade.ts";
import type { ShadeComparisonJson } from "../shade-comparison.ts";
import {
  anything,
  count,
  flag,
  HEAD,
  type KeysOf,
  list,
  named,
  number,
  numbers,
  object,
  oneOf,
  orNull,
  text,
  VERDICT,
} from "./answer-schema.ts";

const WIDTH = orNull(
  object<WidthSummary>("Between the two directions.", {
    angle: number("Between them.", "°"),
    from: number("One.", "°"),
    to: number("The other.", "°"),
  }),
);
const BEAM = object<BeamSummary>("Angle between the directions of a share of an intensity.", {
  level: number("The share: 0.5 of a beam, 0.1 of a field."),
  ofMaximum: orNull(number("Of the maximum.", "°")),
  ofAxial: orNull(number("Of the axial intensity.", "°")),
  planes: list(
    "In each plane.",
    object<BeamSummary["planes"][number]>("A plane.", {
      C: number("C.", "°"),
      ofMaximum: WIDTH,
      ofAxial: WIDTH,
    }),
  ),
});

const INSPECTED = object<InspectedJson>("A file that was read.", {
  file: text("Its path."),
  format: oneOf("Its format.", ...PHOTOMETRIC_FORMATS.map(({ name }) => name)),
  edition: text("Edition of the format; empty where there are none."),
  type: oneOf("Photometric type.", "A", "B", "C"),
  symmetry: text("Symmetry that the file declares."),
  measuredSymmetry: text("Symmetry that its figures have."),
  absolute: flag("Whether the candela are the luminaire's own, whatever the lamps."),
  description: text("What it says of itself."),
  flux: object<PhotometrySummary["flux"]>("Luminous flux.", {
    rated: orNull(number("Of its lamps.", "lm")),
    integrated: number("Of its intensities.", "lm"),
    downward: number("Below the horizontal.", "lm"),
    upward: number("Above.", "lm"),
    downwardShare: number("0 to 1."),
    zones: numbers("In zones of 10° from nadir.", "lm"),
  }),
  maximum: object<PhotometrySummary["maximum"]>("Greatest intensity.", {
    intensity: number("How great.", "cd"),
    C: number("Where: C.", "°"),
    gamma: number("Where: γ from nadir.", "°"),
  }),
  axial: number("Intensity straight down.", "cd"),
  beamAngle: BEAM,
  fieldAngle: BEAM,
  fluxCode: text("CIE flux code."),
  watts: orNull(number("Power.", "W")),
  efficacy: orNull(number("Flux over power.", "lm/W")),
  opening: object<LuminousOpening>("Luminous opening.", {
    shape: text("Its form."),
    length: number("Along C0–C180.", "m"),
    width: number("Along C90–C270.", "m"),
    height: number("Upright.", "m"),
  }),
  "maker?": text("Maker."),
  "order?": text("Catalogue number."),
  "lamp?": text("Lamp."),
  "driver?": text("Driver."),
  "resampling?": object<NonNullable<PhotometrySummary["resampling"]>>(
    "For types A and B: errors of the table of 1° behind zones and beams.",
    {
      intensityError: number("Largest error of an intensity, of the maximum."),
      fluxError: number("Of the flux, relative."),
    },
  ),
  planes: count("Planes of the table."),
  angles: count("Angles in each."),
  warnings: list(
    "What is odd.",
    object<WarningSummary>("A remark.", {
      code: text("Its kind."),
      message: text("In words."),
      where: object<WarningSummary["where"]>("Its place.", {
        "file?": text("File."),
        "line?": count("Line, from 1."),
        "column?": count("Column, from 1."),
        "path?": text("Path in the file."),
      }),
    }),
  ),
  "intensity?": list(
    "With --at.",
    object<NonNullable<InspectedJson["intensity"]>[number]>("A direction.", {
      C: number("C.", "°"),
      gamma: number("γ.", "°"),
      cd: number("There.", "cd"),
    }),
  ),
  "svg?": text("Path of its polar diagram."),
});

export const INSPECT_ANSWER = list("What `inspect --json` prints: one object a file.", {
  anyOf: [
    INSPECTED,
    object<RefusedJson>("A file that was refused.", {
      file: text("Its path."),
      error: object<RefusedJson["error"]>("The first fault.", {
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
  object<ShadeJson>("A luminaire of lamp and shade.", {
    name: text("Its name."),
    lightOutputRatio: number("Share of the lamps' flux that leaves it."),
    lightOutputRatioBand: number("Statistical band of it at 95 %, relative."),
    downwardShare: number("Share of that which goes down."),
    flux: number("Flux of the luminaire.", "lm"),
    axialIntensity: number("Straight down.", "cd"),
    axialIntensityBand: number("Statistical band of it at 95 %, relative."),
    "axialIntensityWithin6?": number("Mean within 6° of straight down; of a shade of revolution.", "cd"),
    beamAngle: orNull(number("At half the maximum.", "°")),
    photons: count("Traced; 0 where light was found without."),
    evidence: text("How the light is known."),
    written: text("Path of the LM-63 file."),
    "diagram?": text("Path of the polar diagram."),
    assumptions: list(
      "What stood in for what was not said.",
      object<ShadeJson["assumptions"][number]>("An assumption.", {
        key: text("Key of lamp or shade."),
        value: anything("The value."),
        why: text("Why it."),
      }),
    ),
  }),
);

const FINDING: KeysOf<FindingJson> = {
  kind: text("Its kind."),
  "layer?": text("In which layer."),
  "number?": count("Which luminaire, from 1; without it the whole layer."),
  "line?": count("Which reading."),
  "otherLine?": count("The reading that it was exchanged with."),
  "axis?": oneOf("What was counted from the other end.", "along", "across", "both"),
  "factor?": number("Share of the expected light that is left; of a unit, read over expected."),
  "by?": anything("Displacement in the room (m: x, y, z), or turn counter-clockwise (°)."),
};

type VariantFigures = NonNullable<ShadeVariantResult["figures"]>;

export const SHADE_COMPARISON_ANSWER = object<ShadeComparisonJson>("What `shade --compare --json` prints.", {
  arrangement: text("The arrangement that was calculated."),
  layer: text("The layer that hangs the shade."),
  luminaire: text("Its luminaire."),
  variants: list(
    "The shade in each finish; none where the luminaire has no lamp and shade.",
    object<ShadeVariantResult>("A finish.", {
      name: text("In words."),
      finish: text("Its name in a study."),
      "unlit?": text("Why there are no figures."),
      "figures?": object<VariantFigures>("Light on the whole top and in the room, maintained.", {
        lightOutputRatio: number("Share of the lamps' flux that leaves it."),
        downwardShare: number("Share of that which goes down."),
        average: number("Of the whole top.", "lx"),
        uniformity: number("Of the whole top, minimum over average."),
        ceiling: number("Mean of the ceiling.", "lx"),
        eyes: list(
          "The brightest of these pendants towards each eye.",
          object<VariantFigures["eyes"][number]>("An eye.", {
            person: text("Whose."),
            luminance: number("0 where none is in view.", "cd/m²"),
            lamp: flag("Whether a lamp is seen."),
          }),
        ),
        covered: number("Share of the view between counter and ceiling that they cover, 0 to 1."),
        weight: number("The same, weighted by opacity."),
      }),
    }),
  ),
});

export const VERIFY_ANSWER = object<VerifyJson>("What `verify --json` prints.", {
  ...HEAD,
  arrangement: text("The arrangement that was built."),
  background: number("Light that was there without any lamp lit.", "lx"),
  maintenance: number("What age and dirt have left of the light."),
  agree: count("Readings within their own band."),
  chance: number("Chance of readings as far off, all together, where nothing is wrong."),
  readings: list(
    "The readings.",
    object<VerifyJson["readings"][number]>("A reading.", {
      at: numbers("Where, in the room: x, y, z.", "m", 3),
      line: count("Line of the file."),
      read: number("What was read.", "lx"),
      predicted: number("What was predicted.", "lx"),
      band: numbers("Of the prediction and the meter.", "lx", 2),
      agrees: flag("Whether it lies within."),
      fitted: number("After what was learnt.", "lx"),
      explained: flag("Whether what was learnt explains it."),
      lit: named("Dim of each layer, 0 to 1.", number("Its dim.")),
    }),
  ),
  wrong: list(
    "What is wrong, the likeliest first; empty where nothing is.",
    object<VerifyJson["wrong"][number]>("A fault.", {
      ...FINDING,
      odds: orNull(number("How much likelier than that nothing is wrong.")),
      words: text("In words."),
      instead: list("What explains the readings nearly as well.", object<FindingJson>("A fault.", FINDING)),
    }),
  ),
  learnt: list(
    "What the readings tell of the inputs.",
    object<VerifyJson["learnt"][number]>("An input.", {
      name: text("In words."),
      factor: number("The best estimate."),
      before: numbers("Its band before.", "", 2),
      band: numbers("Its band now.", "", 2),
      learnt: number("How much narrower, 0 to 1."),
    }),
  ),
  zones: list(
    "Verdicts with what was learnt.",
    object<VerifyJson["zones"][number]>("A zone.", {
      name: text("Its name."),
      predicted: number("Before.", "lx"),
      average: number("Now.", "lx"),
      band: numbers("Its band now.", "lx", 2),
      "target?": number("What is asked.", "lx"),
      verdict: VERDICT,
    }),
  ),
  open: list("What the readings leave open, in words.", { type: "string" }),
  detectable: list(
    "Of readings that agree: of each fault that is looked for, the smallest that they would have shown nine times in ten.",
    object<DetectableJson>("A fault.", {
      kind: text("Its kind; layer and swapped are of light that is missing."),
      "layer?": text("Of which layer."),
      "number?": count("Of one luminaire: the one in which it shows least, from 1."),
      "axis?": oneOf("What was counted from the other end.", "along", "across", "both"),
      "way?": oneOf("Which way it hangs elsewhere.", "up", "down", "along", "across"),
      shown: flag("Whether the largest that is looked for would have been shown."),
      "least?": number("The smallest that would have been shown.", "m, ° or share of the light"),
      "largest?": number("The largest that is looked for.", "m, ° or share of the light"),
    }),
  ),
  undetected: text("What they would not have shown, in words; empty where something is wrong."),
});

export const TARGETS_ANSWER = list(
  "What `check --targets --json` prints: published targets.",
  object<PublishedTarget>("A target.", {
    id: text("The name that a zone's `target` takes."),
    name: text("What it is for."),
    requirements: list(
      "What it asks.",
      object<Requirement>("One requirement.", {
        quantity: oneOf("Of what.", "illuminance", "uniformity"),
        statistic: oneOf("Of which statistic.", "average", "minimum", "minimum / average"),
        value: number("The least that meets it.", "lx or ratio"),
        nature: oneOf("When it holds.", "maintained", "initial"),
        "footcandles?": number("As the source states it, where in foot-candles.", "fc"),
      }),
    ),
    source: text("Where it comes from."),
    known: text("How it is known."),
    scope: oneOf("What the document speaks of.", "homes", "work places"),
    surface: oneOf("The surface it is for.", "worktop", "sink", "cooktop", "eating", "general"),
    "note?": text("A remark."),
    "ages?": text("Whose eyes it is for, where the source says so."),
  }),
);
