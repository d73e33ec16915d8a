/**
 * Bodies of pendants that stand in something else.
 *
 * Overlap is measured on plumb bodies as stacks of twelve-sided discs of each step's mean radius, so a common
 * volume is right to a few percent; tilted bodies are not judged.
 */

import type { Ledger } from "../diagnostics/resolve-log.ts";
import { pointToRoom } from "../geometry/frame.ts";
import { bounds, type Polygon } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { halfProfile } from "../luminaire/half-profile.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import type { Layer } from "./scene.ts";
import { commonVolume, type Prism, type Solid, TOUCHING_VOLUME } from "./solids.ts";

const AROUND = 12;

/** Warns of pendants that stand in a solid or in one another. */
export function checkHanging(
  layers: readonly Layer[],
  solids: readonly Solid[],
  path: string,
  ledger: Ledger,
): void {
  const hung = layers.flatMap(({ name, role, luminaires }) =>
    role !== "pendant"
      ? []
      : luminaires.map((luminaire, i) => ({ name: `${name} ${i + 1}`, prisms: stack(luminaire) })),
  );
  const boxed = hung.filter(({ prisms }) => prisms.length > 0).map((h) => ({ ...h, box: boxOf(h.prisms) }));
  boxed.forEach((a, i) => {
    const others = [
      ...boxed.slice(0, i),
      ...solids.map(({ name, prisms }) => ({ name, prisms, box: boxOf(prisms) })),
    ];
    for (const b of others) {
      if (apart(a.box, b.box)) continue;
      const volume = commonVolume(a.prisms, b.prisms);
      if (volume <= TOUCHING_VOLUME) continue;
      const litres = (volume * 1000).toFixed(2);
      ledger.warn("bodies-overlap", path, `"${a.name}" and "${b.name}" share ${litres} litres of space.`);
    }
  });
}

type Box = readonly [number, number, number, number];

function boxOf(prisms: readonly Prism[]): Box {
  return bounds(prisms.flatMap(({ outline }) => [...outline]));
}

function apart(a: Box, b: Box): boolean {
  return a[0] > b[2] || b[0] > a[2] || a[1] > b[3] || b[1] > a[3];
}

function stack({ luminaire, frame }: PlacedLuminaire): Prism[] {
  const { body, emission } = luminaire;
  if (body === undefined || frame.rotation[8] < 1 - 1e-9) return [];
  const flat = (x: number, y: number): Vec2 => {
    const [px, py] = pointToRoom(frame, [x, y, 0]);
    return [px, py];
  };
  const z = frame.origin[2];
  const points = halfProfile(body, emission.opening);
  if (body.profile === "box") {
    const [l, w] = [(body.length ?? body.diameter) / 2, (body.width ?? body.diameter) / 2];
    const outline = [flat(-l, -w), flat(l, -w), flat(l, w), flat(-l, w)];
    return [{ outline, bottom: z + points[0][1], top: z + points[points.length - 1][1] }];
  }
  return points.slice(1).map(([radius, top], i): Prism => {
    const mean = (radius + points[i][0]) / 2;
    const outline: Polygon = Array.from({ length: AROUND }, (_, k) => {
      const angle = (2 * Math.PI * k) / AROUND;
      return flat(mean * Math.cos(angle), mean * Math.sin(angle));
    });
    return { outline, bottom: z + points[i][1], top: z + top };
  });
}
