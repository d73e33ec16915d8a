/**
 * How large an aligned sheet is drawn. The island's length and the width set the scale; the height is shared out so
 * that plan and profile always stand in it: profile and elevation take fixed shares, whatever hangs in them, the plan
 * the rest, and what a wide plan leaves goes back to the elevation. Nothing here depends on pendants, ceiling or light:
 * no edit of those changes a scale.
 */

import { islandAxes } from "../../drawing/island-axes.ts";
import { type PlanParts, planFrame } from "../../drawing/plan-objects.ts";
import { type SheetScale, sheetScale } from "../../drawing/sheet-scale.ts";
import type { Scene } from "../../scene/scene.ts";

/** Scale (px a metre) under which a sheet is scrolled rather than drawn whole, and which it is then drawn at. */
const SMALLEST_WHOLE = 120;
const SMALLEST = 150;
/** What stands between and beside the drawings (px): gaps, the profile's own margin, the reading under it. */
export const GAP = 4;
const BESIDE = 3 * GAP + 8 + 18;
/** Where people who sit or stand back from the top are drawn although that costs height, and where not (m). */
const FAR = 0.8;
const NEAR = 0.34;
/** What people may take beyond an edge where height is scarce (px); figures are cut there. */
const CUT = 24;
/** Shares of the height for profile and elevation, and their limits (px). */
const PROFILE = { share: 0.125, least: 84, most: 150 } as const;
const ELEVATION = { share: 0.24, least: 130, most: 460 } as const;

export interface SheetFit {
  readonly scale: SheetScale;
  /** Heights of profile and elevation (px). */
  readonly profile: number;
  readonly elevation: number;
  /** How far from the top people are drawn (m), and where they are cut (px beyond an edge). */
  readonly reach: number;
  readonly cut: number | undefined;
}

export interface SheetRoom {
  readonly width: number;
  /** Height for the drawings, from under the verdict (px). */
  readonly height: number;
  readonly parts: PlanParts;
  readonly hasElevation: boolean;
  /** Scale not to be exceeded (px a metre). */
  readonly largest: number;
}

export function fitSheet(scene: Scene, room: SheetRoom): SheetFit {
  const share = ({ share: part, least, most }: typeof PROFILE | typeof ELEVATION): number =>
    Math.round(Math.max(least, Math.min(most, part * room.height)));
  const profile = share(PROFILE);
  const elevation = room.hasElevation ? share(ELEVATION) : 0;
  const forPlan = room.height - profile - elevation - BESIDE;
  const widest = scaleOf(scene, room, room.largest);
  const far = { reach: FAR, cut: undefined };
  const near = { reach: NEAR, cut: CUT };
  const planHeight = (scale: SheetScale, people: Pick<SheetFit, "reach" | "cut">): number =>
    planFrame(scene, scale, { ...room.parts, ...people }).height;
  const isRoomy = planHeight(widest, far) <= forPlan;
  const people = isRoomy ? far : near;
  // What surrounds the top in plan is of fixed heights but for people, who are cut.
  const { width } = islandAxes(scene);
  let scale = widest;
  for (let i = 0; i < 3 && planHeight(scale, people) > forPlan; i++) {
    const around = planHeight(scale, people) - width * scale.perMetre;
    scale = scaleOf(scene, room, Math.max(1, (forPlan - around) / width));
  }
  if (scale.perMetre < Math.min(SMALLEST_WHOLE, widest.perMetre))
    return {
      scale: scaleOf(scene, room, Math.min(SMALLEST, room.largest)),
      profile: PROFILE.least + 26,
      elevation: room.hasElevation ? ELEVATION.least : 0,
      ...near,
    };
  const spare = Math.max(0, forPlan - planHeight(scale, people));
  return {
    scale,
    profile: Math.min(PROFILE.most, profile + Math.round(spare / 3)),
    elevation: room.hasElevation ? elevation + Math.floor((2 * spare) / 3) : 0,
    ...people,
  };
}

/** Height of the drawings of a fit (px), without the profile where it is left out. */
export function sheetHeight(scene: Scene, fit: SheetFit, { parts }: Pick<SheetRoom, "parts">): number {
  const { scale, profile, elevation, reach, cut } = fit;
  return elevation + planFrame(scene, scale, { ...parts, reach, cut }).height + profile + BESIDE;
}

function scaleOf(scene: Scene, room: SheetRoom, largest: number): SheetScale {
  return sheetScale(islandAxes(scene), room.width, { largest });
}
