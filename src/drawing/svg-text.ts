/** Drawings as SVG text. Every word is escaped: names come from files and are not to be trusted. */

import type { Vec2 } from "../geometry/vector.ts";
import { DASHES, type Ink, type Mark } from "./drawing.ts";
import { type CommonArea, type Hatching, hatchLines, SCREEN_HATCHING } from "./hatch.ts";
import { DAY, type Palette } from "./palette.ts";
import { LABEL_SIZE, type PlanLight } from "./plan-light.ts";

export const FONT =
  "'Source Sans 3', 'Source Sans Pro', 'Noto Sans', 'Segoe UI', 'Helvetica Neue', sans-serif";

// Control characters and lone surrogates: XML allows neither.
const FORBIDDEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is removed
  /[\u0000-\u001f\u007f-\u009f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Text safe inside SVG and HTML. */
export function escapeText(words: string): string {
  return words
    .replace(FORBIDDEN, " ")
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;")
    .replace(/'/g, "&#39;");
}

/** A number as short as a hundredth of a drawing unit allows. */
export function short(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return `${rounded === 0 ? 0 : rounded}`;
}

export function pathOf(points: readonly Vec2[], closed = false): string {
  if (points.length === 0) return "";
  const [first, ...rest] = points.map(([x, y]) => `${short(x)} ${short(y)}`);
  return `M${first}${rest.length > 0 ? `L${rest.join(" ")}` : ""}${closed ? "Z" : ""}`;
}

export interface MarkStyle {
  readonly palette?: Palette;
  /** A rim of this colour under lines and words, where they pass over light of any level. */
  readonly halo?: string;
}

export function marksSvg(marks: readonly Mark[], style: MarkStyle = {}): string {
  return marks.map((mark) => markSvg(mark, style)).join("\n");
}

function markSvg(mark: Mark, { palette = DAY, halo }: MarkStyle): string {
  const colour = (ink: Ink | undefined): string =>
    ink === undefined || ink === "none" ? "none" : palette[ink];
  if (mark.kind === "line") {
    const shape = pathOf(mark.points, mark.closed);
    const dash = DASHES[mark.dash ?? "solid"];
    const rim =
      halo === undefined || mark.ink === "none"
        ? ""
        : `<path d="${shape}" fill="none" stroke="${halo}" stroke-width="${mark.weight + 1.75}" stroke-opacity="0.6"/>`;
    return `${rim}<path d="${shape}" fill="${colour(mark.fill)}" stroke="${colour(mark.ink)}" stroke-width="${mark.weight}"${
      dash.length === 0 ? "" : ` stroke-dasharray="${dash.join(" ")}"`
    }/>`;
  }
  const ground = mark.ground === undefined ? halo : colour(mark.ground);
  const turn =
    mark.turn === undefined
      ? ""
      : ` transform="rotate(${short(mark.turn)} ${short(mark.at[0])} ${short(mark.at[1])})"`;
  const common = `x="${short(mark.at[0])}" y="${short(mark.at[1])}" font-size="${mark.size}" text-anchor="${mark.anchor}"${
    mark.strong ? ` font-weight="600"` : ""
  }${turn}`;
  const words = escapeText(mark.text);
  // Two elements, not paint-order: readers of SVG that do not know it would drown the words in their rim.
  const rim =
    ground === undefined
      ? ""
      : `<text ${common} fill="${ground}" stroke="${ground}" stroke-width="4" stroke-linejoin="round" aria-hidden="true">${words}</text>`;
  return `${rim}<text ${common} fill="${colour(mark.ink)}">${words}</text>`;
}

/** The light of a plan. `id` makes the name of its clip unique in the page. */
export function planLightSvg(light: PlanLight, id: string): string {
  const rings = (all: readonly (readonly Vec2[])[]): string => all.map((ring) => pathOf(ring, true)).join("");
  const fills = light.bands.map(
    ({ colour, rings: all }) => `<path d="${rings(all)}" fill="${colour}" fill-rule="evenodd"/>`,
  );
  const hatches = light.below.map((area) => hatchSvg(area));
  const lines = light.lines.map(
    ({ points, colour, strong }) =>
      `<path d="${pathOf(points)}" fill="none" stroke="${colour}" stroke-width="${strong ? 1.75 : 0.75}" stroke-linejoin="round"/>`,
  );
  const labels = light.labels.map(({ at, turn, text, level, colour, ground }) => {
    const common = `x="0" y="${short(LABEL_SIZE * 0.35)}" text-anchor="middle" font-size="${LABEL_SIZE}" font-weight="600"`;
    return `<g transform="translate(${short(at[0])} ${short(at[1])}) rotate(${short(turn)})"><text ${common} fill="${ground}" stroke="${ground}" stroke-width="4" stroke-linejoin="round" aria-hidden="true">${escapeText(text)}</text><text data-lux="${short(level)}" ${common} fill="${colour}">${escapeText(text)}</text></g>`;
  });
  return `<defs>
<clipPath id="${id}-top"><path d="${pathOf(light.outline, true)}"/></clipPath>
</defs>
<g clip-path="url(#${id}-top)">
${[...fills, ...hatches, ...lines].join("\n")}
</g>
${labels.join("\n")}`;
}

/** Hatching of what all of several areas cover. */
export function hatchSvg(areas: CommonArea, { step, strokes }: Hatching = SCREEN_HATCHING): string {
  return strokes
    .map(({ shift, colour, width, opacity = 1 }) => {
      const lines = hatchLines(areas, step, shift).map((line) => pathOf(line));
      return `<path d="${lines.join("")}" fill="none" stroke="${colour}" stroke-width="${width}" stroke-opacity="${opacity}"/>`;
    })
    .join("");
}
