/**
 * How far each layer may be dimmed before a zone gets less than it asks for.
 *
 *   minimise Σ_z (Σ_l d_l Ē_l,z − T_z)²  with l ≤ d ≤ 1, then raised to what every zone needs; l is a tenth for pendants,
 *   which nobody hangs to leave dark, else nothing
 *
 * Ē_l,z mean light of layer l at full output on zone z (lx), T_z the target with room for its doubt. What comes out is
 * a proposal; the full check judges it with the dimmers' own doubt.
 */

import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import { statistics } from "../../assessment/statistics.ts";
import { nonnegativeLeastSquares } from "../../numerics/nonnegative-least-squares.ts";
import type { Scene } from "../../scene/scene.ts";

/** Dimmers are set by the twentieth. */
const NOTCH = 0.05;
const LEAST = 0.1;
/** Room for the doubt of the dimmed light, beside the factor found for the undimmed. */
const ROOM = 1.02;

/** Dimming of each layer (0…1) that still gives every zone its average; undefined where no zone asks for one or no
 * layer can be dimmed. */
export function dimming(scene: Scene, assessment: ArrangementAssessment): number[] | undefined {
  const a: number[][] = [];
  const b: number[] = [];
  for (const { plane: name, checks } of assessment.zones) {
    const plane = assessment.planes.find((each) => each.name === name);
    const index = scene.planes.findIndex((each) => each.name === name);
    const check = checks.find(
      ({ quantity, statistic }) => quantity === "illuminance" && statistic === "average",
    );
    if (plane === undefined || index < 0 || check === undefined || !(check.value > 0)) continue;
    const undo = check.nature === "initial" && scene.maintenance > 0 ? 1 / scene.maintenance : 1;
    const means = plane.layers.map(({ direct, interreflected }, l) => {
      const field = direct.map((value, i) => value + (interreflected[i] ?? 0));
      const { dim } = scene.layers[l];
      return dim > 0 ? (undo * statistics(field, scene.planes[index].weights).average) / dim : 0;
    });
    // The same factor between figure and the low end of its interval as now, and a little for the dimmers.
    const [lo] = check.band ?? [check.value];
    const need = (check.target * check.value * ROOM) / Math.max(lo, 1e-9);
    a.push(means.map((mean) => mean / need));
    b.push(1);
  }
  if (a.length === 0) return undefined;
  const floors = scene.layers.map(({ role }) => (role === "pendant" ? LEAST : 0));
  const rest = a.map((row, z) => row.reduce((sum, share, l) => sum - share * floors[l], b[z]));
  const dims = nonnegativeLeastSquares(a, rest, { upper: 1 }).map((x, l) => Math.min(1, floors[l] + x));
  const least = Math.min(...a.map((row) => row.reduce((sum, share, l) => sum + share * dims[l], 0)));
  const raised = dims.map((dim) =>
    Math.min(1, Math.ceil((dim * Math.max(1, 1 / Math.max(least, 1e-6))) / NOTCH - 1e-9) * NOTCH),
  );
  return raised.every((dim, l) => dim >= scene.layers[l].dim)
    ? undefined
    : raised.map((d) => Number(d.toFixed(2)));
}
