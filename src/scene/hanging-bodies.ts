/** Warns of pendants that stand in something else: found as a clash of bodies is. */

import type { Ledger } from "../diagnostics/ledger.ts";
import { phrase } from "../diagnostics/phrase.ts";
import { isPendant } from "./is-pendant.ts";
import { luminairePieces, occupied, overlaps } from "./luminaire-pieces.ts";
import type { Layer } from "./scene.ts";
import type { Solid } from "./solids.ts";

/** Warns of pendants that stand in a solid or in one another, and how deep. */
export function checkHungOverlaps(
  layers: readonly Layer[],
  solids: readonly Solid[],
  path: string,
  ledger: Ledger,
): void {
  const hung = layers.flatMap((layer) =>
    layer.luminaires.flatMap((luminaire, i) => {
      const pieces = isPendant(layer, luminaire) ? luminairePieces(luminaire) : [];
      return pieces.length === 0 ? [] : [{ name: `${layer.name} ${i + 1}`, ...occupied(pieces) }];
    }),
  );
  const standing = solids.map(({ name, prisms }) => ({ name, ...occupied(prisms) }));
  hung.forEach((one, i) => {
    for (const { other, depth } of overlaps(one, [...hung.slice(0, i), ...standing]))
      ledger.warn(
        "bodies-overlap",
        path,
        phrase`"${one.name}" and "${other.name}" stand in one another, ${depth} deep.`,
      );
  });
}
