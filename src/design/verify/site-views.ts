/** Where readings were taken if their columns were counted from the other end, or along and across are exchanged. */

import type { Vec2, Vec3 } from "../../geometry/vector.ts";
import { overFloor } from "../../scene/inside-room.ts";
import { islandToRoom, roomToIsland, topUnder } from "../../scene/island-frame.ts";
import type { Scene } from "../../scene/scene.ts";
import type { LuminaireLight, SiteView } from "./reading-light.ts";

/** What the columns of readings count from. */
export type Counted = "island" | "room";

export type PlacedView = Omit<SiteView, "lights">;

/** Height at which a reading is taken where its column does not say (m): on the top, or on the floor beside it. */
export function levelAt({ island }: Scene, at: Vec2): number {
  return topUnder(island, at) ?? 0;
}

/** Whether a reading that belongs on the top, by its columns or its height, lies beside it. */
export function isOffTop(scene: Scene, [x, y, z]: Vec3, counted?: Counted): boolean {
  const { island } = scene;
  if (island === undefined || levelAt(scene, [x, y]) > 0 || isOnOwnPlane(scene, [x, y, z])) return false;
  return counted !== "room" || Math.abs(z - island.height) < ON_TOP;
}

/** A meter's sensor lies within this of the surface it stands on (m). */
const ON_TOP = 0.1;

/** Whether the place lies on a level plane of the study's own, such as a counter. */
function isOnOwnPlane({ planes }: Scene, [x, y, z]: Vec3): boolean {
  return planes.some(({ role, grid }) => {
    if (role !== "user" || grid === undefined || Math.abs(grid.corner[2] - z) > ON_TOP) return false;
    const [dx, dy] = [x - grid.corner[0], y - grid.corner[1]];
    return [grid.u, grid.v].every(([ux, uy]) => {
      const share = (dx * ux + dy * uy) / (ux * ux + uy * uy);
      return share > -0.01 && share < 1.01;
    });
  });
}

/** Those of the views that lie in the room and differ from what was said. */
export function placedViews(scene: Scene, places: readonly Vec3[], counted?: Counted): PlacedView[] {
  const { island, room } = scene;
  const inRoom = counted === "room" || island === undefined;
  const length = inRoom ? room.length : island.length;
  const width = inRoom ? room.width : island.width;
  const view = (kind: SiteView["kind"], axis: SiteView["axis"], of: (p: Vec2) => Vec2): PlacedView => ({
    kind,
    ...(axis === undefined ? {} : { axis }),
    places: places.map(([x, y, z]): Vec3 => {
      const [u, v] = inRoom ? of([x, y]) : islandToRoom(island, of(roomToIsland(island, [x, y])));
      return [u, v, z === levelAt(scene, [x, y]) ? levelAt(scene, [u, v]) : z];
    }),
  });
  return [
    view("other end", "along", ([u, v]) => [length - u, v]),
    view("other end", "across", ([u, v]) => [u, width - v]),
    view("other end", "both", ([u, v]) => [length - u, width - v]),
    view("axes swapped", undefined, ([u, v]) => [v, u]),
  ].filter((one) => one.places.every((place) => overFloor(place, room, 0)));
}

/** The light of views, out of light calculated at the readings' own places and then at those of each view. */
export function siteViews(
  placed: readonly PlacedView[],
  lights: readonly LuminaireLight[],
  count: number,
): SiteView[] {
  return placed.map((view, v) => ({
    ...view,
    lights: lights.map((light) => lightFrom(light, v + 1, count)),
  }));
}

/** A luminaire's light at the nth set of `count` places; 0 is the readings' own. */
export function lightFrom(light: LuminaireLight, set: number, count: number): LuminaireLight {
  const part = (field: Float64Array) => field.subarray(set * count, (set + 1) * count);
  return {
    ...light,
    direct: part(light.direct),
    interreflected: part(light.interreflected),
    clear: part(light.clear),
    slope: [part(light.slope[0]), part(light.slope[1])],
  };
}
