/**
 * The profile as a drawing: total over its parts in different lines, targets by zone, least and most marked, names
 * at the ends that never collide.
 */

import type { Vec2 } from "../../geometry/vector.ts";
import type { LayerRole } from "../../scene/scene.ts";
import type { IlluminanceUnit } from "../../units/illuminance-text.ts";
import { LUX_PER_FOOTCANDLE } from "../../units/quantities.ts";
import type { Dash } from "./drawing.ts";
import {
  type Box,
  type Drawing,
  ellipse,
  type Ink,
  line,
  type Mark,
  overlaps,
  text,
  textBox,
  textWidth,
} from "./drawing.ts";
import { spreadLabels } from "./label-layout.ts";
import { highestOf, type Profile, type ProfileSeries, type TargetLine } from "./profile.ts";
import type { SheetScale } from "./sheet-scale.ts";
import type { Wording } from "./wording.ts";

const STYLE: Readonly<Record<LayerRole | "total", { dash: Dash; ink: Ink; weight: 1.5 | 1 }>> = {
  total: { dash: "solid", ink: "ink", weight: 1.5 },
  pendant: { dash: "dashed", ink: "luminaire", weight: 1 },
  recessed: { dash: "dotted", ink: "quiet", weight: 1.5 },
  accent: { dash: "eye line", ink: "quiet", weight: 1 },
  other: { dash: "eye line", ink: "ink", weight: 1 },
};

export interface ProfileFrame {
  readonly height: number;
  /** Highest value of the axis (lx). */
  readonly top: number;
  y(lux: number): number;
}

/** Vertical scale from zero to the first round figure above everything shown, in the unit shown. `held` (lx)
 * keeps an axis from jumping while a hand moves the light. */
export function profileFrame(
  highest: number,
  unit: IlluminanceUnit = "lx",
  height = 170,
  held?: number,
): ProfileFrame {
  const step = niceStep(Math.max(highest * 1.06, 20) / 4, unit === "fc");
  const own = Math.ceil((highest * 1.06) / step) * step;
  const top = held !== undefined && held >= highest ? held : own;
  const head = 14;
  const foot = 12;
  return { height, top, y: (lux) => height - foot - (lux / top) * (height - head - foot) };
}

export function profileDrawing(
  profile: Profile,
  targets: readonly TargetLine[],
  scale: SheetScale,
  words: Wording,
  frame: ProfileFrame = profileFrame(highestOf(profile, targets), words.illuminanceUnit),
): Drawing {
  const { y } = frame;
  const { x } = scale;
  const marks: Mark[] = [];
  const taken: Box[] = [];
  const step = niceStep(frame.top / 4.2, words.illuminanceUnit === "fc");
  const x0 = x(profile.along[0]);
  const x1 = x(profile.along[profile.along.length - 1]);
  for (let value = 0; value <= frame.top * 1.0001; value += step) {
    marks.push(
      line(
        [
          [scale.left, y(value)],
          [Math.max(x1, scale.right), y(value)],
        ],
        "grid line",
        value === 0 ? "quiet" : "hairline",
        0.75,
      ),
      text(
        [scale.left - 8, y(value) + 4],
        axisFigure(value, value + step > frame.top * 1.0001, words),
        "axis figure",
        {
          anchor: "end",
        },
      ),
    );
  }
  const curves = profile.series.map((s) => curve(profile, s, x, y));
  for (const points of curves) taken.push(...points.flatMap((part) => boxesAlong(part)));
  // Behind the total: the parts it is made of.
  [...profile.series].reverse().forEach((series, r) => {
    const style = STYLE[series.role];
    for (const part of curves[profile.series.length - 1 - r])
      marks.push(
        line(part, `${series.name} along the island`, style.ink, style.weight, { dash: style.dash }),
      );
  });
  const lines = targets.map((t) => ({
    x: x(t.from),
    y: y(t.value) - 1,
    width: x(t.to) - x(t.from),
    height: 2,
  }));
  marks.push(...extremes(profile, x, y, words, [...taken, ...lines], taken));
  marks.push(...targetMarks(targets, x, y, words, taken));
  marks.push(...endLabels(profile, curves, x1, scale, frame));
  return {
    width: scale.width,
    height: frame.height + (scale.width - x1 > 70 ? 0 : 18),
    marks: [
      line(
        [
          [x0, y(0)],
          [x0, y(0) + 4],
        ],
        "end of top",
        "ink",
        1,
      ),
      line(
        [
          [x1, y(0)],
          [x1, y(0) + 4],
        ],
        "end of top",
        "ink",
        1,
      ),
      ...marks,
    ],
    luminaires: [],
    summary: profileSummary(profile, targets, words),
  };
}

function curve(
  profile: Profile,
  series: ProfileSeries,
  x: (a: number) => number,
  y: (v: number) => number,
): Vec2[][] {
  const parts: Vec2[][] = [];
  let part: Vec2[] = [];
  series.values.forEach((value, i) => {
    if (Number.isFinite(value)) part.push([x(profile.along[i]), y(value)]);
    else if (part.length > 0) {
      parts.push(part);
      part = [];
    }
  });
  if (part.length > 0) parts.push(part);
  return parts;
}

function boxesAlong(points: readonly Vec2[]): Box[] {
  const boxes: Box[] = [];
  for (let i = 4; i < points.length; i += 4) {
    const [a, b] = [points[i - 4], points[i]];
    boxes.push({
      x: Math.min(a[0], b[0]),
      y: Math.min(a[1], b[1]) - 1,
      width: Math.abs(a[0] - b[0]),
      height: Math.abs(a[1] - b[1]) + 2,
    });
  }
  return boxes;
}

function extremes(
  profile: Profile,
  x: (a: number) => number,
  y: (v: number) => number,
  words: Wording,
  blocked: readonly Box[],
  taken: Box[],
): Mark[] {
  const { values } = profile.series[0];
  let low = -1;
  let high = -1;
  values.forEach((v, i) => {
    if (!Number.isFinite(v)) return;
    if (low < 0 || v < values[low]) low = i;
    if (high < 0 || v > values[high]) high = i;
  });
  if (low < 0) return [];
  const marks: Mark[] = [];
  for (const [i, name, above] of [
    [high, "max", true],
    [low, "min", false],
  ] as const) {
    const at: Vec2 = [x(profile.along[i]), y(values[i])];
    const first = i < 6;
    const last = i > values.length - 7;
    const anchor = first ? "start" : last ? "end" : "middle";
    const words_ = `${name} ${words.lightFigure(values[i])}`;
    const candidates = [above ? -8 : 17, above ? 17 : -8, above ? -22 : 31, 45, -36, 59].map((dy) =>
      text([at[0] + (first ? 6 : last ? -6 : 0), at[1] + dy], words_, `${name}imum`, {
        anchor,
        ink: "ink",
        strong: true,
        ground: "paper",
      }),
    );
    const label = candidates.find((c) => !blocked.some((b) => overlaps(textBox(c), b, 1))) ?? candidates[0];
    taken.push(textBox(label));
    marks.push(
      line(ellipse(at[0], at[1], 3, 3, 16), `${name}imum`, "ink", 1, {
        closed: true,
        fill: above ? "ink" : "paper",
      }),
      label,
    );
  }
  return marks;
}

function targetMarks(
  targets: readonly TargetLine[],
  x: (a: number) => number,
  y: (v: number) => number,
  words: Wording,
  taken: Box[],
): Mark[] {
  const marks: Mark[] = [];
  for (const target of targets) {
    const [x0, x1] = [x(target.from), x(target.to)];
    const at = y(target.value);
    marks.push(
      line(
        [
          [x0, at],
          [x1, at],
        ],
        "target",
        "meets",
        1.5,
      ),
      line(
        [
          [x0, at - 4],
          [x0, at + 4],
        ],
        "target",
        "meets",
        1,
      ),
      line(
        [
          [x1, at - 4],
          [x1, at + 4],
        ],
        "target",
        "meets",
        1,
      ),
    );
    const label = `${target.zone} ${words.light(target.value)}`;
    const options = [
      ...[-6, 15].flatMap((dy) => [
        text([x0 + 6, at + dy], label, "target", { ink: "meets", strong: true, ground: "paper" }),
        text([x1 - 6, at + dy], label, "target", {
          ink: "meets",
          strong: true,
          anchor: "end",
          ground: "paper",
        }),
        text([(x0 + x1) / 2, at + dy], label, "target", {
          ink: "meets",
          strong: true,
          anchor: "middle",
          ground: "paper",
        }),
      ]),
    ];
    const chosen = options.find((o) => !taken.some((b) => overlaps(textBox(o), b, 1))) ?? options[0];
    taken.push(textBox(chosen));
    marks.push(chosen);
  }
  return marks;
}

/** Names at the right end of their lines, pushed apart; under a narrow sheet they stand inside the field. */
function endLabels(
  profile: Profile,
  curves: readonly (readonly (readonly Vec2[])[])[],
  x1: number,
  scale: SheetScale,
  frame: ProfileFrame,
): Mark[] {
  const ends = curves.map((parts) => parts.at(-1)?.at(-1) ?? ([x1, frame.y(0)] as Vec2));
  const outside = scale.width - x1 > 70;
  if (!outside) return keyRow(profile, scale, frame);
  const at = x1 + 18;
  const wishes = ends.map((p) => p[1] + 4);
  const places = spreadLabels(wishes, 15, 12, frame.height - 8);
  const marks: Mark[] = [];
  profile.series.forEach((series, i) => {
    const style = STYLE[series.role];
    if (ends[i] !== undefined)
      marks.push(
        line(
          [
            [ends[i][0] + 2, ends[i][1]],
            [at - 4, places[i] - 4],
          ],
          "leader",
          style.ink,
          0.75,
        ),
      );
    marks.push(
      text([at, places[i]], series.name, "line name", {
        ink: style.ink,
        strong: series.role === "total",
      }),
    );
  });
  return marks;
}

/** Under a narrow sheet the names stand in a row beneath, each beside a sample of its line. */
function keyRow(profile: Profile, scale: SheetScale, frame: ProfileFrame): Mark[] {
  const y = frame.height + 12;
  let x = scale.left;
  return profile.series.flatMap((series) => {
    const style = STYLE[series.role];
    const marks: Mark[] = [
      line(
        [
          [x, y - 4],
          [x + 24, y - 4],
        ],
        "key",
        style.ink,
        style.weight,
        { dash: style.dash },
      ),
      text([x + 30, y], series.name, "line name", { ink: style.ink, strong: series.role === "total" }),
    ];
    x += 30 + textWidth(series.name, 11.5, series.role === "total") + 18;
    return marks;
  });
}

function profileSummary(profile: Profile, targets: readonly TargetLine[], words: Wording): string {
  const parts = profile.series.map((series) => {
    const finite = Array.from(series.values).filter(Number.isFinite);
    if (finite.length === 0) return `${series.name}: no light known.`;
    return `${series.name}: ${words.light(Math.min(...finite))} to ${words.light(Math.max(...finite))}.`;
  });
  const wanted = targets.map((t) => `${t.zone} wants ${words.light(t.value)}.`);
  return `Light along the island. ${[...parts, ...wanted].join(" ")}`;
}

/** 1, 2, 2.5 or 5 times a power of ten, in the unit shown. */
function niceStep(raw: number, footcandles: boolean): number {
  const unit = footcandles ? LUX_PER_FOOTCANDLE : 1;
  const value = raw / unit;
  const power = 10 ** Math.floor(Math.log10(value));
  const lead = [1, 2, 2.5, 5, 10].find((m) => m * power >= value * 0.999) ?? 10;
  return lead * power * unit;
}

function axisFigure(value: number, isTop: boolean, words: Wording): string {
  const figure = value === 0 ? "0" : words.lightFigure(value);
  return isTop ? `${figure} ${words.illuminanceUnit}` : figure;
}
