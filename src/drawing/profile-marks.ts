/** What is marked on a profile: its least and greatest value, and the targets of the zones, in words that give way. */

import type { Vec2 } from "../geometry/vector.ts";
import type { Wording } from "../words/wording.ts";
import {
  type Box,
  ellipse,
  line,
  type Mark,
  overlaps,
  segment,
  type TextMark,
  text,
  textBox,
} from "./drawing.ts";
import type { Profile, TargetLine } from "./profile.ts";

export function extremes(
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

/** @param curves boxes along the lines of light, which names keep clear of where they can and stay at their own target */
export function targetMarks(
  targets: readonly TargetLine[],
  x: (a: number) => number,
  y: (v: number) => number,
  words: Wording,
  curves: readonly Box[],
  taken: Box[],
): Mark[] {
  const marks: Mark[] = [];
  for (const target of targets) {
    const [x0, x1] = [x(target.from), x(target.to)];
    const at = y(target.value);
    marks.push(
      segment(x0, at, x1, at, "target", "meets", 1.5),
      segment(x0, at - 4, x0, at + 4, "target", "meets", 1),
      segment(x1, at - 4, x1, at + 4, "target", "meets", 1),
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
    const others = targets
      .filter(({ value }) => value !== target.value)
      .map((each) => ({ from: x(each.from), to: x(each.to), y: y(each.value) }));
    const isFree = (option: TextMark, boxes: readonly Box[]): boolean =>
      !boxes.some((box) => overlaps(textBox(option), box, 1));
    const isAtOwn = (option: TextMark): boolean => {
      const box = textBox(option);
      const away = (line: number): number => Math.max(box.y - line, line - box.y - box.height, 0);
      return others.every(
        (other) => other.to < box.x || other.from > box.x + box.width || away(other.y) > away(at),
      );
    };
    const own = options.filter((option) => isFree(option, taken) && isAtOwn(option));
    const chosen =
      own.find((option) => isFree(option, curves)) ??
      own[0] ??
      options.find((option) => isFree(option, [...taken, ...curves])) ??
      options[0];
    taken.push(textBox(chosen));
    marks.push(chosen);
  }
  return marks;
}
