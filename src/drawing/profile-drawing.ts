/**
 * The profile as a drawing: total over its parts in different lines, targets by zone, least and most marked, names
 * at the ends that never collide.
 */

import type { Vec2 } from "../geometry/vector.ts";
import type { Wording } from "../words/wording.ts";
import { type Box, type Drawing, line, type Mark, segment, text, wordBoxes } from "./drawing.ts";
import { withoutCollisions } from "./label-layout.ts";
import { highestOf, type Profile, type TargetLine } from "./profile.ts";
import { axisFigure, niceStep, type ProfileFrame, profileFrame } from "./profile-frame.ts";
import { curve, endLabels, STYLE } from "./profile-lines.ts";
import { extremes, targetMarks } from "./profile-marks.ts";
import type { SheetScale } from "./sheet-scale.ts";

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
      segment(
        scale.left,
        y(value),
        Math.max(x1, scale.right),
        y(value),
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
  const ink = curves.flatMap((points) => points.flatMap((part) => boxesAlong(part)));
  // Behind the total: the parts it is made of.
  [...profile.series].reverse().forEach((series, r) => {
    const style = STYLE[series.role];
    for (const part of curves[profile.series.length - 1 - r])
      marks.push(line(part, "profile line", style.ink, style.weight, { dash: style.dash }));
  });
  const lines = targets.map((t) => ({
    x: x(t.from),
    y: y(t.value) - 1,
    width: x(t.to) - x(t.from),
    height: 2,
  }));
  // Its least is of this line alone, and a zone's of all its face.
  const caption = text([x1 - 6, frame.height - 1], "light along the middle of the top", "profile caption", {
    anchor: "end",
    ground: "paper",
  });
  // Where there is little room, names of targets come first.
  const isWide = scale.width >= 560;
  if (isWide) marks.push(caption);
  // Marks of the luminaires stand on the line of nothing.
  const foot = { x: x0, y: y(0) - 9, width: x1 - x0, height: 9 };
  const ends = endLabels(profile, curves, x1, scale, frame);
  taken.push(foot, ...wordBoxes([...marks, ...ends]));
  marks.push(...extremes(profile, x, y, words, [...ink, ...lines], taken, isWide));
  marks.push(...targetMarks(targets, x, y, words, ink, taken));
  if (!isWide) marks.push(caption);
  marks.push(...ends);
  const height = frame.height + (scale.width - x1 > 70 ? 0 : 21);
  return {
    width: scale.width,
    height,
    marks: [
      segment(x0, y(0), x0, y(0) + 4, "end of top", "ink", 1),
      segment(x1, y(0), x1, y(0) + 4, "end of top", "ink", 1),
      ...withoutCollisions(marks, { width: scale.width, height }),
    ],
    luminaires: [],
    summary: profileSummary(profile, targets, words),
  };
}

function boxesAlong(points: readonly Vec2[]): Box[] {
  const boxes: Box[] = [];
  for (let i = 0; i + 1 < points.length; i += 4) {
    const [a, b] = [points[i], points[Math.min(i + 4, points.length - 1)]];
    boxes.push({
      x: Math.min(a[0], b[0]),
      y: Math.min(a[1], b[1]) - 1,
      width: Math.abs(a[0] - b[0]),
      height: Math.abs(a[1] - b[1]) + 2,
    });
  }
  return boxes;
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
