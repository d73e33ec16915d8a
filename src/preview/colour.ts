/**
 * Colour of light and of surfaces, of a luminance that is the computed one: tints carry hue alone.
 *
 * Light of a correlated colour temperature T lies on the Planckian locus (cubic approximation of B. Kang et al., J.
 * Korean Phys. Soc. 41 (2002); good to 0.0005 in x, y from 1667 to 25,000 K), turned to linear sRGB (IEC 61966-2-1).
 * An eye adapts: white is most of the way (0.85) from daylight to the light of the room (von Kries in linear sRGB;
 * the share is our choice).
 */

import { Color } from "three";
import type { Vec3 } from "../geometry/vector.ts";
import type { Layer } from "../scene/scene.ts";
import type { Surface, SurfacePart } from "../scene/surface.ts";

const ADAPTED = 0.85;
const USUAL_CCT = 3000;

export function luminanceOf([r, g, b]: Vec3): number {
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** The colour scaled to luminance one. */
export function unitTint(colour: Vec3): Vec3 {
  const Y = luminanceOf(colour);
  return Y > 0 ? [colour[0] / Y, colour[1] / Y, colour[2] / Y] : [1, 1, 1];
}

/** Linear sRGB of the Planckian radiator at T (K), luminance one. */
export function planckian(T: number): Vec3 {
  const t = Math.min(25_000, Math.max(1667, T));
  const x =
    t <= 4000
      ? -0.2661239e9 / t ** 3 - 0.2343589e6 / t ** 2 + 0.8776956e3 / t + 0.17991
      : -3.0258469e9 / t ** 3 + 2.1070379e6 / t ** 2 + 0.2226347e3 / t + 0.24039;
  const y =
    t <= 2222
      ? -1.1063814 * x ** 3 - 1.3481102 * x ** 2 + 2.18555832 * x - 0.20219683
      : t <= 4000
        ? -0.9549476 * x ** 3 - 1.37418593 * x ** 2 + 2.09137015 * x - 0.16748867
        : 3.081758 * x ** 3 - 5.8733867 * x ** 2 + 3.75112997 * x - 0.37001483;
  const [X, Z] = [x / y, (1 - x - y) / y];
  return [
    Math.max(0, 3.2404542 * X - 1.5371385 - 0.4985314 * Z),
    Math.max(0, -0.969266 * X + 1.8760108 + 0.041556 * Z),
    Math.max(0, 0.0556434 * X - 0.2040259 + 1.0572252 * Z),
  ];
}

function temperatureOf(layer: Layer): number {
  return layer.luminaires.find(({ luminaire }) => luminaire.cct !== undefined)?.luminaire.cct ?? USUAL_CCT;
}

/** Tint of each layer's light as an eye sees it that has adapted to them all. */
export function layerTints(layers: readonly Layer[]): Vec3[] {
  let sum = 0;
  let weighed = 0;
  for (const layer of layers)
    for (const { luminaire } of layer.luminaires) {
      sum += layer.dim * luminaire.flux;
      weighed += layer.dim * luminaire.flux * temperatureOf(layer);
    }
  const white = planckian(sum > 0 ? weighed / sum : USUAL_CCT);
  return layers.map((layer) => {
    const light = planckian(temperatureOf(layer));
    return unitTint([0, 1, 2].map((k) => light[k] / white[k] ** ADAPTED) as unknown as Vec3);
  });
}

/** Linear sRGB of `#rrggbb`, or of words that end in the name of a colour; undefined of anything else. */
export function linearOf(colour: string | undefined): Vec3 | undefined {
  const last =
    colour
      ?.toLowerCase()
      .split(/[\s-]+/)
      .at(-1) ?? "";
  const hex = Object.hasOwn(Color.NAMES, last)
    ? `#${Color.NAMES[last as keyof typeof Color.NAMES].toString(16).padStart(6, "0")}`
    : last;
  const channels = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(hex);
  if (channels === null) return undefined;
  return channels.slice(1).map((part) => {
    const c = Number.parseInt(part, 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as unknown as Vec3;
}

/** Hues of surfaces of which only the reflectance is known: quiet, and our choice. */
const USUAL_TINTS: Partial<Record<SurfacePart, Vec3>> = {
  floor: [1.28, 0.96, 0.66],
  ceiling: [1.01, 1, 0.98],
  "island top": [1.04, 1, 0.95],
  "island sides": [0.78, 1.03, 1.13],
  opening: [0.75, 1.02, 1.4],
  body: [1.04, 1, 0.92],
};
const WALL: Vec3 = [1.02, 1, 0.96];
/** Heights between which what faces up is a worktop (m): common practice, no source. */
const WORKTOPS = [0.7, 1.15] as const;
/** A side of the island no taller than this is the edge of its top (m). */
const SLAB = 0.12;

/** Reflectance times tint of a surface. `colours` of the island's top, by its name, and of bodies. */
export function albedoOf(surface: Surface, colours: ReadonlyMap<string, string>): Vec3 {
  const { part, name, normal, vertices } = surface;
  const height = vertices[0][2];
  const isWorktop = part === "body" && normal[2] > 0.9 && height >= WORKTOPS[0] && height <= WORKTOPS[1];
  const tall = Math.max(...vertices.map(([, , z]) => z)) - Math.min(...vertices.map(([, , z]) => z));
  // The edge of a slab is of its stone.
  const isStone = isWorktop || (part === "island sides" && Math.abs(normal[2]) < 0.1 && tall <= SLAB);
  const named = isWorktop || (part === "island sides" && !isStone) ? undefined : linearOf(colours.get(name));
  const tint = unitTint(named ?? USUAL_TINTS[isStone ? "island top" : part] ?? WALL);
  return tinted(tint, surface.reflectance);
}

/** A reflectance tinted, with no channel above one. */
export function tinted(tint: Vec3, reflectance: number): Vec3 {
  const most = Math.max(...tint) * reflectance;
  // What would reflect more than all in a channel pales instead.
  const share = most <= 1 ? 1 : (1 - reflectance) / (most - reflectance);
  return tint.map((c) => reflectance * (1 + share * (c - 1))) as unknown as Vec3;
}
