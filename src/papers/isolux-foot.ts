/** The foot of an isolux sheet: the scale of light, the key of its lines, a bar of length, and how it was calculated. */

import type { JudgedArrangement } from "../app/judged-arrangement.ts";
import { line, type Mark, segment, text } from "../drawing/drawing.ts";
import { planLineKey, scaleBar, scaleLegend } from "../drawing/light-legend.ts";
import { luxColour } from "../drawing/light-scale.ts";
import { hatchSvg, marksSvg, short } from "../drawing/svg-text.ts";
import { rectangle } from "../geometry/polygon.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import { topPlane } from "../scene/top-plane.ts";
import { methodSentences } from "../words/method-text.ts";
import { ofBothGrids } from "../words/zone-text.ts";
import { broken, MARGIN, scaleOf, WIDTH } from "./isolux-page.ts";

/** @param y where it begins (drawing units) */
export function isoluxFoot(
  study: ResolvedStudy,
  arrangements: readonly JudgedArrangement[],
  y: number,
): { readonly svg: string; readonly bottom: number } {
  const unit = study.display.illuminance;
  const most = arrangements.map(({ scene, assessment }) => {
    const plane = assessment.planes[topPlane(scene)];
    return plane === undefined ? 0 : (ofBothGrids(plane)?.maximum ?? plane.statistics.maximum);
  });
  const legend = scaleLegend(MARGIN, y + 6, 620, unit, Math.max(0, ...most));
  const right = MARGIN + 620 + 56;
  const scale = scaleOf(arrangements[0].scene);
  const methods = methodSentences(
    arrangements.map(({ scene: { name }, assessment }) => ({ name, method: assessment.method })),
  );
  const marks: Mark[] = [
    ...legend.marks,
    line(rectangle(right, y + 6, 26, 14), "key of below target", "ink", 0.75, { closed: true }),
    text([right + 34, y + 17], "below the zone’s target at that spot", "key", { ink: "ink" }),
    segment(right, y + 33, right + 26, y + 33, "key of target", "ink", 1.5),
    text([right + 34, y + 37], "the target itself", "key", { ink: "ink" }),
    ...scaleBar(right, y + 66, scale.perMetre, 220, study.display.length === "ft-in"),
  ];
  let line0 = y + 96;
  const words = [
    `${methods.join(" ")} Isolux lines on cells of at most ${study.display.length === "ft-in" ? "1 in" : "25 mm"}, calculated up to the edge.`,
    planLineKey(arrangements.map(({ scene }) => scene)),
    "Predictions with a band, not a guarantee. Wiring, box support, weight and heat above a hob are for licensed people and local codes.",
  ];
  for (const row of words.flatMap((each) => broken(each, WIDTH - 2 * MARGIN, 11.5))) {
    marks.push(text([MARGIN, line0], row, "note", {}));
    line0 += 16;
  }
  const swatches = legend.swatches.map(
    ({ box: b, colour }) =>
      `<rect x="${short(b.x)}" y="${short(b.y)}" width="${short(b.width)}" height="${short(b.height)}" fill="${colour}"/>`,
  );
  const hatch = `<rect x="${right}" y="${short(y + 6)}" width="26" height="14" fill="${luxColour(150)}"/>${hatchSvg([[rectangle(right, y + 6, 26, 14)]])}`;
  return { svg: `${swatches.join("")}\n${hatch}\n${marksSvg(marks)}`, bottom: line0 + 20 };
}
