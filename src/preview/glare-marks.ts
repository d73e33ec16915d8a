/** Luminaires that may dazzle an eye: where they stand in the picture, and how bright they are. */

import { html, type TemplateResult } from "lit";
import { type Camera, Vector3 } from "three";
import { seenLuminaire } from "../advice/glare/seen-luminaire.ts";
import { pointToRoom } from "../geometry/frame.ts";
import type { Vec3 } from "../geometry/vector.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { maintainedShare } from "../scene/maintained.ts";
import type { Scene } from "../scene/scene.ts";
import { placedAt } from "./placed-at.ts";

/** Brighter than this is marked (cd/m²); common practice for screens and task work, no source. */
export const MARKED_FROM = 3000;

export interface GlareMark {
  readonly at: Vec3;
  /** Of the box around its opening (m). */
  readonly corners: readonly Vec3[];
  readonly luminance: number;
  /** False where the figure is a mean over the opening: a lamp in sight can be 10 to 100 times brighter. */
  readonly exact: boolean;
}

export function glareMarks(scene: Scene, eye: Vec3): GlareMark[] {
  return scene.layers
    .flatMap(({ luminaires, dim }) =>
      luminaires.map((placed): GlareMark => {
        const { luminance, what } = seenLuminaire(placed, eye, maintainedShare(scene, { dim }));
        return {
          at: placed.frame.origin,
          corners: cornersOf(placed),
          luminance,
          exact: what !== "mean over the opening",
        };
      }),
    )
    .filter(({ luminance }) => luminance >= MARKED_FROM);
}

/** Size of the words (CSS pixels): along by their letters, up from the place to their upper edge; a line of them. */
const WORDS = { letter: 6, around: 14, up: 34, line: 24 };

/** The marks of what is at least in part in the picture from that eye, as words that stand whole within it (CSS pixels),
 * none over another. */
export function glareLabels(
  scene: Scene,
  eye: Vec3,
  camera: Camera,
  { width, height }: { readonly width: number; readonly height: number },
): TemplateResult[] {
  const taken: { readonly x: number; readonly y: number; readonly half: number }[] = [];
  return glareMarks(scene, eye).flatMap(({ at, corners, luminance, exact }) => {
    if (!isInPicture(corners, camera)) return [];
    const words = `${exact ? "" : "mean "}${luminanceText(luminance)} cd/m²`;
    const half = (WORDS.letter * words.length + WORDS.around) / 2;
    const place = new Vector3(...at).project(camera);
    const x = Math.max(half, Math.min(width - half, (width * (1 + place.x)) / 2));
    let y = Math.max(WORDS.up, Math.min(height, (height * (1 - place.y)) / 2));
    const isTaken = (): boolean =>
      taken.some((other) => Math.abs(other.x - x) < other.half + half && Math.abs(other.y - y) < WORDS.line);
    while (isTaken() && y + WORDS.line <= height) y += WORDS.line;
    taken.push({ x, y, half });
    return [html`<span class="glare" ${placedAt(`${x}px`, `${y}px`)}>${words}</span>`];
  });
}

/** A luminance (cd/m²) by two figures, which is what it means. */
export function luminanceText(luminance: number): string {
  return `${Number(luminance.toPrecision(2))}`;
}

/** Whether a box of these corners, all of them before the eye, reaches into the picture. */
function isInPicture(corners: readonly Vec3[], camera: Camera): boolean {
  const seen = corners.map((corner) => new Vector3(...corner).project(camera));
  const reaches = (along: (p: Vector3) => number): boolean =>
    Math.min(...seen.map(along)) < 1 && Math.max(...seen.map(along)) > -1;
  return seen.every(({ z }) => Math.abs(z) <= 1) && reaches(({ x }) => x) && reaches(({ y }) => y);
}

/** Corners of the box around a luminaire's opening (m). */
function cornersOf({ luminaire, frame }: PlacedLuminaire): Vec3[] {
  const { length, width, height } = luminaire.emission.opening;
  const ends = [-0.5, 0.5];
  return ends.flatMap((a) =>
    ends.flatMap((b) => ends.map((c) => pointToRoom(frame, [a * length, b * width, c * height]))),
  );
}
