/**
 * What is answered for, and by what it is checked: the one place of every bound of the README's table and of the guide
 * page on accuracy. A test measures an error and hands it over by `expectAccuracy`.
 */

export interface AccuracyCase {
  /** Row of the README's table. */
  readonly row: string;
  /** Before its bound there; empty where the row says it. */
  readonly label: string;
  readonly what: string;
  /** Against what. */
  readonly source: string;
  /** Largest error, as a share; of a σ or of the variance where `what` says so. */
  readonly bound: number;
}

export interface AccuracyRow {
  readonly what: string;
  /** Test file, from the root. */
  readonly test: string;
}

export const ROWS: Readonly<Record<string, AccuracyRow>> = {
  point: {
    what: "a point source in any orientation",
    test: "tests/validation/direct-point-source.test.ts",
  },
  area: {
    what: "disc, rectangle, box, sphere and cylinder openings, near and far",
    test: "tests/validation/direct-area-sources.test.ts",
  },
  factors: {
    what: "published configuration factors",
    test: "tests/validation/configuration-factors.test.ts",
  },
  hidden: {
    what: "openings half hidden by solids",
    test: "tests/validation/openings-behind-solids.test.ts",
  },
  "shade hidden": {
    what: "a lamp in its shade half hidden by solids",
    test: "tests/validation/shades-behind-solids.test.ts",
  },
  closed: { what: "closed rooms", test: "tests/validation/closed-rooms.test.ts" },
  furnished: { what: "a furnished room", test: "tests/validation/photon-trace.test.ts" },
  shade: {
    what: "a lamp in its shade, near by, and its intensity",
    test: "tests/validation/shade-photons.test.ts",
  },
  trough: { what: "an open linear trough", test: "tests/luminaire/shade/linear.test.ts" },
  uncertainty: { what: "the stated uncertainty", test: "tests/validation/uncertainty.test.ts" },
};

const LINES_OF_SIGHT = "lines of sight to points of the opening, own; shares no code with the engine";
const SHADE_PHOTONS =
  "photons on the exact surface of 15 shades, own; beyond four standard errors of the count";
const TROUGH_PHOTONS = "photons in the trough, own; beyond three standard errors of the count";
const MONTE_CARLO = "Monte Carlo of the whole calculation, 300 draws, own";

export const CASES = {
  "point, reference": {
    row: "point",
    label: "reference look-up",
    what: "by the reference look-up",
    source: "the textbook sum I cos ξ / d², written out; 3,000 random places and orientations",
    bound: 1e-12,
  },
  "point, engine": {
    row: "point",
    label: "fast look-up",
    what: "by the fast look-up of the engine",
    source: "the same",
    bound: 5e-4,
  },
  "area, default": {
    row: "area",
    label: "by default",
    what: "as calculated by default",
    source: "closed forms: J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors",
    bound: 0.0025,
  },
  "area, asked": {
    row: "area",
    label: "when asked",
    what: "when 0.01 % is asked for",
    source: "the same",
    bound: 1e-4,
  },
  "configuration factors": {
    row: "factors",
    label: "",
    what: "factor, as a number",
    source: "Howell's catalogue, eight digits, and textbook values with their page",
    bound: 1e-7,
  },
  "hidden opening": {
    row: "hidden",
    label: "any opening",
    what: "share of the light that is left, ten openings behind seven solids",
    source: LINES_OF_SIGHT,
    bound: 0.005,
  },
  "hidden opening, narrow beam": {
    row: "hidden",
    label: "narrow beams",
    what: "the same, beams of 24° and 10°",
    source: LINES_OF_SIGHT,
    bound: 0.005,
  },
  "hidden shade": {
    row: "shade hidden",
    label: "",
    what: "share of the light that is left",
    source: "lines of sight to lamp and shade, 100,000 a point, own",
    bound: 0.005,
  },
  "closed room, mean": {
    row: "closed",
    label: "means",
    what: "mean of a room of one reflectance, and its energy balance",
    source: "energy: Φ / (A (1 − ρ))",
    bound: 1e-3,
  },
  "closed room, points": {
    row: "closed",
    label: "points",
    what: "points in a cube lit from its centre",
    source: "radiosity with exact factors, refined and extrapolated, own",
    bound: 5e-3,
  },
  "closed room, cube mean": {
    row: "closed",
    label: "mean of a cube",
    what: "mean of that cube",
    source: "energy",
    bound: 1e-3,
  },
  "closed room, lit floor": {
    row: "closed",
    label: "lit by the floor",
    what: "a cube lit by its floor, which meets the walls",
    source: "radiosity with exact factors, refined and extrapolated, own",
    bound: 3e-3,
  },
  "closed room, lit floor, refined": {
    row: "closed",
    label: "refined",
    what: "the same with four times the patches",
    source: "the same",
    bound: 1e-3,
  },
  "furnished room": {
    row: "furnished",
    label: "means",
    what: "means of the surfaces that the trace knows to 0.4 %",
    source: "photon trace by brute force, own",
    bound: 0.01,
  },
  "shade, mean": {
    row: "shade",
    label: "beyond noise, means",
    what: "mean illuminance below, at 0.3, 0.5 and 0.8 m",
    source: SHADE_PHOTONS,
    bound: 0.01,
  },
  "shade, ring": {
    row: "shade",
    label: "5 cm rings",
    what: "5 cm rings there",
    source: SHADE_PHOTONS,
    bound: 0.03,
  },
  "shade, intensity": {
    row: "shade",
    label: "intensity",
    what: "intensity in 5° zones",
    source: SHADE_PHOTONS,
    bound: 0.03,
  },
  "trough, ratio": {
    row: "trough",
    label: "light output ratio",
    what: "light output ratio",
    source: "photons in the trough, own",
    bound: 0.005,
  },
  "trough, intensity": {
    row: "trough",
    label: "intensity",
    what: "intensity",
    source: TROUGH_PHOTONS,
    bound: 0.03,
  },
  "trough, below": {
    row: "trough",
    label: "0.5 m below",
    what: "illuminance 0.5 m below its middle",
    source: "photons in the trough, own",
    bound: 0.03,
  },
  "uncertainty, band": {
    row: "uncertainty",
    label: "band",
    what: "width of the band",
    source: MONTE_CARLO,
    bound: 0.1,
  },
  "uncertainty, share": {
    row: "uncertainty",
    label: "shares",
    what: "an input's share of the variance, in points of it",
    source: MONTE_CARLO,
    bound: 0.05,
  },
} as const satisfies Readonly<Record<string, AccuracyCase>>;

/** Over random kitchens: mean interreflected light of a zone, total light at a point. */
export const ZONE_BOUND = 0.02;
export const POINT_BOUND = 0.01;

export type CaseName = keyof typeof CASES;
