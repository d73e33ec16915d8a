/** What is marked on a profile: its least and greatest value, and the targets of the zones, in words that give way. */

import { ellipse } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Wording } from "../words/wording.ts";
import { type Box, line, type Mark, overlaps, segment, type TextMark, text, textBox } from "./drawing.ts";
import type { Profile, TargetLine } from "./profile.ts";

/** Costs of a place of words: over words or marks of luminaires, over a piece of a line, led to their line from afar, shortened. */
const COST = { taken: 200, line: 30, led: 25, short: 35, others: 80 } as const;

function crossed(option: TextMark, boxes: readonly Box[]): number {
  return boxes.filter((box) => overlaps(textBox(option), box, 1)).length;
}

/** @param lines boxes along lines, which names keep clear of where they can @param isWide whether there is room to say of which line they are */
export function extremes(
  profile: Profile,
  x: (a: number) => number,
  y: (v: number) => number,
  words: Wording,
  lines: readonly Box[],
  taken: Box[],
  isWide: boolean,
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
    // The least of the whole top mostly lies elsewhere; the greatest is under the pendants, as this line is.
    const where = above || !isWide ? "" : " along the middle";
    const short = `${name} ${words.lightFigure(values[i])}`;
    const style = { ink: "ink", strong: true, ground: "paper" } as const;
    const candidates = [...new Set([`${short}${where}`, short])].flatMap((said) => [
      ...[above ? -8 : 17, above ? 17 : -8, above ? -22 : 31, 45, -36, 59].map((dy) =>
        text([at[0] + (first ? 6 : last ? -6 : 0), at[1] + dy], said, `${name}imum`, { ...style, anchor }),
      ),
      // At an end of the line there is room beside it.
      ...(first ? [text([at[0] - 7, at[1] + 4], said, `${name}imum`, { ...style, anchor: "end" })] : []),
    ]);
    const label = leastOf(
      candidates.filter((each) => textBox(each).x >= 0),
      (each) =>
        COST.taken * crossed(each, taken) +
        COST.line * crossed(each, lines) +
        (isLed(each, at[1]) ? COST.led : 0) +
        (each.text === short && where !== "" ? COST.short : 0),
    );
    taken.push(textBox(label));
    if (isLed(label, at[1]))
      marks.push(
        segment(
          at[0],
          at[1],
          label.at[0],
          label.at[1] + (label.at[1] < at[1] ? 3 : -11),
          "leader",
          "ink",
          0.75,
        ),
      );
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
    const others = targets
      .filter(({ value }) => value !== target.value)
      .map((each) => ({ from: x(each.from), to: x(each.to), y: y(each.value) }));
    const isAtOwn = (option: TextMark): boolean => {
      const box = textBox(option);
      const away = (line: number): number => Math.max(box.y - line, line - box.y - box.height, 0);
      return others.every(
        (other) => other.to < box.x || other.from > box.x + box.width || away(other.y) > away(at),
      );
    };
    const cost = (option: TextMark): number =>
      COST.taken * crossed(option, taken) +
      COST.line * Math.min(1, crossed(option, curves)) +
      (isLed(option, at)
        ? COST.led + COST.taken * struck(option, at, taken)
        : isAtOwn(option)
          ? 0
          : COST.others);
    const chosen = leastOf(optionsAlong(x0, x1, at, label), cost);
    taken.push(textBox(chosen));
    const [wordX] = chosen.at;
    if (isLed(chosen, at))
      marks.push(segment(wordX, leaderFrom(chosen, at), wordX, at, "leader", "meets", 0.75));
    marks.push(chosen);
  }
  return marks;
}

/** Places of a name along its line: over and under it from either end and between, then farther off. */
function optionsAlong(x0: number, x1: number, at: number, label: string): TextMark[] {
  const style = { ink: "meets", strong: true, ground: "paper" } as const;
  return [-6, 15, -14, 23, -27, 36, -40, 49].flatMap((dy) => [
    text([x0 + 6, at + dy], label, "target", style),
    text([x1 - 6, at + dy], label, "target", { ...style, anchor: "end" }),
    ...[1 / 2, 1 / 3, 2 / 3, 1 / 5, 4 / 5].map((share) =>
      text([x0 + share * (x1 - x0), at + dy], label, "target", { ...style, anchor: "middle" }),
    ),
  ]);
}

/** Where the leader of a name begins, and how many words it strikes on its way to its line. */
function leaderFrom({ at: [, y] }: TextMark, line: number): number {
  return y < line ? y + 3 : y - 11;
}

function struck(option: TextMark, line: number, boxes: readonly Box[]): number {
  const [x] = option.at;
  const from = leaderFrom(option, line);
  const leader = { x, y: Math.min(from, line), width: 0, height: Math.abs(line - from) };
  return boxes.filter((box) => overlaps(leader, box, 1)).length;
}

/** Whether a name stands so far from its line that it needs a leader to it. */
function isLed({ at: [, y] }: TextMark, line: number): boolean {
  return Math.abs(y - line) > 24;
}

/** The first of those that cost least. */
function leastOf<T>(options: readonly T[], cost: (option: T) => number): T {
  const costs = options.map(cost);
  return options[costs.indexOf(Math.min(...costs))];
}
