import { capital, listed } from "../../diagnostics/sentence.ts";
import { BODY_PROFILES, NAMED_BODY_PROFILES } from "../../luminaire/body-profiles.ts";
import { photometricFormats } from "../../photometry/format-names.ts";
import type { LuminaireDocument } from "../luminaire-schema.ts";
import type { Keys } from "./key.ts";
import { LAMP_KEYS, SHADE_KEYS } from "./shade-keys.ts";

/** Named outlines of a body that lie about the photometric centre, or those that open downward. */
function outlines(centred: boolean): string {
  return listed(NAMED_BODY_PROFILES.filter((name) => BODY_PROFILES[name].centred === centred));
}

export const LUMINAIRE_KEYS: Keys<LuminaireDocument> = {
  photometry: {
    meaning: `Path of its photometric file (${photometricFormats("or")}), from the study's folder and inside it; or the name of an embedded one.`,
    without: "`beam`, or `lamp` with `shade`, gives the light",
    example: "photometry/dome.ies",
  },
  beam: {
    meaning: "A typical luminaire from flux and beam angle, where there is no file.",
    without: "`photometry`, or `lamp` with `shade`, gives the light",
    example: { flux: 650, angle: 36 },
    keys: {
      flux: { meaning: "Luminous flux of the luminaire, in lumens.", example: 650 },
      angle: { meaning: "Beam angle, at half the maximum.", example: 36 },
      peak: { meaning: "Greatest intensity, in candela.", without: "from flux and angle", example: 1500 },
      fieldAngle: {
        meaning: "Field angle, at a tenth of the maximum.",
        without: "from flux and angle",
        example: 62,
      },
    },
  },
  lamp: {
    meaning: "With `shade`, the lamp inside it; as a text, the lamp to order.",
    without: "what the photometric file says of its lamp",
    example: { flux: 806, shape: "A19" },
    keys: LAMP_KEYS,
  },
  shade: {
    meaning: "The shade round the lamp, whose light is then traced.",
    without: "`photometry` or `beam` gives the light",
    example: { profile: "cone", diameter: "350 mm", finish: "white" },
    keys: SHADE_KEYS,
  },
  opening: {
    meaning: "The luminous opening, in place of the file's.",
    frame: "luminaire",
    without: "that of the file; of a beam a point",
    example: { shape: "disc", diameter: "70 mm" },
    keys: {
      shape: { meaning: "Its form.", without: "from the sizes given", example: "disc" },
      diameter: { meaning: "Diameter of a round one.", without: "it is not round", example: "70 mm" },
      length: {
        meaning: "Extent along C0–C180.",
        frame: "luminaire",
        without: "the diameter",
        example: "1.2 m",
      },
      width: {
        meaning: "Extent along C90–C270.",
        frame: "luminaire",
        without: "the diameter, else the length",
        example: "50 mm",
      },
      height: { meaning: "Height of its luminous sides; 0 is flat.", default: 0, example: 0 },
    },
  },
  body: {
    meaning:
      "The housing, without the flange of what is recessed: it stands in the light and in the view, and its lowest point gives the clearance.",
    without: "no body; the luminaire is its opening",
    example: { profile: "dome", diameter: "300 mm", height: "220 mm" },
    keys: {
      profile: {
        meaning: `Form. ${capital(outlines(false))} open downward with the rim at the opening; ${outlines(true)} lie about the photometric centre; profile is drawn by \`outline\`.`,
        example: "dome",
      },
      diameter: { meaning: "Largest diameter.", without: "the opening's", example: "300 mm" },
      height: {
        meaning: "From its lowest to its highest point.",
        without: "usual of the form",
        example: "220 mm",
      },
      length: {
        meaning:
          "Of a box, along C0–C180. Many EULUMDAT files of linear luminaires have their long side along C90–C270: `inspect` shows the opening, and the body's long side lies along it.",
        frame: "luminaire",
        without: "the diameter, else the opening's",
        example: "1.2 m",
      },
      width: {
        meaning: "Of a box, along C90–C270.",
        frame: "luminaire",
        without: "the diameter, else the opening's",
        example: "60 mm",
      },
      outline: {
        meaning: "Half profile as [radius, height] points, lower end first.",
        frame: "luminaire",
        without: "that of the form",
        example: [
          [0, -0.12],
          [0.12, 0],
          [0.03, 0.12],
        ],
      },
      offset: {
        meaning: "Moves the body along the axis, upward where positive.",
        frame: "luminaire",
        default: 0,
        example: "25 mm",
      },
      reflectance: { meaning: "Reflectance of its outside.", default: 0.5, example: 0.3 },
      lining: { meaning: "Reflectance inside an open mouth.", without: "that of the outside", example: 0.8 },
      transmittance: {
        meaning: "Share of light from elsewhere that goes through it.",
        default: 0,
        example: 0,
      },
    },
  },
  lampSet: {
    meaning: "Which lamp set or emitter of the file, from 0.",
    without: "the first lamp set, all emitters",
    example: 0,
  },
  flux: {
    meaning: "Rated flux of the lamps fitted, in lumens, in place of that in a relative file.",
    without: "the file's",
    example: 800,
  },
  fluxFrom: {
    meaning: "Which is right where the file's own light is not its lamps' rated flux by more than 5 %.",
    without: "the file's light is used and papers are on hold",
    example: "file",
  },
  watts: {
    meaning: "Power drawn by one luminaire at full output.",
    without: "the file's, or not known",
    example: 11,
  },
  markedWatts: {
    meaning: "Greatest lamp power marked on it, which the dimmer must carry.",
    without: "not known; the fitted power counts",
    example: 60,
  },
  cct: { meaning: "Correlated colour temperature.", without: "the file's, or not known", example: 2700 },
  cri: { meaning: "General colour rendering index Ra.", without: "the file's, or not known", example: 90 },
  weight: {
    meaning: "Weight of one, for the ceiling box.",
    without: "not known; on hold on paper",
    example: 1.8,
  },
  canopy: {
    meaning: "The cap at the ceiling.",
    without: "not known",
    example: { diameter: "120 mm", height: "30 mm" },
    keys: {
      diameter: { meaning: "Diameter of the canopy.", example: "120 mm" },
      height: { meaning: "Height of the canopy.", without: "not known", example: "30 mm" },
    },
  },
  cutOut: {
    meaning:
      "The hole in the ceiling for what is recessed, as its maker states it: a diameter, or its extents along local x and local y. A little wider than `body`, which has to pass it; a flange covers up to 30 mm of it on each side. No other size stands in for it.",
    frame: "luminaire",
    without: "not stated; papers say that it is the maker's",
    example: "75 mm",
  },
  suspension: { meaning: "What it hangs by.", without: "not known", example: "cord" },
  finish: { meaning: "Finish in words, for the look of things.", without: "not known", example: "brass" },
  colour: { meaning: "Colour in words or as #rrggbb.", without: "not known", example: "black" },
  maker: { meaning: "Maker, for the schedule.", without: "the file's, or not stated", example: "the maker" },
  order: { meaning: "Order or catalogue number.", without: "the file's, or not stated", example: "D-300" },
  measured: {
    meaning:
      "The order number that its photometric file states, where that is the same product as the one ordered by another number: makers' files may carry other numbers than their order lists.",
    without: "another `order` than the file's is another luminaire, and papers are on hold",
    example: "D-300-27-LAB",
  },
  base: { meaning: "Lamp base.", without: "not stated", example: "E27" },
  driver: {
    meaning: "Driver, or where it sits.",
    without: "the file's, or not stated",
    example: "in the lamp",
  },
  dimming: {
    meaning:
      "How it dims, in free words that papers print as they are: trailing edge, leading edge, DALI, 0-10 V, not dimmable. Only a control by 0–10 V or 1–10 V is understood by itself: a dimmer's logarithmic curve is not its own.",
    without: "not stated",
    example: "trailing edge",
  },
  price: { meaning: "Price of one, in the currency of `tariff`.", without: "not stated", example: 210 },
  powerFactor: {
    meaning: "Input power over apparent power at full output, for the load in VA.",
    without: "the load is told in watts, as a least one",
    example: 0.9,
  },
  lampPrice: {
    meaning: "Price of its lamps when they are replaced, all of them, in the currency of `tariff`.",
    without: "not stated",
    example: 8,
  },
  lampLife: {
    meaning: "Rated life of its lamps, after which they are replaced.",
    without: "not stated",
    example: 15_000,
  },
  suspensions: {
    meaning:
      "Where its cords or rods meet it: [along C0–C180, along C90–C270], so that they turn with the luminaire; of several, the ceiling is set out for each.",
    frame: "luminaire",
    without: "one, in the middle",
    example: [
      [-0.5, 0],
      [0.5, 0],
    ],
  },
  feed: {
    meaning: "Where the supply comes down.",
    frame: "luminaire",
    without: "at the first suspension",
    example: [-0.5, 0],
  },
  note: { meaning: "A remark; read by people only.", without: "none", example: "a measured file" },
};
