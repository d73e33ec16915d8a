/** What each key of a study means; `study-json-schema.ts` and the guide's table are made from it. */

import type { StudyDocument } from "../study-schema.ts";
import { ARRANGEMENT_KEYS } from "./arrangement-keys.ts";
import { ISLAND_KEYS } from "./island-keys.ts";
import type { Keys } from "./key.ts";
import { LUMINAIRE_KEYS } from "./luminaire-keys.ts";
import { BODY_KEYS, PERSON_KEYS, ROOM_KEYS } from "./room-keys.ts";

const PART = { default: 1, example: 0.9 } as const;

export const STUDY_KEYS: Keys<StudyDocument> = {
  $schema: {
    meaning: "For editors: where the JSON Schema lies.",
    without: "none",
    example: "./study.schema.json",
  },
  format: { meaning: "What the document is.", example: "candlespan-study" },
  version: { meaning: "Version of the format.", example: 1 },
  title: { meaning: "Title on papers.", default: "Untitled study", example: "Boathouse kitchen" },
  note: { meaning: "A remark; read by people only.", without: "none", example: "first sketch" },
  project: {
    meaning: "Who the papers are for and from.",
    without: "papers leave it out",
    example: { client: "the client", number: "24-017" },
    keys: {
      client: { meaning: "Whom they are for.", without: "left out", example: "the client" },
      address: { meaning: "Where it is built.", without: "left out", example: "1 Harbour Lane" },
      author: { meaning: "Who answers for them.", without: "left out", example: "the designer" },
      logo: {
        meaning: "Path of an own logo, PNG or JPEG, from the study's folder and inside it.",
        without: "none",
        example: "logo.png",
      },
      number: { meaning: "Number of the project.", without: "left out", example: "24-017" },
    },
  },
  display: {
    meaning: "Units of texts and drawings; JSON is always metres and lux.",
    without: "millimetres and lux",
    example: { length: "mm", illuminance: "lx" },
    keys: {
      length: { meaning: "Unit of lengths.", default: "mm", example: "ft-in" },
      illuminance: { meaning: "Unit of illuminance.", default: "lx", example: "fc" },
    },
  },
  room: {
    meaning: "The room, a box in which everything stands.",
    frame: "room",
    example: { length: 5.4, width: 4.2, ceilingHeight: 2.7 },
    keys: ROOM_KEYS,
  },
  island: {
    meaning: "The kitchen island; needed by rows and by planes on it.",
    frame: "room",
    without: "none",
    example: { length: 2.4, width: 1.1 },
    keys: ISLAND_KEYS,
  },
  bodies: {
    meaning: "Cabinets, hoods: boxes that stand in the light.",
    frame: "room",
    without: "none",
    example: [
      {
        name: "tall pantry",
        box: [
          [4.9, 0, 0],
          [5.4, 1.2, 2.2],
        ],
      },
    ],
    keys: BODY_KEYS,
  },
  people: {
    meaning: "People whose eyes, heads and hands are asked about.",
    frame: "room",
    without: "none",
    example: [{ name: "cook", at: [2.3, 1.35], facing: 90 }],
    keys: PERSON_KEYS,
  },
  luminaires: {
    meaning: "Luminaires by a name of one's own, which layers refer to.",
    without: "none",
    example: { spot: { beam: { flux: 650, angle: 36 } } },
    keys: LUMINAIRE_KEYS,
  },
  maintenance: {
    meaning:
      "Maintenance factor: light at the end of a cleaning round over light when new; a number, or its parts.",
    default: 0.8,
    example: 0.8,
    keys: {
      lampFlux: { meaning: "What is left of the lamps' flux.", ...PART },
      survival: { meaning: "What is left of the lamps.", ...PART },
      luminaire: { meaning: "What dirt on the luminaires leaves.", ...PART },
      surfaces: { meaning: "What dirt on the room's surfaces leaves.", ...PART },
    },
  },
  arrangements: {
    meaning: "The options to compare.",
    example: [{ name: "three spots", layers: [{ name: "pendants", luminaire: "spot", row: { count: 3 } }] }],
    keys: ARRANGEMENT_KEYS,
  },
  planes: {
    meaning: "Where light is calculated.",
    without: "the island's top and each zone",
    example: [{ name: "island top", on: "island", spacing: "50 mm" }],
    keys: {
      name: { meaning: "Name in messages and JSON.", example: "floor" },
      on: {
        meaning: "`island`, or the name of a zone: over its whole outline, at its surface.",
        without: "`rectangle` or `points` gives the place",
        example: "island",
      },
      rectangle: {
        meaning: "A rectangle in the room.",
        frame: "room",
        without: "`on` or `points` gives the place",
        example: { corner: [0, 0, 0], u: [5.4, 0, 0], v: [0, 4.2, 0] },
        keys: {
          corner: { meaning: "One corner.", frame: "room", example: [0, 0, 0] },
          u: { meaning: "One side, from the corner.", frame: "room", example: [5.4, 0, 0] },
          v: { meaning: "The other side, from the corner.", frame: "room", example: [0, 4.2, 0] },
        },
      },
      points: {
        meaning: "Single points.",
        frame: "room",
        without: "`on` or `rectangle` gives the place",
        example: [[1, 1, 0.92]],
      },
      normal: {
        meaning: "Direction that the plane faces; of a semi-cylinder its level axis.",
        frame: "room",
        without: "upward, or u × v of a rectangle",
        example: [0, 0, 1],
      },
      spacing: {
        meaning: "Largest distance between points; rounded to a whole number of cells.",
        without: "the verification grid of the plane's size",
        example: "50 mm",
      },
      margin: { meaning: "Left out along the outline.", default: 0, example: "50 mm" },
      target: {
        meaning:
          "What is asked of the plane, as of a zone: a counter under wall units is judged by it like the island. A setting names the plane among its `zones`.",
        without: "nothing is asked of it",
        example: "preparation",
      },
      quantity: { meaning: "Which illuminance.", default: "planar", example: "cylindrical" },
    },
  },
  targets: {
    meaning: "Targets by a name of one's own, which zones refer to; published ones need no entry.",
    without: "published ones only",
    example: { mine: { illuminance: "50 fc", uniformity: 0.6, source: "the designer's own" } },
    keys: {
      name: { meaning: "What it is for, in words.", without: "its key", example: "bread and pastry" },
      illuminance: { meaning: "Least average illuminance.", without: "not asked", example: "50 fc" },
      minimum: { meaning: "Least illuminance at any point.", without: "not asked", example: 300 },
      uniformity: { meaning: "Least minimum over average.", without: "not asked", example: 0.6 },
      nature: {
        meaning: "Whether it holds at the end of a cleaning round or when new.",
        default: "maintained",
        example: "maintained",
      },
      source: { meaning: "Where it comes from.", without: "not stated", example: "the designer's own" },
    },
  },
  tariff: {
    meaning: "Price of electricity, and the currency of all prices.",
    without: "no costs are stated",
    example: { perKilowattHour: 0.3, currency: "EUR" },
    keys: {
      perKilowattHour: { meaning: "Price of a kilowatt-hour.", example: 0.3 },
      currency: {
        meaning: "Currency of this and of luminaires' prices.",
        without: "not named",
        example: "EUR",
      },
    },
  },
  underlay: {
    meaning: "A drawing of the house to lie beneath the plan.",
    frame: "room",
    without: "none",
    example: { image: "plan.png", scale: 0.01, origin: [0, 0] },
    keys: {
      image: {
        meaning:
          "Name of the image, PNG, JPEG or SVG: carried under `embedded`, or kept in the browser beside the study.",
        example: "plan.png",
      },
      scale: { meaning: "Metres that one pixel of the image stands for.", default: 0.01, example: 0.01 },
      turn: {
        meaning: "Turn of the image about `origin`, counter-clockwise from above.",
        frame: "room",
        default: 0,
        example: 90,
      },
      origin: {
        meaning: "Where the image's lower left corner lies.",
        frame: "room",
        default: [0, 0],
        example: [-1.2, 0],
      },
      opacity: { meaning: "How strongly it is drawn, 0 to 1.", default: 0.5, example: 0.5 },
    },
  },
  embedded: {
    meaning: "Files carried inside the study, by the path that names them.",
    without: "files are read from the folder",
    example: { "made-up.ies": { text: "IESNA:LM-63-2002 …" } },
    keys: {
      text: { meaning: "The file's text.", without: "`base64` holds it", example: "IESNA:LM-63-2002 …" },
      base64: { meaning: "The file's bytes in base 64.", without: "`text` holds it", example: "SUVTTkE6" },
    },
  },
  calculation: {
    meaning: "What is calculated.",
    without: "everything",
    example: { interreflection: true },
    keys: {
      interreflection: { meaning: "Light by way of the room's surfaces.", default: true, example: true },
      occlusion: { meaning: "Solids stand in the light.", default: true, example: true },
      nearFieldError: {
        meaning: "Error bound of the direct light at each point, as a share, near large openings.",
        default: 0.0025,
        example: 0.0025,
      },
    },
  },
};
