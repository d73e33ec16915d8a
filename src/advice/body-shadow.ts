/**
 * The light that a person's own body takes from the place where the hands work.
 *
 * For every zone and everyone who faces it within reach, standing, leaning and seated: light with the person there
 * against light without, layer by layer. A recessed light above and behind the cook loses almost all; a pendant
 * over the top loses little. (A published field test lost 95 % of one downlight: one kitchen, one point.)
 *
 *   lost = 1 − Σ w E_with / Σ w E_without over the working area: the part of the zone within 0.75 m of the feet.
 * The body is the people's figure of boxes without arms or hair, so hands' own shadows are not in it.
 * Known error: penumbra 0.005 of an opening; interreflected light as the `quick` calculation states, of larger patches. Against
 * 2,000 patches and more a share lost errs by 0.003 at most and illuminance by 0.5 % (worked example, ten random kitchens).
 */

import type { Observer } from "../diagnostics/cancelled.ts";
import { LightEngine } from "../engine/light-engine.ts";
import type { CalculationResult } from "../engine/result.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import { fineGrid } from "../scene/calculation-grid.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import { islandToRoom } from "../scene/island-frame.ts";
import { maintainedShare } from "../scene/maintained.ts";
import { figure, REACH, seatOf, zonesInReach } from "../scene/people.ts";
import type { Island, Person, Scene, Zone } from "../scene/scene.ts";

export type Posture = Person["posture"];

export const POSTURES: readonly Posture[] = ["standing", "leaning", "seated"];

/** Patches of the room: what a body does to interreflected light is a few hundredths of it. */
const PATCHES = 60;
/** Cells of the map (m). */
const CELL = 0.05;
/** Who stands at a zone that has nobody: a cook of the published field test's height. */
const STAND_IN_STATURE = 1.72;
/** From the edge of the top to between the feet (m): half a trunk's depth and a hand's breadth less. */
const FROM_EDGE = 0.13;

export interface LayerShadow {
  readonly layer: string;
  /** Share of the layer's light lost over the working area, 0…1: direct and interreflected, and direct alone. */
  readonly lost: number;
  readonly lostDirect: number;
}

export interface BodyShadow {
  readonly zone: string;
  readonly person: string;
  /** True where the study has nobody at the zone and a cook of 1.72 m was put there. */
  readonly standIn: boolean;
  readonly stature: number;
  readonly posture: Posture;
  /** Whether this is the posture the study gives the person. */
  readonly usual: boolean;
  readonly layers: readonly LayerShadow[];
  /** All layers, dimmed and maintained: share lost, and averages over the working area (lx). */
  readonly lost: number;
  readonly without: number;
  readonly with: number;
  /** Where the hand loses most. */
  readonly worst: {
    readonly position: Vec3;
    readonly without: number;
    readonly with: number;
    readonly lost: number;
  };
  /** Map over the zone: share lost at each point of the plane, and whether it belongs to the working area. */
  readonly map: {
    readonly plane: CalculationPlane;
    readonly lost: Float64Array;
    readonly within: Uint8Array;
  };
}

export interface BodyShadowRequest {
  readonly options?: Partial<CalculationOptions>;
  /** Keep one to save the room's factors between calls. */
  readonly engine?: LightEngine;
  readonly observer?: Observer;
  /** Only in the posture that the study gives each person, not in all three. */
  readonly usualAlone?: boolean;
  /** Nobody stands in for people whom the study does not have. */
  readonly withoutStandIns?: boolean;
}

/** Body shadows of every zone, those of one zone together; empty without an island or zones. */
export function bodyShadows(scene: Scene, request: BodyShadowRequest = {}): BodyShadow[] {
  const { island } = scene;
  if (island === undefined) return [];
  const engine = request.engine ?? new LightEngine();
  const worked = scene.zones.flatMap((zone) => {
    const plane = mapPlane(scene, zone);
    if (plane === undefined) return [];
    const people = peopleAt(scene, island, zone, plane, request.withoutStandIns !== true);
    return people.length === 0 ? [] : [{ zone, plane, people }];
  });
  if (worked.length === 0) return [];
  const planes = worked.map(({ plane }) => plane);
  const empty: Scene = { ...scene, planes, blockers: scene.blockers.filter(({ kind }) => kind !== "person") };
  const options = { patches: PATCHES, ...request.options, quality: "quick" as const, people: true };
  const without = engine.calculate(empty, options, request.observer);
  return worked.flatMap(({ zone, plane, people }, index) =>
    people.flatMap(({ person, standIn }) =>
      (request.usualAlone === true ? [person.posture] : POSTURES).map((posture) => {
        const there = withPerson({ ...empty, planes: [plane] }, island, person, posture);
        const lit = engine.calculate(there, options, request.observer);
        const light = { without: without.planes[index], lit: lit.planes[0] };
        return compare(scene, { zone, plane, person, standIn, posture }, light);
      }),
    ),
  );
}

function mapPlane(scene: Scene, zone: Zone): CalculationPlane | undefined {
  const judged = scene.planes.find(
    ({ zone: name, quantity, normal, grid }) =>
      name === zone.name && quantity === "planar" && normal[2] > 0.999 && grid !== undefined,
  );
  return judged === undefined ? undefined : (fineGrid(judged, CELL) ?? judged);
}

function peopleAt(
  scene: Scene,
  island: Island,
  zone: Zone,
  plane: CalculationPlane,
  standIns: boolean,
): { person: Person; standIn: boolean }[] {
  const near = scene.people.filter((person) => zonesInReach(person, island, scene.zones)[0] === zone);
  if (near.length > 0 || !standIns) return near.map((person) => ({ person, standIn: false }));
  const person = standInAt(island, zone);
  return person !== undefined && workingArea(plane, person).includes(1) ? [{ person, standIn: true }] : [];
}

/** A cook at the middle of the zone's longest side that lies along the edge of the top. */
function standInAt(island: Island, zone: Zone): Person | undefined {
  let longest = 0;
  let place: { at: Vec2; facing: number } | undefined;
  zone.outline.forEach((a, i) => {
    const b = zone.outline[(i + 1) % zone.outline.length];
    const middle: Vec2 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    const side = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (side <= longest || !onOutline(middle, island.outline)) return;
    longest = side;
    // Zones run counter-clockwise: outside lies to the right of a side.
    const out: Vec2 = [(b[1] - a[1]) / side, -(b[0] - a[0]) / side];
    const [x, y] = islandToRoom(island, [middle[0] + FROM_EDGE * out[0], middle[1] + FROM_EDGE * out[1]]);
    place = { at: [x, y], facing: Math.atan2(-out[1], -out[0]) + island.turn };
  });
  if (place === undefined) return undefined;
  const { eye } = figure(place.at, place.facing, STAND_IN_STATURE, "leaning");
  return { name: "cook", stature: STAND_IN_STATURE, ...place, posture: "leaning", eye };
}

function onOutline([x, y]: Vec2, outline: readonly Vec2[]): boolean {
  return outline.some((a, i) => {
    const b = outline[(i + 1) % outline.length];
    const side = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const across = ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / side;
    const along = ((b[0] - a[0]) * (x - a[0]) + (b[1] - a[1]) * (y - a[1])) / side;
    return Math.abs(across) < 0.01 && along > -1e-9 && along < side + 1e-9;
  });
}

function withPerson(empty: Scene, island: Island, person: Person, posture: Posture): Scene {
  const { mesh } = figure(person.at, person.facing, person.stature, posture, seatOf(person, island));
  return {
    ...empty,
    blockers: [...empty.blockers, { name: person.name, kind: "person", mesh, transmittance: 0 }],
  };
}

/** One for every point within reach. */
function workingArea({ points }: CalculationPlane, { at }: Person): Uint8Array {
  return Uint8Array.from({ length: points.length / 3 }, (_, i) =>
    Math.hypot(points[3 * i] - at[0], points[3 * i + 1] - at[1]) <= REACH ? 1 : 0,
  );
}

/** Someone at a zone in one posture, and the plane on which it is asked. */
interface Worker {
  readonly zone: Zone;
  readonly plane: CalculationPlane;
  readonly person: Person;
  readonly standIn: boolean;
  readonly posture: Posture;
}

type PlaneLight = CalculationResult["planes"][number];

function compare(
  scene: Scene,
  { zone, plane, person, standIn, posture }: Worker,
  { without, lit }: { readonly without: PlaneLight; readonly lit: PlaneLight },
): BodyShadow {
  const within = workingArea(plane, person);
  const count = within.length;
  const before = new Float64Array(count);
  const after = new Float64Array(count);
  const layers = scene.layers.map((layer, l): LayerShadow => {
    const a = without.layers[l];
    const b = lit.layers[l];
    const weight = maintainedShare(scene, layer);
    for (let i = 0; i < count; i++) {
      before[i] += weight * (a.direct[i] + a.interreflected[i]);
      after[i] += weight * (b.direct[i] + b.interreflected[i]);
    }
    const directBefore = averageOver(plane, within, a.direct);
    const directAfter = averageOver(plane, within, b.direct);
    return {
      layer: layer.name,
      lost: share(
        directBefore + averageOver(plane, within, a.interreflected),
        directAfter + averageOver(plane, within, b.interreflected),
      ),
      lostDirect: share(directBefore, directAfter),
    };
  });
  const lost = before.map((E, i) => share(E, after[i]));
  let worst = within.indexOf(1);
  for (let i = 0; i < count; i++) if (within[i] === 1 && lost[i] > lost[worst]) worst = i;
  const averageBefore = averageOver(plane, within, before);
  const averageAfter = averageOver(plane, within, after);
  return {
    zone: zone.name,
    person: person.name,
    standIn,
    stature: person.stature,
    posture,
    usual: posture === person.posture,
    without: averageBefore,
    with: averageAfter,
    lost: share(averageBefore, averageAfter),
    layers,
    worst: {
      position: [plane.points[3 * worst], plane.points[3 * worst + 1], plane.points[3 * worst + 2]],
      without: before[worst],
      with: after[worst],
      lost: lost[worst],
    },
    map: { plane, lost, within },
  };
}

function averageOver({ weights }: CalculationPlane, within: Uint8Array, field: Float64Array): number {
  let sum = 0;
  let area = 0;
  for (let i = 0; i < within.length; i++) {
    if (within[i] === 0) continue;
    sum += weights[i] * field[i];
    area += weights[i];
  }
  return area > 0 ? sum / area : 0;
}

/** Share lost, never negative: a body also sends a little light back. */
function share(before: number, after: number): number {
  return before > 0 ? Math.max(0, 1 - after / before) : 0;
}
