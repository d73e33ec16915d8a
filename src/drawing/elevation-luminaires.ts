/** Luminaires of an elevation: canopy, drop and body in true profile, or the opening in the ceiling. */

import { rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { canopySize } from "../luminaire/product-facts.ts";
import { ceilingPoints } from "../luminaire/suspension-points.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import { dropOf, hangs, isUnderBody } from "../scene/suspended.ts";
import { type LuminaireMarks, line, type Mark, segment } from "./drawing.ts";
import { doubleStroke } from "./elevation-dimensions.ts";
import { type ElevationPage, isCut, isShown } from "./elevation-scale.ts";
import { placeOf, placeOnTop } from "./island-axes.ts";
import { recessedMarks } from "./recessed-marks.ts";
import { halfWidth, profileFrom } from "./silhouette.ts";

/** A body is drawn true only where it leaves its canopy and cord so much (drawing units). */
const LEAST_DROP = 16;

/** The marks of one luminaire; undefined when it is off the sheet. */
export function luminaireMarks(
  { scene, axes, scale, y, extent }: ElevationPage,
  l: number,
  i: number,
): LuminaireMarks | undefined {
  const layer = scene.layers[l];
  const placed = layer.luminaires[i];
  const { along, height } = placeOf(axes, placed.frame.origin);
  if (!isShown(along, scale)) return undefined;
  // Of what is fixed under a wall unit or hood only that over the island is in this elevation.
  const isFixed = isUnderBody(scene, placed);
  if (isFixed && placeOnTop(axes, placed.frame.origin) === undefined) return undefined;
  const { luminaire } = placed;
  const x = scale.x(along);
  const ceiling = y(ceilingAt(scene.room, placed.frame.origin[0], placed.frame.origin[1]));
  const [low, high] = verticalExtent(luminaire);
  const marks: Mark[] = [];
  const label = `${layer.name} ${i + 1}`;
  if (!hangs(scene, layer, placed)) {
    const half = Math.max(4, halfWidth(luminaire) * scale.perMetre);
    const depth = -dropOf(scene, placed);
    const up = luminaire.body ? Math.min(extent.head - 2, depth * scale.perMetre) : 0;
    marks.push(...recessedMarks(x, ceiling, { half, up, ink: "luminaire" }));
    if (up > 2 && isCut(depth, up, scale))
      marks.push(...doubleStroke(x, ceiling - up / 2, half + 5, "luminaire"));
    return { layer: l, index: i, label, marks, handle: { x: x - 12, y: ceiling - 4, width: 24, height: 24 } };
  }
  // Hung by its rim and drawn true, though a hand holds it where air is cut; shorter only where it is too high.
  const rim = y(height + low);
  const trueTop = rim - (high - low) * scale.perMetre;
  const bodyTop = extent.areBodiesCut || trueTop < ceiling + LEAST_DROP ? y(height + high) : trueTop;
  const isBodyCut = isCut(high - low, rim - bodyTop, scale);
  const up = isBodyCut ? (rim - bodyTop) / (high - low) : scale.perMetre;
  const rod = luminaire.suspension === "rod";
  // The canopy is where the box is; what else it hangs by starts at the bare ceiling.
  ceilingPoints(placed).forEach((point, k) => {
    const at = scale.x(axes.toIsland(point)[0]);
    const bare = ceilingAt(scene.room, ...point);
    let cordTop = y(bare);
    const isShort = isCut(bare - height - high, bodyTop - cordTop, scale);
    if (k === 0) {
      const { canopy, foot } = canopyMark(luminaire, at, cordTop, scale.perMetre, extent.drop.cut ? 0.7 : 1);
      marks.push(canopy);
      cordTop = foot;
    }
    if (isShort && bodyTop - cordTop > 8) {
      const middle = cordTop + Math.min(14, (bodyTop - cordTop) / 2);
      marks.push(...cord(at, cordTop, middle - 2.5, rod), ...cord(at, middle + 2.5, bodyTop, rod));
      marks.push(...doubleStroke(at, middle, 5, "luminaire"));
    } else marks.push(...cord(at, cordTop, bodyTop, rod));
  });
  const outline = profileFrom(
    placed,
    axes.turn,
    (s, z): Vec2 => [x + s * scale.perMetre, rim - (z - low) * up],
  );
  marks.push(line(outline, "pendant body", "luminaire", 1.5, { closed: true, fill: "sheet" }));
  if (isBodyCut) {
    const past = halfWidth(luminaire) * scale.perMetre + 5;
    marks.push(...doubleStroke(x, (rim + bodyTop) / 2, past, "luminaire"));
  }
  const half = Math.max(12, halfWidth(luminaire) * scale.perMetre);
  return {
    layer: l,
    index: i,
    label,
    marks,
    handle: {
      x: x - half,
      y: Math.min(bodyTop, rim - 24),
      width: 2 * half,
      height: Math.max(24, rim - bodyTop),
    },
  };
}

/** The canopy under the ceiling, and where the cord leaves it; never thinner than can be seen. */
export function canopyMark(
  luminaire: Luminaire,
  x: number,
  ceiling: number,
  perMetre: number,
  shortened = 1,
): { readonly canopy: Mark; readonly foot: number } {
  const { diameter, height } = canopySize(luminaire);
  const half = (Math.max(diameter, 0.03) / 2) * perMetre;
  const foot = ceiling + Math.max(3, height * perMetre * shortened);
  const outline = rectangleBetween(x - half, ceiling, x + half, foot);
  return { canopy: line(outline, "canopy", "luminaire", 1, { closed: true, fill: "luminaire" }), foot };
}

function cord(x: number, y0: number, y1: number, rod: boolean): Mark[] {
  if (y1 <= y0) return [];
  const at = (dx: number): Mark =>
    segment(x + dx, y0, x + dx, y1, rod ? "rod" : "cord", "luminaire", rod ? 0.75 : 1);
  return rod ? [at(-1.5), at(1.5)] : [at(0)];
}
