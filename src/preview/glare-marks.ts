/** Luminaires that may dazzle an eye: where they stand in the picture, and how bright they are. */

import { html, type TemplateResult } from "lit";
import { type Camera, Vector3 } from "three";
import { seenLuminaire } from "../advice/glare/seen-luminaire.ts";
import type { Vec3 } from "../geometry/vector.ts";
import { maintainedShare } from "../scene/maintained.ts";
import type { Scene } from "../scene/scene.ts";
import { placedAt } from "./placed-at.ts";

/** Brighter than this is marked (cd/m²); common practice for screens and task work, no source. */
export const MARKED_FROM = 3000;

export interface GlareMark {
  readonly at: Vec3;
  readonly luminance: number;
  /** False where the figure is a mean over the opening: a lamp in sight can be 10 to 100 times brighter. */
  readonly exact: boolean;
}

export function glareMarks(scene: Scene, eye: Vec3): GlareMark[] {
  return scene.layers
    .flatMap(({ luminaires, dim }) =>
      luminaires.map((placed): GlareMark => {
        const { luminance, what } = seenLuminaire(placed, eye, maintainedShare(scene, { dim }));
        return { at: placed.frame.origin, luminance, exact: what !== "mean over the opening" };
      }),
    )
    .filter(({ luminance }) => luminance >= MARKED_FROM);
}

/** The marks as words on a picture from that eye. */
export function glareLabels(scene: Scene, eye: Vec3, camera: Camera): TemplateResult[] {
  return glareMarks(scene, eye).flatMap(({ at, luminance, exact }) => {
    const p = new Vector3(...at).project(camera);
    if (p.z > 1 || Math.abs(p.x) > 1 || Math.abs(p.y) > 1) return [];
    const left = `${((p.x + 1) / 2) * 100}%`;
    const top = `${((1 - p.y) / 2) * 100}%`;
    const value = Number(luminance.toPrecision(2)).toLocaleString("en");
    return [html`<span class="glare" ${placedAt(left, top)}>${exact ? "" : "mean "}${value} cd/m²</span>`];
  });
}
