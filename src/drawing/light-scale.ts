/**
 * The one scale light is drawn on: absolute, the same for every drawing, so that two plans can be compared by eye.
 *
 * Steps of about 1.5× (20 30 50 75 100 … lx), a colour for each band between them. The ramp runs straight in
 * CIELAB [1] from a dark blue to a light yellow over the logarithm of the level:
 *
 *   L* = 24 + 64 t,  a* and b* along a blue–yellow line,  t rising with ln E from 20 to 10,000 lx, cut to 0…1,
 *
 * steepest between 200 and 1000 lx, where tops lie, so that five tones between 400 and 850 lx can be told apart;
 * lightness rises evenly over t (it reads in grey) and hue moves only along blue–yellow, the axis that the common
 * colour-vision deficiencies keep [2]. The ramp is our own; only the principle is [2]'s.
 *
 * [1] CIE 15: CIELAB, D65.  [2] Nuñez, Anderton, Renslow, PLoS ONE 13(7), 2018.
 */

import { LUX_PER_FOOTCANDLE } from "../units/quantities.ts";

/** The named steps of a scale in lux, about 1.5× apart. */
export const LUX_STEPS: readonly number[] = [20, 30, 50, 75, 100, 150, 200, 300, 500, 750, 1000];

/** Levels (lx) and where on the ramp they lie; straight in ln E between them. */
const KNOTS = [
  [20, 0],
  [200, 0.36],
  [1000, 0.84],
  [10000, 1],
] as const;

/** Lines go on above the named steps, so that a bright top does not lose its shape. */
const BEYOND = [1500, 2000, 3000, 5000, 7500, 10000];
/** Foot-candles in their own round steps; their colours come from the same absolute ramp. */
const FOOTCANDLE_STEPS = [2, 3, 5, 7, 10, 15, 20, 30, 50, 75, 100, 150, 200, 300, 500, 750, 1000];

export interface ScaleStep {
  /** lx */
  readonly level: number;
  /** As labelled, in the unit's own round number. */
  readonly label: string;
}

/** Every step of the scale in a unit, rising. */
export function scaleSteps(unit: "lx" | "fc"): readonly ScaleStep[] {
  return unit === "fc"
    ? FOOTCANDLE_STEPS.map((value) => ({ level: value * LUX_PER_FOOTCANDLE, label: `${value}` }))
    : [...LUX_STEPS, ...BEYOND].map((level) => ({ level, label: `${level}` }));
}

export interface ScaleBand {
  /** lx; 0 for the lowest. */
  readonly from: number;
  /** lx; infinite for the highest. */
  readonly to: number;
  /** `#rrggbb` */
  readonly colour: string;
}

/** The bands between the steps, each coloured for its geometric middle. */
export function scaleBands(unit: "lx" | "fc"): readonly ScaleBand[] {
  const levels = scaleSteps(unit).map((step) => step.level);
  return [0, ...levels].map((from, i) => {
    const to = levels[i] ?? Number.POSITIVE_INFINITY;
    const middle =
      from === 0 ? to / 1.25 : to === Number.POSITIVE_INFINITY ? from * 1.25 : Math.sqrt(from * to);
    return { from, to, colour: luxColour(middle) };
  });
}

/** Place of a level on the ramp, 0 at 20 lx and below, 1 at 10,000 lx and above. */
export function rampPosition(lux: number): number {
  if (!(lux > KNOTS[0][0])) return 0;
  for (let k = 1; k < KNOTS.length; k++) {
    const [[low, from], [high, to]] = [KNOTS[k - 1], KNOTS[k]];
    if (lux < high) return from + ((to - from) * Math.log(lux / low)) / Math.log(high / low);
  }
  return 1;
}

/** Colour of a level (lx) as `#rrggbb`. */
export function luxColour(lux: number): string {
  return hexColour(rampRgb(rampPosition(lux)));
}

function hexColour(rgb: readonly number[]): string {
  const hex = (channel: number): string =>
    Math.round(channel * 255)
      .toString(16)
      .padStart(2, "0");
  return `#${rgb.map(hex).join("")}`;
}

/** Inks on the scale's own colours; not of the page, which may be dark. */
export const DARK_INK = "#24211c";
export const LIGHT_INK = "#fffdf9";

/** Whether lines and words over the colour of a level are drawn dark (or light): whichever stands out more. */
export function darkInkOver(lux: number): boolean {
  const colour = luxColour(lux);
  return contrastRatio(DARK_INK, colour) > contrastRatio(LIGHT_INK, colour);
}

/** Ink of lines and words over the colour of a level. */
export function inkOver(lux: number): string {
  return darkInkOver(lux) ? DARK_INK : LIGHT_INK;
}

/** What words need to what is behind them: WCAG 2.2, 1.4.3. */
export const READABLE = 4.5;

/** Colour behind the words of a level: its own where the ink is readable on it. In the middle of the ramp no ink is, and a colour as
 * little lighter (or darker) as makes it so lies behind the words. */
export function wordGround(lux: number): string {
  const ink = inkOver(lux);
  const towards = ink === DARK_INK ? 1 : -1;
  let t = rampPosition(lux);
  while (contrastRatio(ink, hexColour(rampRgb(t))) < READABLE) t += towards * 0.005;
  return hexColour(rampRgb(t));
}

/** Contrast of two colours `#rrggbb` (WCAG 2.2), 1…21. */
export function contrastRatio(a: string, b: string): number {
  const [low, high] = [a, b].map((colour) => relativeLuminance(rgbOf(colour)) + 0.05).sort((m, n) => m - n);
  return high / low;
}

/** sRGB, 0…1 each, of `#rrggbb`. */
export function rgbOf(colour: string): readonly [number, number, number] {
  const channel = (k: number): number => Number.parseInt(colour.slice(1 + 2 * k, 3 + 2 * k), 16) / 255;
  return [channel(0), channel(1), channel(2)];
}

/** sRGB, 0…1 each, at a ramp position. */
export function rampRgb(t: number): readonly [number, number, number] {
  const lightness = 24 + 64 * t;
  // Chroma follows what sRGB can show at each lightness: bluish below, yellow from the middle up.
  const b = -22 + 80 * t;
  const a = 5 - 5 * t;
  return fromLab(lightness, a, b);
}

/** Relative luminance of an sRGB colour (IEC 61966-2-1), 0…1. */
export function relativeLuminance([r, g, b]: readonly [number, number, number]): number {
  const linear = (c: number): number => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  return 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
}

function fromLab(lightness: number, a: number, b: number): readonly [number, number, number] {
  const fy = (lightness + 16) / 116;
  const undo = (f: number): number => (f > 6 / 29 ? f ** 3 : 3 * (6 / 29) ** 2 * (f - 4 / 29));
  const x = 0.95047 * undo(fy + a / 500);
  const y = undo(fy);
  const z = 1.08883 * undo(fy - b / 200);
  const encode = (c: number): number => {
    const cut = Math.min(1, Math.max(0, c));
    return cut <= 0.0031308 ? 12.92 * cut : 1.055 * cut ** (1 / 2.4) - 0.055;
  };
  return [
    encode(3.2404542 * x - 1.5371385 * y - 0.4985314 * z),
    encode(-0.969266 * x + 1.8760108 * y + 0.041556 * z),
    encode(0.0556434 * x - 0.2040259 * y + 1.0572252 * z),
  ];
}
