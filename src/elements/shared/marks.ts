/** Marks of a drawing as SVG. Words are text nodes: nothing from a study is ever markup. */
import { nothing, type SVGTemplateResult, svg } from "lit";
import { DASHES, type Mark } from "../../drawing/drawing.ts";
import { type CommonArea, hatchLines, SCREEN_HATCHING } from "../../drawing/hatch.ts";
import type { Vec2 } from "../../geometry/vector.ts";

export function renderMarks(marks: readonly Mark[]): SVGTemplateResult[] {
  return marks.map(renderMark);
}

function renderMark(mark: Mark): SVGTemplateResult {
  if (mark.kind === "text") {
    const turn =
      mark.turn === undefined || mark.turn === 0
        ? nothing
        : `rotate(${mark.turn} ${round(mark.at[0])} ${round(mark.at[1])})`;
    const classes = `f-${mark.ink}${mark.strong ? " strong" : ""}${mark.ground ? ` ground s-${mark.ground}` : ""}`;
    return svg`<text class=${classes} x=${round(mark.at[0])} y=${round(mark.at[1])} font-size=${mark.size} text-anchor=${mark.anchor} transform=${turn}>${mark.text}</text>`;
  }
  const dash = mark.dash === undefined || mark.dash === "solid" ? nothing : DASHES[mark.dash].join(" ");
  const classes = `s-${mark.ink} f-${mark.fill ?? "none"}`;
  return svg`<path class=${classes} d=${pathOf(mark.points, mark.closed)} stroke-width=${mark.weight} stroke-dasharray=${dash}></path>`;
}

/** Hatching of what all of several areas cover. */
export function renderHatch(areas: CommonArea): SVGTemplateResult[] {
  const { step, strokes } = SCREEN_HATCHING;
  return strokes.map(
    ({ shift, colour, width, opacity }) =>
      svg`<path fill="none" d=${hatchLines(areas, step, shift)
        .map((line) => pathOf(line))
        .join("")} stroke=${colour} stroke-width=${width} opacity=${opacity}></path>`,
  );
}

export function pathOf(points: readonly Vec2[], closed = false): string {
  let d = "";
  for (let i = 0; i < points.length; i++)
    d += `${i === 0 ? "M" : "L"}${round(points[i][0])} ${round(points[i][1])}`;
  return closed ? `${d}Z` : d;
}

/** A twentieth of a pixel is finer than any screen shows and keeps paths short. */
export function round(value: number): number {
  return Math.round(value * 20) / 20;
}
