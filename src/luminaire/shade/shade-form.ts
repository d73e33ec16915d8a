/** What a named form of shade is (its side, and what stands in for what nobody said), and sides to make one of. */

import type { ProfilePoint, RevolvedRing } from "../../geometry/revolved-surface.ts";

export interface FormSize {
  /** Of the widest place and of the top (m). */
  readonly radius: number;
  readonly top: number;
  readonly height: number;
}

/** Shares are of the largest diameter. */
export interface ShadeForm {
  readonly heightShare: number;
  readonly topShare: number;
  /** Whether its top is open unless said otherwise. */
  readonly openTop: boolean;
  /** Whether the lamp hangs in its middle unless said otherwise, and whether it is closed all round. */
  readonly lampInMiddle: boolean;
  readonly closed: boolean;
  /** Its side from the lower end, at height 0, to the top. */
  rings(size: FormSize): RevolvedRing[];
}

const PIECES = 16;

/** Radius of the unit circle at height z. */
export function circle(z: number): number {
  return Math.sqrt(Math.max(0, 1 - z * z));
}

/** Even steps of an angle: fine at both ends, where rims cut rings off. */
export function graded(t: number): number {
  return (1 - Math.cos(Math.PI * t)) / 2;
}

/** Rings along a curved side: heights of even t, 0…1, and the radius at a height. */
export function curvedSide(
  heightOf: (t: number) => number,
  radiusAt: (z: number) => number,
  pieces = PIECES,
): RevolvedRing[] {
  return Array.from({ length: pieces }, (_, i) => {
    const [low, high] = [heightOf(i / pieces), heightOf((i + 1) / pieces)];
    return { from: [radiusAt(low), low], to: [radiusAt(high), high], middle: radiusAt((low + high) / 2) };
  });
}

/** Rings along a straight side. */
export function straightSide([r0, z0]: ProfilePoint, [r1, z1]: ProfilePoint): RevolvedRing[] {
  return coneRings(
    Array.from({ length: PIECES + 1 }, (_, i) => {
      const t = graded(i / PIECES);
      return [r0 + (r1 - r0) * t, z0 + (z1 - z0) * t];
    }),
  );
}

/** Cones between the points of a profile. */
export function coneRings(profile: readonly ProfilePoint[]): RevolvedRing[] {
  return profile.slice(1).map((to, i) => ({ from: profile[i], to }));
}

/** Points of a side that is drawn or met by shadows: the rings' ends. */
export function outlineOfRings(rings: readonly RevolvedRing[]): readonly ProfilePoint[] {
  return rings.flatMap(({ from, to }, i) => (i === 0 ? [from, to] : [to]));
}
