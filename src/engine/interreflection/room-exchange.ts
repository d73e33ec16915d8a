/**
 * The room as the exchange of light between its surfaces: patches, factors and gather, made once a geometry.
 *
 * Key: shapes of surfaces, standing solids, number of patches. Not reflectance, luminaires, pendants or people.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import { contentKey } from "../../numerics/content-key.ts";
import type { Scene } from "../../scene/scene.ts";
import { standingBlockers } from "../visibility/surroundings.ts";
import { type Exchange, exchangeOf } from "./exchange.ts";
import { Gather } from "./gather.ts";
import { patchesOf } from "./patches.ts";

export interface RoomExchange {
  readonly key: string;
  readonly exchange: Exchange;
  readonly gather: Gather;
}

export function roomExchangeKey(scene: Scene, patches: number): string {
  const shapes = scene.surfaces.map(({ vertices, holes }) =>
    contentKey(vertices.flat(), ...holes.flatMap((hole) => [hole.length, hole.flat()])),
  );
  return contentKey(patches, standingKey(scene), ...shapes);
}

export function standingKey(scene: Scene): string {
  return contentKey(
    ...standingBlockers(scene).map(({ mesh, transmittance }) =>
      contentKey(mesh.positions, mesh.triangles, transmittance),
    ),
  );
}

export function roomExchange(scene: Scene, patches: number, key: string, observer?: Observer): RoomExchange {
  const gather = new Gather(patchesOf(scene.surfaces, patches), standingBlockers(scene));
  return { key, exchange: exchangeOf(gather, observer), gather };
}
