import type { LampDocument, ShadeDocument, SurfaceDocument } from "../../luminaire/shade/shade-document.ts";
import type { Keys } from "./key.ts";

export const LAMP_KEYS: Keys<LampDocument> = {
  flux: { meaning: "Luminous flux of one lamp, in lumens.", example: 806 },
  watts: { meaning: "Power of one lamp.", without: "the luminaire's `watts`, or not known", example: 7 },
  shape: {
    meaning: "Shape code of the lamp, which gives its diameter.",
    without: "`diameter` gives its size",
    example: "A19",
  },
  diameter: { meaning: "Largest diameter of the bulb.", default: 0.06, example: "60 mm" },
  finish: {
    meaning:
      "How the lamp sends its light: all over, from a filament, without its front half, as a beam, as a flat module.",
    without: "directional where `beam` is given, else frosted",
    example: "frosted",
  },
  beam: {
    meaning: "Beam angle of a directional lamp, at half its maximum.",
    without: "it is not directional",
    example: 36,
  },
  orientation: { meaning: "How it stands in the shade.", default: "base-up", example: "base-up" },
  height: {
    meaning: "Centre of the lamp above the shade's lower rim.",
    frame: "shade",
    without: "45 % of the shade's height, or its middle",
    example: "90 mm",
  },
  radius: {
    meaning: "Distance of each lamp from the axis where there are several.",
    frame: "shade",
    default: 0,
    example: "50 mm",
  },
  count: { meaning: "How many lamps, evenly round the axis.", default: 1, example: 3 },
  filament: {
    meaning: "Length of the filament of a clear lamp.",
    without: "that of its shape",
    example: "30 mm",
  },
};

const surface = (of: string): Keys<SurfaceDocument> => ({
  finish: { meaning: `Named finish of ${of}.`, without: "the shade's", example: "white" },
  reflectance: { meaning: `Reflectance of ${of}.`, without: "that of the finish", example: 0.85 },
  specular: {
    meaning: `Share of what ${of} reflects that leaves as from a mirror.`,
    without: "that of the finish",
    example: 0.05,
  },
  transmittance: {
    meaning: `Share of light that goes through ${of}.`,
    without: "that of the finish",
    example: 0,
  },
  diffusion: {
    meaning: `Share of what goes through ${of} that leaves spread in all directions.`,
    without: "that of the finish",
    example: 1,
  },
});

export const SHADE_KEYS: Keys<ShadeDocument> = {
  profile: {
    meaning: "Form of the shade, or its profile as [radius, height] points from the lower rim upwards.",
    frame: "shade",
    example: "cone",
  },
  diameter: {
    meaning: "Largest diameter of a form of revolution.",
    without: "the points of the profile give it; a named form needs it",
    example: "350 mm",
  },
  length: { meaning: "Mouth of a linear housing along C0.", without: "not linear", example: "1.2 m" },
  width: { meaning: "Mouth of a linear housing along C90.", without: "not linear", example: "60 mm" },
  height: {
    meaning: "From lower rim to top; of a linear housing from mouth to strip.",
    frame: "shade",
    without: "a common share of the form's diameter",
    example: "250 mm",
  },
  topDiameter: {
    meaning: "Diameter at the top.",
    without: "a common share of the form's diameter",
    example: "80 mm",
  },
  finish: { meaning: "Named finish of the shade, inside and out.", default: "white", example: "white" },
  inside: {
    meaning: "Inner face, where it differs.",
    without: "that of `finish`",
    example: { finish: "white" },
    keys: surface("the inner face"),
  },
  outside: {
    meaning: "Outer face, where it differs.",
    without: "that of `finish`",
    example: { finish: "black" },
    keys: surface("the outer face"),
  },
  transmittance: {
    meaning: "Share of light that goes through the shade itself.",
    without: "that of the finish",
    example: 0,
  },
  diffusion: {
    meaning: "Share of what goes through that leaves spread in all directions.",
    without: "that of the finish",
    example: 1,
  },
  top: {
    meaning: "Whether the shade is closed above.",
    without: "that of the form; a profile of points is closed",
    example: "closed",
  },
  bottom: {
    meaning: "What closes the shade below; of a linear housing a diffuser unless told.",
    default: "open",
    example: "diffuser",
  },
  diffuser: {
    meaning: "The cover below, with `bottom` diffuser.",
    without: "opal plastic",
    example: { finish: "opal plastic" },
    keys: surface("the cover"),
  },
};
