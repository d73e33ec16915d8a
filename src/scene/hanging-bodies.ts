/** Warns of pendants that stand in something else: the same pieces and the same limit as a clash of bodies. */

import type { Ledger } from "../diagnostics/ledger.ts";
import { phrase } from "../diagnostics/phrase.ts";
import { bounds } from "../geometry/polygon.ts";
import { luminairePieces, piecesGap, TOUCHING } from "./luminaire-pieces.ts";
import type { Layer } from "./scene.ts";
import type { Prism, Solid } from "./solids.ts";

/** Warns of pendants that stand in a solid or in one another, and how deep. */
export function checkHungOverlaps(
  layers: readonly Layer[],
  solids: readonly Solid[],
  path: string,
  ledger: Ledger,
): void {
  const hung = layers.flatMap(({ name, role, luminaires }) =>
    role !== "pendant"
      ? []
      : luminaires.flatMap((luminaire, i) => {
          const pieces = luminairePieces(luminaire);
          return pieces.length === 0 ? [] : [boxed(`${name} ${i + 1}`, pieces)];
        }),
  );
  const standing = solids.map(({ name, prisms }) => boxed(name, prisms));
  hung.forEach((a, i) => {
    for (const b of [...hung.slice(0, i), ...standing]) {
      if (apart(a.box, b.box)) continue;
      const gap = piecesGap(a.pieces, b.pieces);
      if (gap >= -TOUCHING) continue;
      ledger.warn(
        "bodies-overlap",
        path,
        phrase`"${a.name}" and "${b.name}" stand in one another, ${-gap} deep.`,
      );
    }
  });
}

type Box = ReturnType<typeof bounds>;

function boxed(name: string, pieces: readonly Prism[]) {
  return { name, pieces, box: bounds(pieces.flatMap(({ outline }) => [...outline])) };
}

function apart(a: Box, b: Box): boolean {
  return a[0] > b[2] || b[0] > a[2] || a[1] > b[3] || b[1] > a[3];
}
