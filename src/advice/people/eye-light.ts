/**
 * Light at people's faces: on the face itself, around it, and from above.
 *
 *   E_v on a vertical plane facing the way the person faces; E_z cylindrical; E_h horizontal, all at the eye point.
 *   modelling = E_z / E_h
 *
 * EN 12464-1 calls 0.30 to 0.60 a good balance of diffuse and directed light (from memory; written for work places).
 * The interreflected part of E_v gives the background of a glare rating, L_b = E_v,ind / π.
 */

import { maintainedLayers } from "../../assessment/layer-light.ts";
import type { PlaneField } from "../../engine/result.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import type { Scene } from "../../scene/scene.ts";

export interface EyeLight {
  readonly person: string;
  /** lx, dimmed and maintained */
  readonly vertical: number;
  readonly verticalInterreflected: number;
  readonly cylindrical: number;
  readonly horizontal: number;
  /** E_z / E_h; undefined in the dark. */
  readonly modelling?: number;
}

export const GOOD_MODELLING = [0.3, 0.6] as const;

/** The planes to calculate beside a scene's own for its people; none without people. */
export function eyePlanes({ people }: Pick<Scene, "people">): CalculationPlane[] {
  if (people.length === 0) return [];
  const points = Float64Array.from(people.flatMap(({ eye }) => eye));
  const weights = new Float64Array(people.length).fill(1);
  return [
    { name: "eyes, cylindrical", role: "probe", quantity: "cylindrical", points, normal: [0, 0, 1], weights },
    { name: "eyes, horizontal", role: "probe", quantity: "planar", points, normal: [0, 0, 1], weights },
    ...people.map(
      ({ name, eye, facing }): CalculationPlane => ({
        name: `eye of ${name}`,
        role: "probe",
        quantity: "planar",
        points: Float64Array.from(eye),
        normal: [Math.cos(facing), Math.sin(facing), 0],
        weights: Float64Array.of(1),
      }),
    ),
  ];
}

/** @param fields the calculated light of {@link eyePlanes}, in their order */
export function eyeLight(scene: Scene, fields: readonly PlaneField[]): EyeLight[] {
  const at = (plane: number, point: number) => {
    let direct = 0;
    let interreflected = 0;
    for (const layer of maintainedLayers(scene, fields[plane])) {
      direct += layer.direct[point] ?? 0;
      interreflected += layer.interreflected[point] ?? 0;
    }
    return { total: direct + interreflected, interreflected };
  };
  return scene.people.map(({ name }, i): EyeLight => {
    const cylindrical = at(0, i).total;
    const horizontal = at(1, i).total;
    const vertical = at(2 + i, 0);
    return {
      person: name,
      vertical: vertical.total,
      verticalInterreflected: vertical.interreflected,
      cylindrical,
      horizontal,
      ...(horizontal > 0 ? { modelling: cylindrical / horizontal } : {}),
    };
  });
}
