/** What `check --json` prints. Metres, degrees, lux, watts. */

import type {
  CheckAnswer,
  FineAnswer,
  LayerAnswer,
  LayerOffAnswer,
  PlaneAnswer,
  SettingAnswer,
  ZoneAnswer,
} from "../../app/check-answer.ts";
import type { WorkingEdge } from "../../app/working-edge.ts";
import type { Energy, Statistics } from "../../assessment/assessment.ts";
import {
  anything,
  CHECK,
  CLASHES,
  count,
  HEAD,
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

/** What `findings-json.ts` lists beside the verdict; with it and without. */
type FindingKeys = Partial<
  Record<
    "cards" | "people" | "load" | "cost" | "ageing" | "age" | "appearance" | "sizes" | "surround" | "row",
    unknown
  >
>;

const STATISTICS = object<Statistics>("By area, on the verification grid.", {
  average: number("Average.", "lx"),
  minimum: number("Minimum.", "lx"),
  maximum: number("Maximum.", "lx"),
  uniformity: number("Minimum over average, U₀."),
  diversity: number("Minimum over maximum."),
  variation: number("Standard deviation over average."),
  points: count("How many points."),
});

const LAYER_LIGHT = object<LayerAnswer>("Light of one layer, after dim and maintenance.", {
  role: text("Its role."),
  dim: number("Its dim, 0 to 1."),
  maintenance: number("Maintenance factor."),
  watts: orNull(number("Power at full output.", "W")),
  direct: numbers("Direct light at each point.", "lx"),
  interreflected: numbers("Interreflected light at each point.", "lx"),
  "nearFieldBand?": numbers("Band where it is not known from where on a luminaire the light leaves.", "lx"),
});

const FINE = object<FineAnswer>("Figures of the fine grid; its values with --fine.", {
  cell: numbers("Size of a cell.", "m", 2),
  columns: count("Cells along."),
  rows: count("Cells across."),
  average: number("Average.", "lx"),
  minimum: number("Minimum.", "lx"),
  maximum: number("Maximum.", "lx"),
  uniformity: number("Minimum over average."),
  "points?": list("x, y, z of each point.", numbers("x, y, z.", "m", 3)),
  "layers?": named("By layer.", LAYER_LIGHT),
  "illuminance?": numbers("Total at each point.", "lx"),
});

const PLANE = object<PlaneAnswer>("A plane of points.", {
  name: text("Its name."),
  "zone?": text("Name of the zone that it belongs to."),
  quantity: oneOf("Which illuminance.", "planar", "cylindrical", "semi-cylindrical"),
  points: list("x, y, z of each point in the room.", numbers("x, y, z.", "m", 3)),
  normal: numbers("Direction that it faces.", "", 3),
  layers: named("Light by layer; all layers sum to `illuminance`.", LAYER_LIGHT),
  illuminance: numbers("Total at each point, maintained and dimmed.", "lx"),
  statistics: STATISTICS,
  percentiles: object<PlaneAnswer["percentiles"]>("By area.", {
    p5: orNull(number("5 %.", "lx")),
    p50: orNull(number("Median.", "lx")),
    p95: orNull(number("95 %.", "lx")),
  }),
  "steepest?": object<NonNullable<PlaneAnswer["steepest"]>>("Where the light changes fastest.", {
    luxPer100mm: number("Change in 100 mm.", "lx"),
    at: numbers("Where, in the room.", "m"),
  }),
  "profile?": object<NonNullable<PlaneAnswer["profile"]>>("Along the centre line of the grid.", {
    distance: numbers("From its first point.", "m"),
    illuminance: numbers("Light there.", "lx"),
    ends: orNull(numbers("First and last value over the mean of the middle third.")),
  }),
  "fine?": FINE,
});

const ZONE = object<ZoneAnswer>("One zone.", {
  name: text("Its name."),
  plane: text("Name of the plane that judges it."),
  "target?": text("Name of its target."),
  statistics: STATISTICS,
  familiarPlace: text("A place of about that much light."),
  verdict: VERDICT,
  checks: list("Its requirements.", CHECK),
});

const ENERGY = object<Energy>("Power as dimmed.", {
  watts: number("Of all layers whose power is known.", "W"),
  wattsPerSquareMetre: number("Of floor.", "W/m²"),
  unknownWatts: count("How many luminaires have no known power."),
});

const ARRANGEMENT = object<CheckAnswer & FindingKeys>("One arrangement.", {
  name: text("Its name."),
  letter: text("Its letter on screen and paper."),
  luminaires: list(
    "Every luminaire, as it hangs.",
    object<CheckAnswer["luminaires"][number]>("One luminaire.", {
      layer: text("Name of its layer."),
      luminaire: text("Its name in the study."),
      position: numbers("Photometric centre in the room: x, y, z.", "m", 3),
      clearance: orNull(number("From the top to its lowest point.", "m")),
      turn: number("Swing about the room's vertical, counter-clockwise from above.", "°"),
      tilt: number("Lift of its downward axis.", "°"),
      spin: number("Turn about its own axis.", "°"),
      "aim?": numbers("The point that it was aimed at: x, y, z.", "m", 3),
    }),
  ),
  clashes: CLASHES,
  "shifted?": {
    ...STATISTICS,
    description:
      "The whole top once boxes are shifted as the remedies of clashes say; absent where none are.",
  },
  "overHob?": list("Pendants over the hob, by their names on paper: a caution about heat and grease.", {
    type: "string",
  }),
  planes: list("Where light was calculated.", PLANE),
  top: orNull(text("Name of the plane of the whole top.")),
  zones: list("Zones with their verdicts.", ZONE),
  verdict: VERDICT,
  energy: ENERGY,
  "balance?": object("Balance of the interreflected light: what is emitted and what surfaces absorb.", {
    imbalance: number("Relative."),
  }),
  method: object("How it was calculated, and its own error bounds.", {
    quality: text("Quality of the calculation."),
    people: { type: "boolean", description: "Whether people stand in the light." },
    description: text("The same in words."),
  }),
  maintenance: number("Maintenance factor."),
  "settings?": list(
    "The settings of the dimmers, where the study has any.",
    object<SettingAnswer>("One setting.", {
      name: text("Its name."),
      dim: named("Dim of each layer, 0 to 1.", number("Dim.")),
      "control?": named(
        "What each dimmer is set to, of full control, where it states that.",
        orNull(number("0 to 1.")),
      ),
      "find?": text("What the levels were found by, where they were not given."),
      zones: list("Zones with their verdicts then.", ZONE),
      verdict: VERDICT,
      energy: ENERGY,
    }),
  ),
  "layersOff?": list(
    "What is left with each layer off in turn, the others as dimmed; where several give light.",
    object<LayerOffAnswer>("One layer off.", {
      layer: text("Name of the layer that is off."),
      left: list("Those that still give light.", text("Name of a layer.")),
      zones: list("Zones with their verdicts then.", ZONE),
      verdict: VERDICT,
    }),
  ),
  "workingEdge?": object<WorkingEdge>(
    "Light along a line inside the edge that is worked at, where hands are.",
    {
      side: oneOf("Side of the island, in its own frame.", "x-", "x+", "y-", "y+"),
      "person?": text("Who stands there; without it the side is a default."),
      from: number("Where the edge begins along the island's x (of y- and y+) or y.", "m"),
      inside: number("From the edge to the line.", "m"),
      distance: numbers("From the line's first end.", "m"),
      points: list("x, y, z of each point in the room.", numbers("x, y, z.", "m", 3)),
      illuminance: numbers("Light there, maintained and dimmed.", "lx"),
      average: number("Average along the line.", "lx"),
      minimum: number("Least along the line.", "lx"),
      uniformity: number("Minimum over average."),
      darkest: number("Where the least is, from the line's first end.", "m"),
    },
  ),
  "bodyShadows?": anything("What people's bodies take from the light of their hands, where asked."),
  "cards?": anything("Published rules of thumb held against the arrangement, each with its source."),
  "people?": anything("Each person's light on the face, head room, sight lines, glare."),
  "load?": anything("Power by layer and circuit, dimmers, energy a year, weights."),
  "cost?": anything("Price, lamps and energy over ten years, and what is not stated of them."),
  "ageing?": anything("Light over the years."),
  "age?": anything("What the age of the people who stand there asks."),
  "appearance?": anything("Share of the view that pendants take, likeness of finishes."),
  "sizes?": anything("Other counts and widths in the same place."),
  "surround?": object("Light around the task.", {
    "walls?": number("Mean on the walls.", "lx"),
    "ceiling?": number("Mean on the ceiling.", "lx"),
    dim: list("Zones beside a task that have less than its surround asks.", anything("One zone.")),
    "readings?": list(
      "On the front of each wall unit, and on the floor of each aisle along the island.",
      object("One of them.", {
        kind: oneOf("What is lit.", "front", "aisle"),
        of: text("Name of the wall unit, or side of the island that the aisle runs along."),
        average: number("Average.", "lx"),
        minimum: number("Minimum.", "lx"),
        maximum: number("Maximum.", "lx"),
        points: count("How many points."),
      }),
    ),
  }),
  "row?": anything("The row as measured."),
});

export const CHECK_ANSWER = object("What `check --json` prints.", {
  ...HEAD,
  warnings: list(
    "What is odd about the study.",
    object("A warning.", {
      code: text("Its kind, which stays the same."),
      message: text("In words."),
      where: text("Place in the document."),
    }),
  ),
  defaults: list(
    "What stood in for what the study does not say.",
    object("A default.", {
      path: text("Place in the document."),
      value: anything("The value."),
      why: text("Why it."),
    }),
  ),
  arrangements: list("In the study's order.", ARRANGEMENT),
});
