/** The people of the elevation: figures, and a line at the height of every eye. */

import { type Box, type Mark, overlaps, segment, text, textBox } from "./drawing.ts";
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
  const places = spreadLabels(
    eyes.map((e) => e - 5),
    14,
    y(scene.room.ceilingHeight) + 16,
    y(axes.height) - 3,
  );
  // At the end of the line where no one stands; in fewer words where somebody stands at both.
  const labels = scene.people.map(({ name, eye }, i) => {
    const height = words.length(eye[2]);
    const tried = [`${name}, eye ${height}`, `${name} ${height}`, height].flatMap((said) =>
      (["start", "end"] as const).map((anchor) =>
        text([anchor === "end" ? right - gap : left + gap, places[i]], said, "eye height", {
          ground: "paper",
          anchor,
        }),
      ),
    );
    return tried.find((word) => !figures.some((box) => overlaps(box, textBox(word)))) ?? tried[0];
  });
  // No line runs through the words of its neighbour.
  const free = gap + Math.max(...labels.map((label) => textBox(label).width)) + 6;
  labels.forEach((label, i) => {
    const [start, end] = label.anchor === "end" ? [left, right - free] : [left + free, right];
    marks.push(segment(start, eyes[i], end, eyes[i], "eye line", "quiet", 0.75, { dash: "eye line" }), label);
  });
  return marks;
}
