/** The people of the elevation: figures, and a line at the height of every eye. */

import { type Box, type Mark, segment, text, textWidth } from "./drawing.ts";
import { type ElevationPage, isShown, roomEnds } from "./elevation-scale.ts";
import { spreadLabels } from "./label-layout.ts";
import { figure } from "./person-figure.ts";

export function people({ scene, axes, scale, y }: ElevationPage): Mark[] {
  const marks: Mark[] = [];
  for (const person of scene.people) {
    const [eyeAlong] = axes.toIsland(person.eye);
    // A seated trunk is under its head, not over its feet.
    const [along] = person.posture === "seated" ? [eyeAlong] : axes.toIsland(person.at);
    if (!isShown(along, scale)) continue;
    // Where the air over the top is cut a figure is drawn smaller, not squat: its eye in its place, its own shape.
    const rise = Math.max(0.05, person.eye[2] - axes.height);
    const own = Math.min(scale.perMetre, (y(axes.height) - y(person.eye[2])) / rise);
    const eyeX = scale.x(eyeAlong);
    const shrunk = { perMetre: own, x: (a: number): number => eyeX + (a - eyeAlong) * own };
    const ownY = (z: number): number => y(person.eye[2]) + (person.eye[2] - z) * own;
    marks.push(...figure(person, along, eyeAlong, person.facing - axes.turn, axes.height, shrunk, ownY));
  }
  return marks;
}

/** @param figures boxes of the people, which words keep clear of where they can */
export function eyeLines({ scene, axes, scale, y, words }: ElevationPage, figures: readonly Box[]): Mark[] {
  if (scene.people.length === 0) return [];
  const marks: Mark[] = [];
  const [wall0, wall1] = roomEnds(scene, axes);
  const left = Math.max(scale.left, scale.x(wall0));
  const right = Math.min(scale.right, scale.x(wall1));
  const gap = left > scale.left ? 6 : 0;
  const eyes = scene.people.map((p) => y(p.eye[2]));
  // The end of the line where no one stands; in fewer words where somebody stands at both.
  const chosen = scene.people.map(({ name, eye }) => {
    const height = words.length(eye[2]);
    const ways = [`${name}, eye ${height}`, `${name} ${height}`, height].flatMap((label) =>
      [false, true].map((atRight) => ({ label, atRight })),
    );
    const isClear = ({ label, atRight }: (typeof ways)[number]): boolean => {
      const reach = textWidth(label, 11.5) + gap + 2;
      const from = atRight ? right - reach : left;
      return figures.every(({ x, width }) => from + reach <= x || from >= x + width);
    };
    return ways.find(isClear) ?? ways[0];
  });
  const longest = Math.max(...chosen.map(({ label }) => textWidth(label, 11.5)));
  const places = spreadLabels(
    eyes.map((e) => e - 5),
    14,
    y(scene.room.ceilingHeight) + 16,
    y(axes.height) - 3,
  );
  scene.people.forEach((_, i) => {
    const { label, atRight } = chosen[i];
    // No line runs through the words of its neighbour.
    const free = gap + longest + 6;
    const [start, end] = atRight ? [left, right - free] : [left + free, right];
    marks.push(
      segment(start, eyes[i], end, eyes[i], "eye line", "quiet", 0.75, { dash: "eye line" }),
      text([atRight ? right - gap : left + gap, places[i]], label, "eye height", {
        ground: "paper",
        anchor: atRight ? "end" : "start",
      }),
    );
  });
  return marks;
}
