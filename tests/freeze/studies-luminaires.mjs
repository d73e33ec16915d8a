/** Photometric files and luminaires of lamp and shade: eleven studies. */
import { arrangement, kitchen, layer } from "./kitchen.mjs";
import { EMBEDDED_TEXT } from "./photometry.mjs";

/** One row of the first luminaire, a single one of each other. */
function hung(seed, title, luminaires, more = {}) {
  const [first, ...others] = Object.keys(luminaires);
  const layers = [
    layer("pendants", first, { row: { count: 2, spacing: 0.6, clearance: 0.7 } }),
    ...others.map((name, i) =>
      layer(`with ${name}`, name, { at: [{ position: [0.5 + 0.5 * i, 0.5, 2], turn: 30 * i }] }),
    ),
  ];
  return kitchen(seed, title, { luminaires, arrangements: [arrangement("hung", ...layers)], ...more });
}

const file = (name, more = {}) => ({ photometry: `photometry/${name}`, ...more });

function measured() {
  return {
    "file-type-c": hung(301, "Files of type C", {
      round: file("c-round.ies"),
      quarter: file("c-quarter.ies"),
      half: file("c-half.ies"),
      full: file("c-full.ies"),
    }),
    "file-type-ab": hung(302, "Files of types A and B, one relative with its flux", {
      relative: file("c-relative.ies", { flux: 1000, lampSet: 0 }),
      bHalf: file("b-half.ies"),
      bFull: file("b-full.ies"),
      aFull: file("a-full.ies"),
    }),
    "file-eulumdat": hung(303, "EULUMDAT of every symmetry", {
      sym1: file("sym1.ldt"),
      sym0: file("sym0.ldt"),
      sym2: file("sym2.ldt"),
      sym3: file("sym3.ldt"),
      sym4: file("sym4.ldt", { lampSet: 1, watts: 18 }),
    }),
    "file-boathouse": hung(304, "Files of the worked example", {
      dome: file("dome-wide.ies", { body: { profile: "dome", diameter: "12 in", height: 0.22 } }),
      cone: file("cone-narrow.ies"),
      globe: file("globe-opal.ldt"),
      lantern: file("lantern-up-down.ies"),
    }),
    "file-asymmetric": hung(305, "An asymmetric file, a bar, recessed files", {
      bar: file("linear-opal.ies", { body: { profile: "box", length: 1.2, width: 0.06, height: 0.05 } }),
      lily: file("lily-asymmetric.ldt"),
      narrow: file("recessed-narrow.ldt"),
      wide: file("recessed-wide.ies"),
    }),
    "file-embedded": hung(
      306,
      "Photometry inside the study",
      {
        text: { photometry: "inside.ies" },
        bytes: { photometry: "bytes.ies" },
      },
      {
        embedded: {
          "inside.ies": { text: EMBEDDED_TEXT },
          "bytes.ies": { base64: Buffer.from(EMBEDDED_TEXT).toString("base64") },
        },
      },
    ),
  };
}

const frosted = { flux: 800, watts: 7, finish: "frosted" };
const PAPER = { finish: "paper", transmittance: 0.4, diffusion: 0.9 };
const CUP = [
  ["12 cm", 0],
  [0.1, "0.05 m"],
  [0.03, 0.12],
];

function shaded() {
  const surface = { reflectance: 0.8, specular: 0.1, transmittance: 0, diffusion: 1 };
  return {
    "shade-cone": hung(307, "Cone with a diffuser, dome of brass", {
      cone: {
        lamp: {
          ...frosted,
          shape: "A19",
          diameter: 0.06,
          orientation: "base-up",
          height: 0.09,
          radius: 0,
          count: 1,
        },
        shade: {
          profile: "cone",
          diameter: 0.35,
          height: 0.25,
          topDiameter: 0.08,
          finish: "white",
          inside: { finish: "white", ...surface },
          outside: { finish: "black", reflectance: 0.06, specular: 0.02, transmittance: 0, diffusion: 1 },
          transmittance: 0,
          diffusion: 1,
          top: "closed",
          bottom: "diffuser",
          diffuser: {
            finish: "opal plastic",
            reflectance: 0.4,
            specular: 0,
            transmittance: 0.5,
            diffusion: 1,
          },
        },
      },
      dome: {
        lamp: { ...frosted, finish: "half-mirrored" },
        shade: {
          profile: "dome",
          diameter: 0.3,
          height: 0.2,
          finish: "brass",
          inside: { finish: "aluminium" },
          bottom: "open",
        },
      },
    }),
    "shade-drum": hung(308, "Fabric drum, paper cylinder", {
      drum: {
        lamp: { ...frosted, count: 3, radius: 0.08, orientation: "base-down" },
        shade: {
          profile: "drum",
          diameter: 0.4,
          height: 0.2,
          finish: "linen",
          inside: { finish: "linen" },
          outside: { finish: "linen" },
          top: "open",
          diffuser: { finish: "linen" },
          bottom: "diffuser",
        },
      },
      cylinder: {
        lamp: frosted,
        shade: {
          profile: "cylinder",
          diameter: 0.15,
          height: 0.3,
          ...PAPER,
          inside: { finish: "paper" },
          outside: { finish: "paper" },
        },
      },
    }),
    "shade-globe": hung(309, "Opal globe, bell of clear glass", {
      globe: {
        lamp: { ...frosted, orientation: "horizontal" },
        shade: {
          profile: "globe",
          diameter: 0.25,
          finish: "opal glass",
          inside: { finish: "opal glass" },
          outside: { finish: "opal glass" },
        },
      },
      bell: {
        lamp: { flux: 700, finish: "clear", filament: 0.03 },
        shade: {
          profile: "bell",
          diameter: 0.22,
          height: 0.26,
          finish: "clear glass",
          inside: { finish: "clear glass" },
          outside: { finish: "clear glass" },
        },
      },
    }),
    "shade-bowl": hung(310, "Bowl, disc and an outline of its own", {
      bowl: {
        lamp: frosted,
        shade: {
          profile: "bowl",
          diameter: 0.35,
          height: 0.12,
          finish: "frosted glass",
          inside: { finish: "frosted glass" },
          outside: { finish: "frosted glass" },
          bottom: "closed",
        },
      },
      disc: {
        lamp: { flux: 900, finish: "directional", beam: 100 },
        shade: {
          profile: "disc",
          diameter: 0.3,
          height: 0.04,
          finish: "aluminium",
          outside: { finish: "aluminium" },
        },
      },
      cup: {
        lamp: { ...frosted, height: 0.05 },
        shade: {
          profile: CUP,
          finish: "dark fabric",
          inside: { finish: "brass" },
          outside: { finish: "dark fabric" },
        },
      },
    }),
    "shade-linear": hung(311, "A trough with a diffuser", {
      trough: {
        lamp: { flux: 1600, finish: "module" },
        shade: {
          profile: "linear",
          length: 1,
          width: 0.06,
          height: 0.05,
          finish: "opal plastic",
          bottom: "diffuser",
          inside: { finish: "opal plastic" },
          outside: { finish: "white" },
        },
      },
      tube: {
        lamp: { flux: 500, finish: "directional", beam: 36 },
        shade: { profile: "cylinder", diameter: 0.1, height: 0.2, finish: "black" },
      },
    }),
  };
}

export const luminaireStudies = () => ({ ...measured(), ...shaded() });
