/** Two kitchens as designers write them: small cones in millimetres, one long bar in feet and inches. */
import type { Json } from "./studies.ts";

const downlight = { beam: { flux: 610, angle: 70 }, opening: { diameter: 0.076 }, watts: 6.9 };

export const cones = (more: Json = {}): Json => ({
  format: "candlespan-study",
  version: 1,
  room: {
    length: 5.2,
    width: 4,
    ceilingHeight: 2.55,
    doors: [{ name: "hall door", wall: 3, from: 0.3, width: 0.9, swing: "in-right" }],
    joists: { along: "y", spacing: 0.6, first: 0.3, width: 0.06 },
    keepOuts: [{ name: "extract duct", from: [4.2, 1.6], size: [1, 0.3] }],
  },
  island: {
    length: 2.2,
    width: 0.95,
    height: 0.92,
    overhang: { side: "y+", depth: "300 mm" },
    seats: { count: 3 },
  },
  bodies: [
    {
      name: "tall units",
      box: [
        [0, 3.4, 0],
        [5.2, 4, 2.2],
      ],
    },
  ],
  luminaires: {
    "small cone": {
      beam: { flux: 450, angle: 100 },
      opening: { diameter: 0.18 },
      body: { profile: "cone", diameter: 0.18, height: 0.16 },
      watts: 7,
      markedWatts: 40,
      weight: 0.7,
      canopy: { diameter: 0.1 },
      suspension: "cord",
      dimming: "trailing edge",
    },
    downlight,
  },
  arrangements: [
    {
      name: "four small cones",
      layers: [
        {
          name: "pendants",
          luminaire: "small cone",
          row: { count: 4, spacing: 0.52, clearance: 0.78, offset: [0, -0.05] },
          circuit: "K1",
          dimmer: { name: "rotary", minimumWatts: 5, maximumWatts: 150 },
          switches: [{ at: [0.1, 1.35] }],
        },
        {
          name: "ambient",
          luminaire: "downlight",
          grid: { columns: 4, rows: 2, margin: 0.62, offset: [-0.12, -0.03] },
          circuit: "K2",
        },
      ],
    },
  ],
  ...more,
});

export const bar = (more: Json = {}): Json => ({
  format: "candlespan-study",
  version: 1,
  display: { length: "ft-in", illuminance: "fc" },
  room: {
    length: "17'-4\"",
    width: "13'-0\"",
    ceilingHeight: "9'-0\"",
    joists: { along: "y", spacing: "16 in", first: "8 in", width: "1 1/2 in" },
  },
  island: {
    length: "8'-0\"",
    width: "3'-6\"",
    height: "36 in",
    overhang: { side: "y-", depth: "12 in" },
    seats: { count: 3 },
  },
  luminaires: {
    bar: {
      beam: { flux: 2085, angle: 84 },
      opening: { length: "2 3/4 in", width: "3'-10 1/2\"" },
      body: { profile: "box", length: "2 3/4 in", width: "3'-11\"", height: "2 1/2 in", offset: "1 1/4 in" },
      suspensions: [
        [0, "-20 in"],
        [0, "20 in"],
      ],
      feed: [0, "20 in"],
      suspension: "cable",
      canopy: { diameter: "5 in", height: "1 in" },
      weight: 4.2,
      watts: 29.4,
    },
    downlight,
  },
  arrangements: [
    {
      name: "one bar",
      layers: [
        { name: "bar", luminaire: "bar", row: { count: 1, clearance: "32 in" }, circuit: "7" },
        { name: "ambient", luminaire: "downlight", grid: { columns: 4, rows: 3 }, circuit: "8" },
      ],
    },
  ],
  ...more,
});
