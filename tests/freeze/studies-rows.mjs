/** Rows over every body profile, grids, luminaires set by hand: eighteen studies. */
import { arrangement, DOME, kitchen, layer, SPOT, withIsland, withRoom } from "./kitchen.mjs";

const OUTLINE = [
  [0, -0.1],
  [0.1, -0.06],
  [0.12, 0],
  [0.08, 0.08],
  [0.02, 0.1],
];

/** Body of every profile with an opening that suits it. */
const BODIES = {
  dome: {
    opening: { shape: "disc", diameter: 0.22 },
    body: { diameter: 0.26, height: 0.2, reflectance: 0.3 },
  },
  cone: { opening: { diameter: "0.2 m" }, body: { diameter: "240 mm", height: "8 in", transmittance: 0 } },
  bell: { opening: { shape: "point" }, body: { diameter: 0.2, height: 0.25 } },
  drum: {
    opening: { shape: "disc", diameter: 0.28 },
    body: { diameter: 0.3, height: 0.18, transmittance: 0.2 },
  },
  cylinder: {
    opening: { shape: "cylinder", diameter: 0.08, height: 0.2 },
    body: { diameter: 0.09, height: 0.3 },
  },
  globe: { opening: { shape: "ellipsoid", diameter: 0.2, height: 0.2 }, body: { diameter: 0.2 } },
  bowl: { opening: { diameter: 0.28 }, body: { diameter: 0.3, height: 0.12, offset: 0.02 } },
  disc: { opening: { diameter: 0.26 }, body: { diameter: 0.3, height: 0.04, offset: 0.02 } },
  box: {
    opening: { shape: "rectangle", length: 0.6, width: 0.05 },
    body: { length: 0.62, width: 0.06, height: 0.05, offset: 0.025 },
  },
  profile: { opening: { shape: "box", length: 0.1, width: 0.1, height: 0.1 }, body: { outline: OUTLINE } },
};

const ROWS = [
  { count: 2, gap: 0.3, clearance: 0.75 },
  { count: 2, spacing: "500 mm", clearance: "28 in" },
  { count: 2, end: 0.15, clearance: 0.7, offset: [0.05, 0.03] },
  { count: 3, clearance: 0.65, offset: [0, "20 mm"] },
  { count: 1, clearance: 0.8, turn: 30 },
];
const DISPLAYS = [
  { length: "mm", illuminance: "lx" },
  { length: "m", illuminance: "fc" },
  { length: "ft-in", illuminance: "fc" },
];
const PEOPLE = [
  { name: "cook", stature: 1.72, at: [1.5, 0.7], facing: 90, posture: "standing", age: 35, hand: "right" },
  {
    name: "second cook",
    stature: "5'-6\"",
    at: [1.4, 0.75],
    facing: 90,
    posture: "leaning",
    age: 62,
    hand: "left",
  },
  { name: "guest", at: [1.6, 2], facing: 270, posture: "seated", seat: 0.65 },
];

/** One study a body profile; row, display and posture go round. */
function profileStudies() {
  return Object.entries(BODIES).map(([profile, { opening, body }], i) => {
    const pendant = {
      beam: { flux: 600 + 40 * i, angle: 70 + 8 * i },
      opening,
      body: { profile, ...body },
      watts: 8,
    };
    const study = kitchen(101 + i, `A row of the profile ${profile}`, {
      display: DISPLAYS[i % 3],
      luminaires: { pendant, spot: SPOT },
      arrangements: [
        arrangement("row", layer("pendants", "pendant", { row: ROWS[i % 5] })),
        ...(i % 3 === 1
          ? [
              arrangement(
                "other",
                layer("one", "pendant", { row: { count: 1, clearance: 0.7 } }, { dim: 0.6 }),
              ),
            ]
          : []),
      ],
      ...(i % 2 === 0 ? { people: [PEOPLE[(i / 2) % 3]] } : {}),
    });
    return [`row-${profile}`, study];
  });
}

const grid = (place, more = {}) => layer("ambient", "spot", { grid: place }, { role: "recessed", ...more });

function gridStudies() {
  const slope = { ceilingHeight: 2.4, ceiling: { slope: 12, towards: 90 } };
  return {
    "grid-margin": kitchen(111, "A grid by margin", {
      arrangements: [
        arrangement("grid", grid({ columns: 3, rows: 2, margin: 0.5 })),
        arrangement("half", grid({ columns: 2, rows: 2 })),
      ],
    }),
    "grid-over": kitchen(112, "A grid over a part, lower than the ceiling", {
      arrangements: [
        arrangement(
          "grid",
          grid(
            {
              columns: 2,
              rows: 2,
              over: [
                [0.4, 0.4],
                [2.4, "2 m"],
              ],
              height: 2.2,
              turn: 45,
            },
            { role: "other", dim: 0.7 },
          ),
        ),
      ],
    }),
    "grid-aim": kitchen(113, "A grid aimed at the island", {
      arrangements: [
        arrangement("aimed", grid({ columns: 2, rows: 1, aim: [1.5, 1.3, 0.9] }, { role: "accent" })),
        arrangement(
          "row aimed",
          layer("pendants", "dome", { row: { count: 2, spacing: 0.5, aim: [1.5, 1.2, 0.9] } }),
        ),
      ],
    }),
    "slope-follow": withRoom(114, "Recessed lights that follow the slope", slope, {
      arrangements: [
        arrangement("follow", grid({ columns: 2, rows: 2, margin: 0.6 })),
        arrangement("plumb", grid({ columns: 2, rows: 2, margin: 0.6, followSlope: false })),
        arrangement(
          "pendants",
          layer(
            "pendants",
            "dome",
            { row: { count: 2, clearance: 0.7, followSlope: true } },
            { role: "pendant" },
          ),
        ),
      ],
    }),
    "slope-steep": withRoom(115, "Pendants under a steep ceiling", {
      ceilingHeight: "7'-6\"",
      ceiling: { slope: 30, towards: 200 },
    }),
  };
}

function handStudies() {
  const at = (...places) => layer("by hand", "spot", { at: places });
  return {
    "at-turned": kitchen(116, "Set by hand: turn, tilt, spin", {
      arrangements: [
        arrangement(
          "hand",
          at(
            { position: [0.8, 0.8, 2.3], turn: 40, tilt: 30, spin: 15 },
            { position: ["2.2 m", "5'-0\"", 2.3], tilt: -20 },
          ),
        ),
      ],
    }),
    "at-aimed": withIsland(
      117,
      "Set by hand: aimed, over a turned island",
      { turn: 25 },
      {
        luminaires: {
          dome: DOME,
          spot: { beam: { flux: 480, angle: 36, peak: 1100, fieldAngle: 62 }, watts: 6 },
        },
        arrangements: [
          arrangement(
            "hand",
            at({ position: [0.8, 0.8, 2.3], aim: [1.5, 1.3, 0.9], spin: 10 }),
            layer("pendants", "dome", { row: { count: 2, gap: 0.2 } }),
          ),
        ],
      },
    ),
    clash: kitchen(118, "Pendants that meet one another, a cabinet and a head", {
      bodies: [
        {
          name: "tall cabinet",
          box: [
            [2.3, 1, 0],
            [2.7, 1.6, 2.1],
          ],
        },
        {
          name: "beam",
          box: [
            [1.3, 1.2, 1.6],
            [1.6, 1.5, 1.9],
          ],
        },
      ],
      people: [PEOPLE[0]],
      arrangements: [
        arrangement(
          "tight",
          layer("pendants", "dome", { row: { count: 3, spacing: 0.2, clearance: 0.55 } }),
          grid({ columns: 2, rows: 2 }),
        ),
      ],
    }),
  };
}

export const rowStudies = () => ({
  ...Object.fromEntries(profileStudies()),
  ...gridStudies(),
  ...handStudies(),
});
