/** Islands, zones, rooms, people, planes and targets: eleven studies. */
import { arrangement, DOME, kitchen, layer, SPOT, withIsland, withRoom } from "./kitchen.mjs";

const L_OUTLINE = [
  [0, 0],
  [1.5, 0],
  [1.5, "0.6 m"],
  [0.7, 0.6],
  [0.7, 1.2],
  [0, 1.2],
];
const row = (place, more) => arrangement("row", layer("pendants", "dome", { row: place }, more));

function islandShapes() {
  return {
    "island-L": withIsland(201, "An island in the form of an L", {
      outline: L_OUTLINE,
      zones: [
        { name: "long arm", from: [0, 0], size: [1.5, 0.6], target: "preparation" },
        {
          name: "short arm",
          polygon: [
            [0, 0.6],
            [0.7, 0.6],
            [0.7, 1.2],
            ["0 m", 1.2],
          ],
          target: "eating",
        },
      ],
      overhang: { side: "y-", depth: 0.1 },
      seats: { side: "y-", count: 1 },
      finish: "matt",
    }),
    "island-levels": withIsland(202, "A bar above the top", {
      length: 1.4,
      width: 0.8,
      levels: [
        { name: "bar", from: [0, 0], size: [1.4, 0.25], height: 1.07 },
        {
          name: "corner",
          polygon: [
            [1.2, 0.6],
            [1.4, 0.6],
            [1.4, 0.8],
          ],
          height: "1 m",
        },
      ],
      reflectance: { top: 0.6, sides: 0.4 },
      finish: "polished",
      colour: "white",
      zones: [
        { name: "bar", from: [0, 0], size: [1.4, 0.25], height: 1.07, target: "eating" },
        { name: "rest", from: [0, 0.25], size: [1.4, 0.55] },
      ],
    }),
    "island-turned": withIsland(203, "A turned island with seats", {
      turn: 35,
      overhang: { side: "x+", depth: "10 in" },
      seats: { side: "x+", count: 1, width: 0.6 },
      finish: "satin",
    }),
    "island-default-zones": withIsland(
      204,
      "Hob, sink and seats make zones",
      {
        length: 1.5,
        width: 0.9,
        overhang: { side: "x-", depth: 0.2 },
        hob: { from: [0.9, 0.3], size: [0.5, 0.5] },
        sink: { from: [0.3, 0.3], size: [0.4, 0.4], basin: true },
        seats: { side: "x-", count: 1 },
      },
      { people: [{ name: "cook", at: [1.7, 0.6], facing: 90, age: 70 }] },
    ),
    "island-basin": withIsland(205, "A sink with a basin of its own depth", {
      length: 1.4,
      overhang: { side: "y+", depth: 0.15 },
      sink: { from: [0.4, 0.2], size: ["0.4 m", 0.4], basin: "180 mm" },
      seats: { side: "y+", count: 2 },
    }),
  };
}

const SEATED = {
  name: "guest",
  at: [1.5, 2.1],
  facing: 270,
  posture: "seated",
  seat: 0.65,
  stature: 1.65,
  age: 68,
  hand: "left",
};
const COOK = { name: "cook", at: [1.5, 0.65], facing: 90, posture: "leaning", stature: 1.8, hand: "right" };

function rooms() {
  return {
    "room-openings": withRoom(206, "Walls of four reflectances with window and door", {
      reflectance: { ceiling: 0.85, walls: [0.6, 0.3, 0.5, 0.4], floor: 0.15 },
      openings: [
        { name: "window", wall: 0, from: 0.5, length: 1.2, sill: 0.9, height: 1.1, reflectance: 0.1 },
        { wall: 1, from: "0.4 m", length: 0.8, sill: 0, height: 2 },
        { name: "hatch", wall: 2, from: 0.3, length: 0.6, sill: "1 m", height: 0.6 },
        { name: "glass", wall: 3, from: 0.3, length: 0.6, sill: 1, height: 0.6 },
      ],
    }),
    "room-joists": withRoom(
      207,
      "Joists and places to keep out of",
      {
        reflectance: { walls: 0.6 },
        joists: { along: "x", spacing: 0.4, first: 0.2, width: 0.05 },
        keepOuts: [
          { name: "duct", from: [0.2, 0.2], size: [0.5, 0.4] },
          {
            name: "beam",
            polygon: [
              [2.2, 0.4],
              [2.5, 0.4],
              [2.5, 2],
            ],
          },
        ],
      },
      {
        arrangements: [
          arrangement(
            "grid",
            layer("ambient", "spot", { grid: { columns: 3, rows: 2, margin: 0.45 } }, { role: "recessed" }),
          ),
        ],
      },
    ),
    "room-people": withRoom(
      208,
      "People and bodies that shade",
      { joists: { along: "y", spacing: "16 in", first: "6 in" } },
      {
        people: [COOK, SEATED, { name: "child", at: [0.5, 1.2], posture: "standing", stature: 1.1 }],
        bodies: [
          {
            name: "hood",
            box: [
              [1.2, 1, 1.75],
              [1.6, 1.4, 2.0],
            ],
            turn: 20,
            reflectance: 0.5,
            finish: "brushed",
            colour: "grey",
          },
          {
            name: "screen",
            box: [
              [0.2, 0.2, 0],
              [0.25, "1 m", 1.8],
            ],
            transmittance: 0.4,
          },
        ],
        calculation: { interreflection: false, occlusion: true, nearFieldError: 0.005 },
      },
    ),
  };
}

function planesAndTargets() {
  return {
    planes: withIsland(
      209,
      "Planes of every kind",
      {
        length: 1.2,
        width: 0.8,
        zones: [
          { name: "prep", from: [0, 0], size: [0.7, 0.8], target: "mine" },
          { name: "rest", from: [0.7, 0], size: [0.5, 0.8], target: "mine, new" },
        ],
      },
      {
        planes: [
          { name: "top", on: "island", spacing: 0.2, margin: 0.1 },
          { name: "prep", on: "prep", quantity: "planar" },
          {
            name: "floor",
            rectangle: { corner: [0.1, 0.1, 0], u: [2.4, 0, 0], v: [0, 2, 0] },
            spacing: "0.6 m",
          },
          {
            name: "wall",
            rectangle: { corner: [0.4, 0.01, 0.8], u: [1.5, 0, 0], v: [0, 0, 1] },
            spacing: 0.5,
            margin: 0.1,
          },
          {
            name: "heads",
            points: [
              [0.6, 0.5, 1.5],
              [1.4, 0.4, "1.5 m"],
            ],
            quantity: "cylindrical",
          },
          { name: "faces", points: [[0.6, 0.5, 1.5]], normal: [0, 1, 0], quantity: "semi-cylindrical" },
        ],
        targets: {
          mine: {
            name: "bread",
            illuminance: "40 fc",
            minimum: 200,
            uniformity: 0.6,
            nature: "maintained",
            source: "the designer's own",
          },
          "mine, new": { illuminance: 300, minimum: "15 fc", nature: "initial" },
        },
        maintenance: { lampFlux: 0.9, survival: 1, luminaire: 0.95, surfaces: 0.95 },
      },
    ),
    "no-island": {
      $schema: "https://example.org/study.schema.json",
      ...kitchen(210, "A room without an island"),
      note: "only a grid and a plane",
      island: undefined,
      arrangements: [arrangement("grid", layer("ambient", "spot", { grid: { columns: 2, rows: 2 } }))],
      planes: [
        { name: "table", rectangle: { corner: [1, 1, 0.75], u: [1, 0, 0], v: [0, 0.7, 0] }, spacing: 0.2 },
      ],
    },
    circuits: kitchen(212, "Circuits, dimmers, hours and all that is bought", {
      luminaires: {
        dome: {
          ...DOME,
          markedWatts: 60,
          cct: 2700,
          cri: 92,
          weight: 1.8,
          canopy: { diameter: 0.12, height: 0.03 },
          suspension: "cord",
          finish: "brass",
          colour: "brass",
          note: "made up",
        },
        spot: { ...SPOT, suspension: "rod", cct: 4000 },
        chain: { ...DOME, suspension: "chain", weight: 4 },
        cable: { ...DOME, suspension: "cable", canopy: { diameter: "5 in" } },
      },
      maintenance: 0.85,
      arrangements: [
        {
          ...row(
            { count: 2, gap: 0.2, clearance: 0.75 },
            {
              role: "pendant",
              dim: 0.8,
              circuit: "2",
              hours: 3,
              dimmer: {
                name: "wall dimmer",
                minimumWatts: 5,
                maximumWatts: 150,
                curve: [
                  [0, 0.05],
                  [0.5, 0.3],
                  [1, 1],
                ],
              },
            },
          ),
          note: "the one asked for",
        },
        arrangement(
          "two kinds",
          layer("ends", "chain", { row: { count: 2, end: 0.1 } }, { circuit: "3" }),
          layer("middle", "cable", { row: { count: 1 } }, { dimmer: { minimumWatts: 20 } }),
        ),
        arrangement("nothing"),
      ],
    }),
  };
}

export const islandStudies = () => ({ ...islandShapes(), ...rooms(), ...planesAndTargets() });
