import type {
  ArrangementDocument,
  GridDocument,
  LayerDocument,
  PlaceDocument,
  RowDocument,
} from "../arrangement-schema.ts";
import type { Key, Keys } from "./key.ts";

const aim: Key = {
  meaning: "The point that the luminaires shine at, in place of turn and tilt.",
  frame: "room",
  without: "they hang as turned and tilted",
  example: [2.7, 2.1, 0.92],
};
const EITHER_SPACING =
  "another of `spacing`, `gap` and `end`, or equal bays: length / count, half of it at each end";

const ROW_KEYS: Keys<RowDocument> = {
  count: {
    meaning: "How many luminaires hang in the row, along the island's x.",
    frame: "island",
    example: 3,
  },
  gap: { meaning: "Free distance between neighbouring rims.", without: EITHER_SPACING, example: "700 mm" },
  spacing: { meaning: "Distance from centre to centre.", without: EITHER_SPACING, example: "800 mm" },
  end: {
    meaning: "Free distance from the outer rims to the ends of the top.",
    without: EITHER_SPACING,
    example: "200 mm",
  },
  clearance: {
    meaning: "From the top's surface to the lowest point of body and opening.",
    default: 0.84,
    example: "33 in",
  },
  offset: {
    meaning:
      "Shift of the whole row from the middle of the top, of an L or any other outline the middle of the box about it: [along, across].",
    frame: "island",
    default: [0, 0],
    example: [0, 0.05],
  },
  turn: {
    meaning: "Turn of each luminaire about its own axis, from the island's x, counter-clockwise from above.",
    frame: "island",
    without: "0, or 90 for one that is longer across than along",
    example: 90,
  },
  aim,
  followSlope: {
    meaning: "Whether they stand square to a sloped ceiling instead of plumb.",
    without: "true for role recessed, else false",
    example: false,
  },
};

const GRID_KEYS: Keys<GridDocument> = {
  columns: { meaning: "How many along the room's x.", frame: "room", example: 3 },
  rows: { meaning: "How many along the room's y.", frame: "room", example: 2 },
  margin: {
    meaning:
      "From the finished wall, or the edge of `over`, to the centre of the outer ones; [along x, along y] where they differ.",
    frame: "room",
    without: "half a spacing",
    example: "700 mm",
  },
  over: {
    meaning: "Two opposite corners in plan that limit the grid.",
    frame: "room",
    without: "the whole room",
    example: [
      [0, 0],
      [4.8, 4.2],
    ],
  },
  offset: {
    meaning: "Moves the whole grid along the room's x and y, as off a joist.",
    frame: "room",
    default: [0, 0],
    example: [0.04, 0],
  },
  height: {
    meaning: "Height of the photometric centres above the floor.",
    frame: "room",
    without: "the ceiling at each place",
    example: "2.6 m",
  },
  turn: {
    meaning: "Turn of each luminaire from the room's x, counter-clockwise from above.",
    frame: "room",
    default: 0,
    example: 90,
  },
  aim,
  followSlope: {
    meaning: "Whether they stand square to a sloped ceiling instead of plumb.",
    without: "true for role recessed, else false",
    example: true,
  },
};

const PLACE_KEYS: Keys<PlaceDocument> = {
  position: { meaning: "The photometric centre.", frame: "room", example: [1, 1, 2.7] },
  turn: {
    meaning: "Swings the luminaire about the room's vertical, last; counter-clockwise from above.",
    frame: "room",
    default: 0,
    example: 60,
  },
  tilt: {
    meaning: "Lifts its downward axis towards its own x, second.",
    frame: "luminaire",
    default: 0,
    example: 25,
  },
  spin: {
    meaning: "Turns it about its own axis, first; counter-clockwise from above.",
    frame: "luminaire",
    default: 0,
    example: 0,
  },
  aim: { ...aim, meaning: "The point that it shines at, in place of turn and tilt." },
};

const LAYER_KEYS: Keys<LayerDocument> = {
  name: { meaning: "Name in messages, drawings and JSON.", example: "pendants" },
  role: {
    meaning: "What the layer does; pendants hang plumb over the top, recessed ones sit in the ceiling.",
    without: "pendant for a row, recessed for a grid, else other",
    example: "pendant",
  },
  luminaire: { meaning: "A name in `luminaires`.", example: "dome" },
  dim: { meaning: "Dimmed to this share of full output.", default: 1, example: 0.8 },
  row: {
    meaning: "A row along the island.",
    frame: "island",
    without: "`grid` or `at` places the layer",
    example: { count: 3, clearance: "33 in" },
    keys: ROW_KEYS,
  },
  grid: {
    meaning: "Columns and rows in the ceiling.",
    frame: "room",
    without: "`row` or `at` places the layer",
    example: { columns: 3, rows: 2, margin: "700 mm" },
    keys: GRID_KEYS,
  },
  at: {
    meaning: "Single places.",
    frame: "room",
    without: "`row` or `grid` places the layer",
    example: [{ position: [1, 1, 2.7], turn: 0 }],
    keys: PLACE_KEYS,
  },
  circuit: {
    meaning: "Circuit it is wired to, for the schedule.",
    without: "not known; on hold",
    example: "2",
  },
  dimmer: {
    meaning: "The dimmer, held against the load.",
    without: "not known",
    example: { name: "wall dimmer", minimumWatts: 5, maximumWatts: 150 },
    keys: {
      name: { meaning: "Its name in the schedule.", without: "not named", example: "wall dimmer" },
      minimumWatts: { meaning: "Least load at which it works.", without: "not known", example: 5 },
      maximumWatts: { meaning: "Greatest load that it carries.", without: "not known", example: 150 },
      curve: {
        meaning: "Power drawn at each share of flux: [share of flux, share of watts].",
        without: "power falls with flux",
        example: [
          [0, 0.05],
          [1, 1],
        ],
      },
      control: {
        meaning:
          "What it is set to for a share of light: linear, square (flux = control²), logarithmic (IEC 62386-102, the levels to 254 of a digital dimmer, not of one set by 0–10 V), or points [share of full control, share of flux], both rising.",
        without: "not known; papers give light output alone",
        example: [
          [0.1, 0.01],
          [1, 1],
        ],
      },
    },
  },
  switches: {
    meaning:
      "Places from which the layer is switched: two of them are a two-way pair, those between intermediate.",
    frame: "room",
    without: "not stated",
    example: [{ at: [0.1, 0.9] }],
    keys: {
      at: {
        meaning: "Place in plan.",
        frame: "room",
        without: "in a corner of the room; on hold on paper",
        example: [0.1, 0.9],
      },
    },
  },
  hours: {
    meaning: "Hours of use a day, for the energy of a year.",
    without: "no energy is counted",
    example: 3,
  },
  beyondTop: {
    meaning: "That its pendants may reach beyond the edge of the top, over the floor.",
    without: "what does is on hold on paper",
    example: true,
  },
};

export const ARRANGEMENT_KEYS: Keys<ArrangementDocument> = {
  name: { meaning: "Name in messages, drawings and JSON; each its own.", example: "three domes" },
  letter: {
    meaning: "Its letter on screen, on paper and in JSON; stays whatever is added or taken away beside it.",
    without: "the first letter that no other bears, in the study's order",
    example: "A",
  },
  layers: {
    meaning: "Luminaires of one kind, placed in one way.",
    example: [{ name: "pendants", luminaire: "dome", row: { count: 3 } }],
    keys: LAYER_KEYS,
  },
  settings: {
    meaning:
      "Levels of the layers for the uses of the kitchen, each judged by itself; the arrangement's verdict is the worst of theirs. They are of this arrangement alone: one that is to be compared in them repeats them.",
    without: "the arrangement is judged at its layers' own `dim`",
    example: [{ name: "dinner", dim: { pendants: 0.25, ambient: 0.1 }, zones: { eating: "eating-gb" } }],
    keys: {
      name: { meaning: "Name in messages, papers and JSON; each its own.", example: "dinner" },
      dim: {
        meaning:
          "Share of full flux of layers by name, in place of their own `dim`; layers not named keep theirs.",
        without: "every layer keeps its own, or, where `zones` asks for something, they are found",
        example: { pendants: 0.25, ambient: 0.1 },
      },
      zones: {
        meaning: "What is asked of zones by name, in place of their own target; null asks nothing.",
        without: "what the zones ask",
        example: { eating: "eating-gb", prep: null },
      },
      find: {
        meaning:
          "What the levels are found by: least power that meets the targets, or the evenest light that does.",
        without: "least power, where neither `dim` nor this is given and `zones` asks for something",
        example: "evenest",
      },
      note: { meaning: "A remark; read by people only.", without: "none", example: "after nine" },
    },
  },
  note: { meaning: "A remark; read by people only.", without: "none", example: "a row by gap" },
};
