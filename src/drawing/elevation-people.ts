/** The people of the elevation: figures, and a line at the height of every eye. */

import { type Mark, segment, text, textWidth } from "./drawing.ts";
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

export function eyeLines({ scene, axes, scale, y, words }: ElevationPage): Mark[] {
  if (scene.people.length === 0) return [];
  const marks: Mark[] = [];
  const [wall0, wall1] = roomEnds(scene, axes);
  const left = Math.max(scale.left, scale.x(wall0));
  const right = Math.min(scale.right, scale.x(wall1));
  const gap = left > scale.left ? 6 : 0;
  const eyes = scene.people.map((p) => y(p.eye[2]));
  const labels = scene.people.map(({ name, eye }) => `${name}, eye ${words.length(eye[2])}`);
  const longest = Math.max(...labels.map((label) => textWidth(label, 11.5)));
  const places = spreadLabels(
    eyes.map((e) => e - 5),
    14,
    y(scene.room.ceilingHeight) + 16,
    y(axes.height) - 3,
  );
  scene.people.forEach((_, i) => {
    const label = labels[i];
    // The end of the line where no one stands.
    const reach = textWidth(label, 11.5) + 12;
    const alongs = scene.people.map((p) => scale.x(axes.toIsland(p.at)[0]));
    const crowdedLeft = alongs.some((x) => Math.abs(x - left - reach / 2) < reach / 2 + 0.2 * scale.perMetre);
    const crowdedRight = alongs.some(
      (x) => Math.abs(right - reach / 2 - x) < reach / 2 + 0.2 * scale.perMetre,
    );
    const atRight = crowdedLeft && !crowdedRight;
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
