/**
 * The light on a plan: filled bands of the absolute scale, isolux lines with their levels, hatching where a zone
 * is below its target. Plain data in drawing units; colours are those of the absolute scale, the same on every
 * ground.
 */

import type { IsoluxField } from "../app/isolux-field.ts";
import { bounds } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { formatIlluminance, formatIlluminanceValue } from "../units/illuminance-text.ts";
import { LUX_PER_FOOTCANDLE } from "../units/quantities.ts";
import { clipLine } from "./clip-line.ts";
import { type Box, overlaps, textWidth } from "./drawing.ts";
import type { CommonArea } from "./hatch.ts";
import { isolines } from "./isolux.ts";
import { inkOver, luxColour, type ScaleStep, scaleBands, scaleSteps, wordGround } from "./light-scale.ts";
import { type LineLabel, labelEnough } from "./line-labels.ts";

export const LABEL_SIZE = 11;

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
  /** Luminaires and the like: what words keep clear of while enough lines are labelled all the same. */
  readonly avoided?: readonly Box[];
  /** Tones the light is shaded in between the lines; one between two lines without. */
  readonly tones?: number;
  /** Distance along a line between places tried for its word (drawing units): wider is quicker. */
  readonly labelStep?: number;
  /** Lines on the page that words keep clear of. */
  readonly obstacles?: readonly (readonly Vec2[])[];
}

export interface PlanLight {
  readonly outline: readonly Vec2[];
  /** Painted in order, each over those before, cut to the outline; rings by the even-odd rule. */
  readonly bands: readonly { readonly colour: string; readonly rings: readonly (readonly Vec2[])[] }[];
  /** Where each zone is below its target. */
  readonly below: readonly CommonArea[];
  readonly lines: readonly {
    readonly level: number;
    readonly points: readonly Vec2[];
    readonly colour: string;
    /** The line of a zone's target. */
    readonly strong: boolean;
    /** A level between two steps. */
    readonly faint: boolean;
  }[];
  readonly labels: readonly (LineLabel & {
    /** lx */
    readonly level: number;
    readonly colour: string;
    readonly ground: string;
  })[];
}

/** The light of a field on a page: bands, isolux lines, hatching, labels clear of what is already there as far as three levels have one. */
export function planLight(input: PlanLightInput): PlanLight {
  const { field, outline, unit, place, targets } = input;
  const values = field.values.filter((value) => !Number.isNaN(value));
  const [least, most] = range(values);
  const isDark = !(most >= DARK);
  const isEven = !isDark && most < EVEN * least;
  const hasLines = !isDark && !(input.between && isEven);
  const round = scaleSteps(unit).filter(({ level }) => hasLines && level > least && level <= most);
  const extra =
    hasLines && input.between && round.length < FEWEST_STEPS ? levelsBetween(round, least, most, unit) : [];
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
  const banded = [
    { colour: bandFrom(Math.max(least, 0), steps[0]?.level), rings: [pageOutline] },
    ...lines.map(({ level, rings }, i) => ({
      colour: bandFrom(level, steps[i + 1]?.level ?? (extra.length > 0 ? most : undefined)),
      rings: page(rings),
    })),
  ];
  return {
    outline: pageOutline,
    bands:
      input.tones === undefined || isDark
        ? banded
        : shaded(least, most, input.tones).map(({ from, level }) => ({
            colour: luxColour(level),
            rings:
              from === undefined
                ? [pageOutline]
                : page(isolines(field, [from]).flatMap(({ rings }) => rings)),
          })),
    below: targets
      .filter(({ level }) => least < level)
      .map(({ outline: zone, level }) => [
        [zone.map(place)],
        // The zone and everything at or above the target, even-odd: inside the zone only what is below is left.
        [zone.map(place), ...page(isolines(field, [level]).flatMap((isoline) => isoline.rings))],
      ]),
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
    labels: [
      ...labelEnough(named, pageOutline, LABEL_SIZE, { ...input, step: input.labelStep }).map((label) => ({
        ...label,
        level: named[label.line].level,
        colour: inkOver(named[label.line].level),
        ground: wordGround(named[label.line].level),
      })),
      ...(isEven && input.between ? evenLabel(Math.sqrt(least * most), pageOutline, input) : []),
    ],
  };
}

/** Lower ends of the tones between two levels, even by ratio, and the level that gives each its colour. */
function shaded(
  least: number,
  most: number,
  tones: number,
): readonly { readonly from?: number; readonly level: number }[] {
  const low = Math.max(least, DARK);
  const ratio = Math.max(FINEST_TONE, (most / low) ** (1 / tones));
  const count = Math.max(1, Math.ceil(Math.log(most / low) / Math.log(ratio) - 1e-9));
  return Array.from({ length: count }, (_, k) => ({
    ...(k === 0 ? {} : { from: low * ratio ** k }),
    level: low * ratio ** (k + 0.5),
  }));
}

/** One figure for the whole top, where words have room. */
function evenLabel(
  level: number,
  outline: readonly Vec2[],
  { taken, avoided = [], unit }: PlanLightInput,
): PlanLight["labels"] {
  const text = `${formatIlluminance(level, unit)}, even`;
  const [x0, y0, x1, y1] = bounds(outline);
  const width = textWidth(text, LABEL_SIZE) + 8;
  const places = [0.5, 0.35, 0.65, 0.2, 0.8].flatMap((v) =>
    [0.5, 0.36, 0.64, 0.25, 0.75].map((u): Vec2 => [x0 + u * (x1 - x0), y0 + v * (y1 - y0)]),
  );
  const isFree = ([x, y]: Vec2): boolean =>
    ![...taken, ...avoided].some((box) =>
      overlaps(box, { x: x - width / 2, y: y - 8, width, height: 16 }, 2),
    );
  const at = places.find(isFree) ?? places[0];
  const box = { centre: at, width, height: LABEL_SIZE + 2, turn: 0 };
  return [{ line: -1, text, at, turn: 0, box, level, colour: inkOver(level), ground: wordGround(level) }];
}

/** Fewer steps than this over a top say little of its shape. */
const FEWEST_STEPS = 4;
/** Greatest over least under which the light is even: no line tells more than one figure. */
const EVEN = 1.1;
/** Under this there is no light to draw (lx). */
const DARK = 0.5;
/** Tones nearer than this (ratio) cannot be told apart. */
const FINEST_TONE = 1.03;

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
  const contours: ScaleStep[] = [];
  for (let n = Math.floor(least / per / step) + 1; n * step * per < most; n++) {
    const level = n * step * per;
    if (!steps.some((s) => Math.abs(s.level - level) < 1e-3 * level))
      contours.push({ level, label: `${n * step}` });
  }
  return contours;
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
