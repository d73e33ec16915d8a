/**
 * A sheet of paper as SVG at its true size: opened or printed at 100 %, a millimetre is a millimetre.
 *
 * Every word is escaped: names come from files and are not to be trusted.
 */

import { base64OfBytes } from "../app/embedded-bytes.ts";
import type { Ink } from "../drawing/drawing.ts";
import {
  type LabelMark,
  PAPER_HATCHING,
  PAPER_WEIGHT,
  type PaperMark,
  POINTS_PER_MILLIMETRE,
  PRINT,
  type Sheet,
} from "../drawing/paper/paper.ts";
import { escapeText, hatchSvg, marksSvg, pathOf, short } from "../drawing/svg-text.ts";
import type { Vec2 } from "../geometry/vector.ts";

const PAPER_FONT =
  "'DejaVu Sans Condensed', 'DejaVu Sans', 'Noto Sans', 'Liberation Sans', Verdana, sans-serif";

/** SVG 1.1 text of one sheet. */
export function sheetSvg(sheet: Sheet): string {
  const { width, height, title, summary, marks } = sheet;
  const ids = { next: 0 };
  const [w, h] = [width / POINTS_PER_MILLIMETRE, height / POINTS_PER_MILLIMETRE];
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${short(w)}mm" height="${short(h)}mm" viewBox="0 0 ${short(width)} ${short(height)}" role="img" aria-label="${escapeText(summary)}" font-family="${PAPER_FONT}" font-stretch="condensed">
<title>${escapeText(title)}</title>
<rect width="${short(width)}" height="${short(height)}" fill="#ffffff"/>
${marks.map((mark) => markSvg(mark, ids)).join("\n")}
</svg>
`;
}

function markSvg(mark: PaperMark, ids: { next: number }): string {
  switch (mark.kind) {
    case "line":
      return marksSvg([{ ...mark, weight: (mark.weight * PAPER_WEIGHT) as typeof mark.weight }], {
        palette: PRINT,
      });
    case "text":
      return marksSvg([mark], { palette: PRINT });
    case "circle": {
      const { centre, radius, ink, weight, fill } = mark;
      return `<circle cx="${short(centre[0])}" cy="${short(centre[1])}" r="${short(radius)}" fill="${colour(fill)}" stroke="${colour(ink)}" stroke-width="${short(weight * PAPER_WEIGHT)}"/>`;
    }
    case "area": {
      const shape = mark.rings.map((ring) => pathOf(ring, true)).join("");
      return within(mark.clip, ids, `<path d="${shape}" fill="${mark.colour}" fill-rule="evenodd"/>`);
    }
    case "hatch":
      return hatchSvg(mark.areas, PAPER_HATCHING);
    case "traced":
      return within(
        mark.clip,
        ids,
        `<path d="${pathOf(mark.points)}" fill="none" stroke="${mark.colour}" stroke-width="${short(mark.weight)}" stroke-linejoin="round"/>`,
      );
    case "label":
      return labelSvg(mark);
    case "picture": {
      const { at, width, height, picture } = mark;
      return `<image x="${short(at[0])}" y="${short(at[1])}" width="${short(width)}" height="${short(height)}" href="data:image/${picture.type};base64,${base64OfBytes(picture.bytes)}"/>`;
    }
  }
}

function labelSvg({ at, text, anchor, size, turn = 0, colour: ink, rim, strong }: LabelMark): string {
  const common = `x="0" y="0" text-anchor="${anchor}" font-size="${short(size)}"${strong ? ` font-weight="700"` : ""}`;
  const words = escapeText(text);
  return `<g transform="translate(${short(at[0])} ${short(at[1])}) rotate(${short(turn)})"><text ${common} fill="${rim}" stroke="${rim}" stroke-width="2" stroke-linejoin="round" aria-hidden="true">${words}</text><text ${common} fill="${ink}">${words}</text></g>`;
}

function within(clip: readonly Vec2[] | undefined, ids: { next: number }, inner: string): string {
  if (clip === undefined) return inner;
  const id = `clip-${ids.next++}`;
  return `<clipPath id="${id}"><path d="${pathOf(clip, true)}"/></clipPath><g clip-path="url(#${id})">${inner}</g>`;
}

function colour(ink: Ink | undefined): string {
  return ink === undefined || ink === "none" ? "none" : PRINT[ink];
}
