/**
 * The sheet `isolux` draws: the plan of the island for each arrangement, one under the other on one scale of
 * length and one scale of light, with the verdict in words and the figures beside it.
 */

import type { BodyShadow } from "../advice/body-shadow.ts";
import { contourOf, type JudgedArrangement } from "../app/judged-arrangement.ts";
import { averageOf } from "../assessment/layer-light.ts";
import type { Verdict } from "../assessment/verdict.ts";
import { printable } from "../diagnostics/printable.ts";
import { bodyShadowMap } from "../drawing/body-shadow-svg.ts";
import { clashMarks } from "../drawing/clash-marks.ts";
import { type Ink, type Mark, text, wordBoxes } from "../drawing/drawing.ts";
import { islandAxes } from "../drawing/island-axes.ts";
import { islandLight, lineObstacles } from "../drawing/island-light.ts";
import { DAY } from "../drawing/palette.ts";
import { pendantRows } from "../drawing/plan-chains.ts";
import { planFrame, planObjects } from "../drawing/plan-objects.ts";
import { escapeText, FONT, marksSvg, planLightSvg, short } from "../drawing/svg-text.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { LayerRole } from "../scene/scene.ts";
import { topPlane } from "../scene/top-plane.ts";
import {
  formatIlluminance,
  formatIlluminanceValue,
  type IlluminanceUnit,
} from "../units/illuminance-text.ts";
import { formatLength, type LengthUnit } from "../units/length-text.ts";
import { powerFigure } from "../units/power-text.ts";
import { patchyRemark, verdictWords, zoneSentence } from "../words/arrangement-sentences.ts";
import { clashHeadline } from "../words/clash-words.ts";
import { litSettingWords } from "../words/settings-text.ts";
import { wording } from "../words/wording.ts";
import { darkestPlace, evennessText, ofBothGrids, verdictMark } from "../words/zone-text.ts";
import { isoluxFoot } from "./isolux-foot.ts";
import { broken, MARGIN, scaleOf, WIDTH } from "./isolux-page.ts";
import { isoluxValues } from "./isolux-values.ts";

const VERDICT_INK: Readonly<Record<Verdict, Ink>> = {
  meets: "meets",
  "falls short": "short",
  "too close to call": "close",
  "no target": "quiet",
  "not judged": "quiet",
};

/** Drawing units a metre of the shadow maps. */
const SHADOW_SCALE = 260;
/** Where they begin: the map brings a margin of its own. */
const SHADOW_LEFT = MARGIN - 24;

export interface IsoluxSheetOptions {
  /** A second plan of each arrangement with the light at the points that are judged, as numbers. */
  readonly values?: boolean;
}

/** What every such sheet holds, and tells it from other files. */
export const ISOLUX_MARK = ": isolux plan</title>";

/** The sheet as SVG text. Arrangements whose study has no plane to draw are left out and named. */
export function isoluxSheet(
  study: ResolvedStudy,
  arrangements: readonly JudgedArrangement[],
  { values = false }: IsoluxSheetOptions = {},
): string {
  const blocks: string[] = [];
  let y = 44;
  const { maintenance } = arrangements[0].scene;
  blocks.push(
    marksSvg([
      text([MARGIN, y], printable(study.title, 70), "title", { ink: "ink", size: 24, strong: true }),
      text(
        [MARGIN, y + 22],
        `Illuminance on the island, maintained (factor ${maintenance.toFixed(2)}), in the dark. Seen from above.`,
        "subtitle",
        { size: 13 },
      ),
    ]),
  );
  y += 56;
  arrangements.forEach((judged, index) => {
    const { svg, height } = block(study, judged, `plan-${index}`, values);
    blocks.push(`<g transform="translate(0 ${short(y)})" role="group" aria-label="${escapeText(judged.scene.name)}">
${svg}
</g>`);
    y += height + 28;
    const shadows = shadowMaps(judged.bodyShadows ?? [], y);
    blocks.push(...shadows.blocks);
    y = shadows.bottom;
  });
  const foot = isoluxFoot(study, arrangements, y);
  const height = Math.ceil(foot.bottom);
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${height}" viewBox="0 0 ${WIDTH} ${height}" role="img" aria-label="${escapeText(summary(study, arrangements))}" font-family="${FONT}" font-variant-numeric="tabular-nums">
<title>${escapeText(study.title)}${ISOLUX_MARK}
<rect width="${WIDTH}" height="${height}" fill="${DAY.paper}"/>
${blocks.join("\n")}
${foot.svg}
</svg>
`;
}

/** What the people's own bodies take from their hands, in their usual posture, map beside map. */
function shadowMaps(shadows: readonly BodyShadow[], top: number): { blocks: string[]; bottom: number } {
  const blocks: string[] = [];
  let x = SHADOW_LEFT;
  let y = top;
  let tallest = 0;
  for (const shadow of shadows) {
    if (!shadow.usual) continue;
    const { svg, width, height, title } = bodyShadowMap(shadow, SHADOW_SCALE);
    if (x > SHADOW_LEFT && x + width > WIDTH) {
      x = SHADOW_LEFT;
      y += tallest;
      tallest = 0;
    }
    blocks.push(
      `<g transform="translate(${short(x)} ${short(y)})" role="img" aria-label="${escapeText(title)}">${svg}</g>`,
    );
    x += width;
    tallest = Math.max(tallest, height);
  }
  return { blocks, bottom: blocks.length === 0 ? top : y + tallest + 12 };
}

function summary(study: ResolvedStudy, arrangements: readonly JudgedArrangement[]): string {
  const unit = study.display.illuminance;
  return arrangements
    .map(
      ({ assessment }) =>
        `${assessment.name}: ${assessment.zones.map((zone) => zoneSentence(zone, unit)).join(" ")}`,
    )
    .join(" ");
}

function block(
  study: ResolvedStudy,
  judged: JudgedArrangement,
  id: string,
  values: boolean,
): { readonly svg: string; readonly height: number } {
  const { scene, assessment, clashes } = judged;
  const unit = study.display.illuminance;
  const { verdict } = assessment;
  const marks: Mark[] = [
    text([MARGIN, 18], printable(scene.name, 90), "arrangement", { ink: "ink", size: 18, strong: true }),
    text([WIDTH - MARGIN, 18], verdictWords(assessment, clashes), "verdict", {
      ink: VERDICT_INK[verdict],
      size: 15,
      strong: true,
      anchor: "end",
    }),
  ];
  let y = 40;
  const lit = litSettingWords(scene, assessment);
  if (lit !== undefined) y = paragraph(marks, `Lit as in ${lit}.`, y, "ink");
  for (const zone of assessment.zones) {
    marks.push(
      text([MARGIN, y], verdictMark(zone.verdict, clashes), "verdict", {
        ink: VERDICT_INK[zone.verdict],
        size: 13,
        strong: true,
      }),
    );
    y = paragraph(marks, zoneSentence(zone, unit), y, "ink");
  }
  const top = topPlane(scene);
  const headline = clashHeadline(clashes, study.display.length);
  if (headline !== undefined) y = paragraph(marks, headline, y, "ink");
  const patchy = patchyRemark(assessment);
  if (patchy !== undefined) {
    y = paragraph(marks, patchy, y, "quiet");
  }
  const place = top < 0 ? undefined : darkestPlace(scene.planes[top], assessment.planes[top].illuminance);
  if (place !== undefined) {
    const least = formatIlluminance(assessment.planes[top].statistics.minimum, unit);
    y = paragraph(marks, `The darkest spot is ${place}: ${least}.`, y, "quiet");
  }
  const plan = planOf(study, judged, top, id);
  const planTop = y - 2;
  y = planTop + plan.height;
  marks.push(...figures(judged, unit, top, y + 16));
  const numbers = values ? isoluxValues(judged, top, scaleOf(scene), unit, MARGIN) : undefined;
  const numbersTop = y + 48;
  return {
    svg: [
      marksSvg(marks),
      `<g transform="translate(0 ${short(planTop)})">\n${plan.svg}\n</g>`,
      ...(numbers === undefined
        ? []
        : [`<g transform="translate(0 ${short(numbersTop)})">\n${numbers.svg}\n</g>`]),
    ].join("\n"),
    height: numbers === undefined ? y + 40 : numbersTop + numbers.height,
  };
}

/** Words beside the plan, broken where the sheet ends; the y of what follows. */
function paragraph(marks: Mark[], words: string, y: number, ink: Ink): number {
  let at = y;
  for (const row of broken(printable(words, 600), WIDTH - 2 * MARGIN - 18, 13)) {
    marks.push(text([MARGIN + 18, at], row, "sentence", { ink, size: 13 }));
    at += 19;
  }
  return at;
}

function planOf(
  study: ResolvedStudy,
  judged: JudgedArrangement,
  top: number,
  id: string,
): { readonly svg: string; readonly height: number } {
  const { scene, assessment } = judged;
  const scale = scaleOf(scene);
  const words = wording(study.display);
  const dimensionWords = { ...words, length: (metres: number) => bothLengths(metres, study.display.length) };
  // People are drawn where they stand in the light, and nowhere else.
  const rows = pendantRows(scene, islandAxes(scene));
  const parts = { zones: true, people: assessment.method.people, dimensions: true, rows };
  const frame = planFrame(scene, scale, parts);
  const objects = planObjects(scene, scale, dimensionWords, parts, frame);
  const contour = contourOf(judged, scene.planes[top]);
  const luminaires = objects.luminaires.flatMap((each) => each.marks);
  const held = clashMarks(scene, judged.clashes, scale, frame, wordBoxes(objects.over));
  const light =
    contour === undefined
      ? ""
      : planLightSvg(
          islandLight(study, scene, {
            ...contour,
            unit: study.display.illuminance,
            scale,
            frame,
            taken: [...objects.taken, ...wordBoxes(held)],
            obstacles: lineObstacles([...objects.over, ...luminaires]),
          }),
          id,
        );
  return {
    svg: [
      light,
      marksSvg(objects.over, { halo: DAY.sheet }),
      marksSvg([...luminaires, ...held], { halo: DAY.sheet }),
      marksSvg(objects.around),
    ].join("\n"),
    height: frame.height,
  };
}

/** `2400 mm · 7'-10 1/2"`: a drawing is read by either trade. */
function bothLengths(metres: number, unit: LengthUnit): string {
  const other = unit === "ft-in" ? "mm" : "ft-in";
  return `${formatLength(metres, unit)} · ${formatLength(metres, other)}`;
}

function figures(
  { scene, assessment }: JudgedArrangement,
  unit: IlluminanceUnit,
  top: number,
  y: number,
): Mark[] {
  const assessed = assessment.planes[top];
  if (assessed === undefined) return [];
  const light = (lux: number): string => formatIlluminanceValue(lux, unit);
  const { average, uniformity } = assessed.statistics;
  const both = ofBothGrids(assessed);
  const extreme = (which: "minimum" | "maximum"): string =>
    `${light(assessed.statistics[which])}${both === undefined ? "" : ` (${light(both[which])})`}`;
  const part = (roles: readonly LayerRole[]): string =>
    light(averageOf(assessed.layers, scene.planes[top].weights, (layer) => roles.includes(layer.role)).both);
  const { watts, unknownWatts } = assessment.energy;
  const cells: readonly (readonly [string, string])[] = [
    ["whole top, average", `${light(average)} ${unit}`],
    ["minimum (both grids)", extreme("minimum")],
    ["maximum (both grids)", extreme("maximum")],
    ["evenness U₀", evennessText(uniformity)],
    ["pendants", `${part(["pendant"])} ${unit}`],
    ["recessed", `${part(["recessed"])} ${unit}`],
    ["power", `${powerFigure(watts, unknownWatts)} W`],
  ];
  const each = (WIDTH - 2 * MARGIN) / cells.length;
  return cells.flatMap(([name, value], i) => [
    text([MARGIN + i * each, y], name, "figure name", { size: 11.5 }),
    text([MARGIN + i * each, y + 17], value, "figure", { ink: "ink", size: 15, strong: true }),
  ]);
}
