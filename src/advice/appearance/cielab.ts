/**
 * How far apart two colours look: a CSS colour to CIELAB, and the difference of two.
 *
 *   linear = c ≤ 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055)^2.4                     [1]
 *   X Y Z = M · linear, D65                                                          [1]
 *   L* = 116 f(Y/Yn) − 16,  a* = 500 (f(X/Xn) − f(Y/Yn)),  b* = 200 (f(Y/Yn) − f(Z/Zn))   [2]
 *   f(t) = t > (6/29)³ ? ∛t : (841/108) t + 4/29
 *   ΔE*ab = √(ΔL*² + Δa*² + Δb*²)                                                    [2]
 *
 * A screen's colour of a paint or a metal is a sketch of it; differences under about 5 say nothing.
 * [1] IEC 61966-2-1 (sRGB). [2] CIE 15:2018, colorimetry.
 */

export interface Lab {
  readonly L: number;
  readonly a: number;
  readonly b: number;
}

const WHITE = [0.95047, 1, 1.08883] as const;
const KNEE = (6 / 29) ** 3;

/** Names people give in a study; the values are those of CSS. */
const NAMES: Readonly<Record<string, number>> = {
  black: 0x000000,
  white: 0xffffff,
  gray: 0x808080,
  grey: 0x808080,
  silver: 0xc0c0c0,
  maroon: 0x800000,
  red: 0xff0000,
  purple: 0x800080,
  green: 0x008000,
  olive: 0x808000,
  yellow: 0xffff00,
  navy: 0x000080,
  blue: 0x0000ff,
  teal: 0x008080,
  orange: 0xffa500,
  brown: 0xa52a2a,
  beige: 0xf5f5dc,
  ivory: 0xfffff0,
  linen: 0xfaf0e6,
  tan: 0xd2b48c,
  gold: 0xffd700,
  pink: 0xffc0cb,
  charcoal: 0x36454f,
};

/** CIELAB of `#rgb`, `#rrggbb`, `rgb(…)` or a common name; undefined of anything else. */
export function labOf(colour: string): Lab | undefined {
  const rgb = channels(colour.trim().toLowerCase().slice(0, 60));
  if (rgb === undefined) return undefined;
  const [r, g, b] = rgb.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  const xyz = [
    0.4124564 * r + 0.3575761 * g + 0.1804375 * b,
    0.2126729 * r + 0.7151522 * g + 0.072175 * b,
    0.0193339 * r + 0.119192 * g + 0.9503041 * b,
  ];
  const [fx, fy, fz] = xyz.map((value, i) => {
    const t = value / WHITE[i];
    return t > KNEE ? Math.cbrt(t) : (841 / 108) * t + 4 / 29;
  });
  return { L: 116 * fy - 16, a: 500 * (fx - fy), b: 200 * (fy - fz) };
}

/** ΔE*ab */
export function colourDifference(p: Lab, q: Lab): number {
  return Math.hypot(p.L - q.L, p.a - q.a, p.b - q.b);
}

/** Red, green and blue, 0…1. */
function channels(colour: string): readonly [number, number, number] | undefined {
  const named = Object.hasOwn(NAMES, colour) ? NAMES[colour] : undefined;
  if (named !== undefined) return bytes(named);
  const hex = /^#([0-9a-f]{3}|[0-9a-f]{6})$/.exec(colour)?.[1];
  if (hex !== undefined)
    return bytes(Number.parseInt(hex.length === 3 ? hex.replace(/./g, "$&$&") : hex, 16));
  const parts = /^rgb\(\s*(\d{1,3})[\s,]+(\d{1,3})[\s,]+(\d{1,3})\s*\)$/.exec(colour);
  if (parts === null) return undefined;
  const [r, g, b] = parts.slice(1).map(Number);
  return Math.max(r, g, b) > 255 ? undefined : [r / 255, g / 255, b / 255];
}

function bytes(rgb: number): readonly [number, number, number] {
  return [(rgb >> 16) / 255, ((rgb >> 8) & 255) / 255, (rgb & 255) / 255];
}
