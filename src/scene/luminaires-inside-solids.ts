/** Luminaires whose light cannot get into the room, or only in part: inside a solid, or through a wall. */

import type { Ledger } from "../diagnostics/ledger.ts";
import { extentAlong } from "../luminaire/plan-extent.ts";
import { ON_SURFACE } from "./inside-room.ts";
import { insidePrism } from "./points-in-solids.ts";
import type { Layer, RoomShape } from "./scene.ts";
import type { Solid } from "./solids.ts";

/** Openings may reach this far into a wall unremarked: fitting tolerance (m). */
const INTO_WALL = 1e-3;

/** Warns once a layer. `pathOf` gives the layer's place in the document. */
export function checkTrapped(
  layers: readonly Layer[],
  solids: readonly Solid[],
  { length, width }: RoomShape,
  pathOf: (layer: Layer) => string,
  ledger: Ledger,
): void {
  for (const layer of layers) {
    const { luminaires, name } = layer;
    const of = (count: number) => `${count} of ${luminaires.length}`;
    // What stands on the floor lies on a face of a solid that stands there too.
    const holder = ({
      frame: {
        origin: [x, y, z],
      },
    }: (typeof luminaires)[number]) =>
      solids.find(({ prisms }) =>
        prisms.some((prism) => insidePrism([x, y, Math.max(z, 2 * ON_SURFACE)], prism)),
      );
    const held = luminaires.map(holder).filter((solid) => solid !== undefined);
    if (held.length > 0)
      ledger.warn(
        "luminaire-in-body",
        pathOf(layer),
        `The light of "${name}" starts inside "${held[0].name}" (${of(held.length)}) and does not get out.`,
        "a place beside it, or above",
      );
    const through = luminaires.filter(({ luminaire, frame: { origin, rotation } }) =>
      [length, width].some((side, axis) => {
        const half = extentAlong(luminaire.emission.opening, rotation, axis as 0 | 1);
        return origin[axis] - half < -INTO_WALL || origin[axis] + half > side + INTO_WALL;
      }),
    );
    if (through.length > 0)
      ledger.warn(
        "luminaire-through-wall",
        pathOf(layer),
        `The luminous opening of "${name}" reaches through a wall (${of(through.length)}); its light beyond is lost.`,
      );
  }
}
