/**
 * Number, size and gap in one look: what so many pendants of such a width would give over this island, before anything
 * is drawn. Equal bays, the clearance, lamp flux and other layers of the arrangement at hand.
 *
 * Light by superposition (`superposed-light.ts`); a width scales the pendant as a whole (`luminaire/scaled.ts`), so the
 * flux that leaves it is taken as the same. Rules of thumb that agree are counted among those that speak of such a row.
 */

import { statistics } from "../assessment/statistics.ts";
import { highestPoint } from "../luminaire/extent.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { scaledLuminaire } from "../luminaire/scaled.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import type { Scene } from "../scene/scene.ts";
import { hungRow, stationsAbout } from "../scene/with-hanging.ts";
import { METRES_PER_INCH } from "../units/quantities.ts";
import { rulesAgreeing } from "./guidelines/cards.ts";
import { pendantRow } from "./pendant-row.ts";
import type { SuperposedLight } from "./superposed-light.ts";

export interface CountSizeCell {
  readonly count: number;
  /** Rim width of each (m). */
  readonly width: number;
  /** Free between rims, undefined for one; from the outer rims to the ends (m). */
  readonly gap?: number;
  readonly end: number;
  /** On the whole top, maintained (lx; ratio). */
  readonly average: number;
  readonly uniformity: number;
  readonly agree: number;
  readonly apply: number;
  /** Whether it is the count and width of the arrangement at hand, in its own places. */
  readonly asDrawn: boolean;
}

export interface CountSizeTable {
  readonly counts: readonly number[];
  /** m */
  readonly widths: readonly number[];
  readonly clearance: number;
  /** Those that fit, by width, then by count. */
  readonly cells: readonly CountSizeCell[];
}

/** Common sizes of pendants (in). */
const SIZES = [6, 8, 10, 12, 14, 16, 18, 20, 24];
const COUNTS = [1, 2, 3, 4, 5, 6];
/** A size within this of the pendant at hand is that pendant (m). */
const SAME_SIZE = 0.013;
/** Least gap between rims that is worth a line (m), 6 in. */
const LEAST_GAP = 0.15;

/** Undefined without a row of one kind of pendant that has a width, or for a linear one. */
export function countSizeTable(
  scene: Scene,
  plane: CalculationPlane,
  light: SuperposedLight,
): CountSizeTable | undefined {
  const row = pendantRow(scene);
  if (row === undefined || row.mixed || row.linear || !(row.rim > 0)) return undefined;
  const { island, layer, rim, clearance } = row;
  const rotation = scene.layers[layer].luminaires[0].frame.rotation;
  const widths = SIZES.map((size) => size * METRES_PER_INCH)
    .filter((width) => Math.abs(width - rim) > SAME_SIZE)
    .concat(rim)
    .sort((a, b) => a - b);
  const cells = widths.flatMap((width): CountSizeCell[] => {
    const sized: Luminaire = scaledLuminaire(row.luminaire, width / rim);
    return COUNTS.flatMap((count): CountSizeCell[] => {
      const bay = island.length / count;
      if (bay - width < (count === 1 ? 0 : LEAST_GAP)) return [];
      const stations = stationsAbout(island.length / 2, count, bay);
      const asDrawn =
        count === row.count &&
        width === rim &&
        stations.every((x, i) => Math.abs(x - row.stations[i]) < 1e-3);
      const places = stations.map((x) => [x, row.across] as const);
      const luminaires = hungRow(island, sized, rotation, { places, clearance });
      const top = highestPoint(sized, rotation);
      if (luminaires.some(({ frame: { origin: o } }) => o[2] + top > ceilingAt(scene.room, o[0], o[1])))
        return [];
      const changed = {
        ...scene,
        layers: scene.layers.map((each, l) => (l === layer ? { ...each, luminaires } : each)),
      };
      const { average, uniformity } = statistics(light.of(changed), plane.weights);
      const { agree, apply } = rulesAgreeing(changed);
      return [
        {
          count,
          width,
          ...(count === 1 ? {} : { gap: bay - width }),
          end: (bay - width) / 2,
          average,
          uniformity,
          agree,
          apply,
          asDrawn,
        },
      ];
    });
  });
  return { counts: COUNTS.filter((n) => cells.some(({ count }) => count === n)), widths, clearance, cells };
}
