/**
 * The light on a plan: filled bands of the absolute scale, isolux lines with their levels, hatching where a zone
 * is below its target. Plain data in drawing units; colours are those of the absolute scale, the same on every
 * ground.
 */

import type { IsoluxField } from "../app/contour-field.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { formatIlluminanceValue } from "../units/illuminance-text.ts";
import { LUX_PER_FOOTCANDLE } from "../units/quantities.ts";
import { clipLine } from "./clip-line.ts";
import type { Box } from "./drawing.ts";
import { isolines } from "./isolux.ts";
import { type LineLabel, labelLines } from "./line-labels.ts";
import { darkInkOver, luxColour, type ScaleStep, scaleBands, scaleSteps } from "./scale.ts";

export const LABEL_SIZE = 11;
/** Inks on the scale's own colours; not of the page, which may be dark. */
export const DARK_INK = "#24211c";
export const LIGHT_INK = "#fffdf9";

export interface PlanLightInput {
  /** In the island's axes (m). */
  readonly field: IsoluxField;
  readonly outline: readonly Vec2[];
  /** Zones with a target for illuminance, in the same axes (m, lx). */
  readonly targets: readonly { readonly outline: readonly Vec2[]; readonly level: number }[];
  readonly unit: "lx" | "fc";
  /** Draws round levels between the steps too where fewer than four steps cross the field, so that its shape
   * shows; their bands take their colour from the same absolute ramp. */
  readonly between?: boolean;
  /** From the island's axes (m) to the page. */
  place(point: Vec2): Vec2;
  /** Words and marks already on the page. */
  readonly taken: readonly Box[];
  /** Distance along a line between places tried for its word (drawing units): wider is quicker. */
  readonly labelStep?: number;
  /** Lines on the page that words keep clear of. */
  readonly obstacles?: readonly (readonly Vec2[])[];
}

export interface PlanLight {
  readonly outline: readonly Vec2[];
  /** Painted in order, each over those before, cut to the outline; rings by the even-odd rule. */
  readonly bands: readonly { readonly colour: string; readonly rings: readonly (readonly Vec2[])[] }[];
  /** Rings by the even-odd rule, cut to `clip`: where the zone is below its target. */
  readonly below: readonly { readonly clip: readonly Vec2[]; readonly rings: readonly (readonly Vec2[])[] }[];
  readonly lines: readonly {
    readonly level: number;
    readonly points: readonly Vec2[];
    readonly colour: string;
    /** The line of a zone's target. */
    readonly strong: boolean;
    /** A level between two steps. */
    readonly faint: boolean;
  }[];
  readonly labels: readonly (LineLabel & { readonly colour: string; readonly ground: string })[];
}

/** The light of a field on a page: bands, isolux lines, hatching, labels clear of what is already there. */
export function planLight(input: PlanLightInput): PlanLight {
  const { field, outline, unit, place, targets } = input;
  const known = field.values.filter((value) => !Number.isNaN(value));
  const [least, most] = range(known);
  const round = scaleSteps(unit).filter(({ level }) => level > least && level <= most);
  const extra = input.between && round.length < FEWEST_STEPS ? levelsBetween(round, least, most, unit) : [];
  const steps = [...round, ...extra].sort((a, b) => a.level - b.level);
  const bands = scaleBands(unit);
  const lines = isolines(
    field,
    steps.map((step) => step.level),
    outline,
  );
  const page = (rings: readonly (readonly Vec2[])[]): Vec2[][] => rings.map((ring) => ring.map(place));
  const bandFrom = (level: number, next = Number.POSITIVE_INFINITY): string =>
    extra.length > 0 && Number.isFinite(next)
      ? luxColour(Math.sqrt(Math.max(level, 1) * next))
      : (bands.find((band) => level >= band.from && level < band.to)?.colour ?? luxColour(level));

  const drawn = lines.flatMap(({ level, lines: parts }, i) =>
    page(parts).map((points) => ({ text: steps[i].label, points, level })),
  );
  const strong = targets.flatMap(({ outline: zone, level }) =>
    isolines(field, [level], outline)
      .flatMap((isoline) => isoline.lines)
      .flatMap((part) => clipLine(part, zone))
      .map((part) => ({
        level,
        points: part.map(place),
        colour: inkOver(level),
        strong: true,
        faint: false,
      })),
  );
  // A target that is no step of the scale has a line of its own, and a label of its own.
  const named = [
    ...drawn,
    ...strong
      .filter(({ level }) => !steps.some((step) => Math.abs(step.level / level - 1) < 1e-9))
      .map(({ level, points }) => ({ level, points, text: formatIlluminanceValue(level, unit) })),
    ...(input.obstacles ?? []).map((points) => ({ level: 0, points, text: "" })),
  ];
  const pageOutline = outline.map(place);
  return {
    outline: pageOutline,
    bands: [
      { colour: bandFrom(Math.max(least, 0), steps[0]?.level), rings: [pageOutline] },
      ...lines.map(({ level, rings }, i) => ({
        colour: bandFrom(level, steps[i + 1]?.level ?? (extra.length > 0 ? most : undefined)),
        rings: page(rings),
      })),
    ],
    below: targets
      .filter(({ level }) => least < level)
      .map(({ outline: zone, level }) => ({
        clip: zone.map(place),
        // The zone and everything at or above the target, even-odd: inside the zone only what is below is left.
        rings: [zone.map(place), ...page(isolines(field, [level]).flatMap((isoline) => isoline.rings))],
      })),
    lines: [
      ...drawn.map(({ level, points }) => ({
        level,
        points,
        colour: inkOver(level),
        strong: false,
        faint: extra.some((step) => step.level === level),
      })),
      ...strong,
    ],
    labels: labelLines(named, pageOutline, input.taken, LABEL_SIZE, input.labelStep).map((label) => ({
      ...label,
      colour: inkOver(named[label.line].level),
      ground: luxColour(named[label.line].level),
    })),
  };
}

/** Fewer steps than this over a top say little of its shape. */
const FEWEST_STEPS = 4;

/** Round levels inside a range that are no steps of the scale, at most about six. */
function levelsBetween(
  steps: readonly ScaleStep[],
  least: number,
  most: number,
  unit: "lx" | "fc",
): ScaleStep[] {
  const per = unit === "fc" ? LUX_PER_FOOTCANDLE : 1;
  const step =
    [1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500].find((n) => (most - least) / per / n <= 7) ?? 1000;
  const found: ScaleStep[] = [];
  for (let n = Math.floor(least / per / step) + 1; n * step * per < most; n++) {
    const level = n * step * per;
    if (!steps.some((s) => Math.abs(s.level - level) < 1e-3 * level))
      found.push({ level, label: `${n * step}` });
  }
  return found;
}

function inkOver(level: number): string {
  return darkInkOver(level) ? DARK_INK : LIGHT_INK;
}

function range(values: Float64Array): readonly [number, number] {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return [least, most];
}
