/**
 * Moving, adding, copying, mirroring and removing luminaires, as named edits of the document.
 *
 * A row stays a row as long as what is done to it can be said of a row: lifting one pendant lifts them all,
 * moving all of them moves its offset. Moving one alone turns the row into free places, which undo takes back.
 */

import { degrees, metresOf, type Scene } from "../../src/app.ts";
import type { Json } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import { type RawLayer, type RawPlace, type RawStudy, tidy } from "./raw-study.ts";

/** One luminaire: its layer and its place in it. */
export interface LuminaireKey {
  readonly layer: number;
  readonly index: number;
}

export type Vec3 = readonly [number, number, number];

const ROLE_WORDS = {
  pendant: "pendant",
  recessed: "recessed luminaire",
  accent: "accent luminaire",
  other: "luminaire",
};

/** `pendant 2`, `3 pendants`, `5 luminaires`. */
export function wordsFor(keys: readonly LuminaireKey[], layers: readonly Pick<RawLayer, "role">[]): string {
  const roles = new Set(keys.map((key) => layers[key.layer]?.role ?? "other"));
  const word = roles.size === 1 ? ROLE_WORDS[[...roles][0]] : "luminaire";
  return keys.length === 1 ? `${word} ${keys[0].index + 1}` : `${keys.length} ${word}s`;
}

/** The places a layer's luminaires have, as free places. Angles in degrees, zero ones left out. */
export function placesOf(scene: Scene, layer: number): RawPlace[] {
  return scene.layers[layer].luminaires.map(({ frame }) => {
    const r = frame.rotation;
    const tilt = degrees(Math.acos(Math.max(-1, Math.min(1, r[8]))));
    const level = tilt < 1e-6;
    const turn = level ? degrees(Math.atan2(r[1], r[0])) : degrees(Math.atan2(-r[7], -r[6]));
    const spin = level ? 0 : degrees(Math.atan2(-r[5], r[2]));
    const [x, y, z] = frame.origin;
    return {
      position: [tidy(x), tidy(y), tidy(z)],
      ...nonZero("turn", turn),
      ...nonZero("tilt", level ? 0 : tilt),
      ...nonZero("spin", spin),
    };
  });
}

function nonZero(key: string, value: number): Record<string, number> {
  const rounded = Math.round(value * 1e4) / 1e4;
  return rounded === 0 ? {} : { [key]: rounded };
}

/** A layer with free places instead of its row or grid. */
function withPlaces(layer: RawLayer, places: readonly RawPlace[]): RawLayer {
  const { row: _row, grid: _grid, at: _at, ...rest } = layer;
  return { ...rest, at: places };
}

function replaceLayers(arrangement: number, layers: readonly RawLayer[]): NamedEdit["edits"] {
  return [{ path: ["arrangements", arrangement, "layers"], value: layers as unknown as Json }];
}

/** Moves luminaires from where they hang in `scene` by a vector in the room (m). */
export function moveLuminaires(
  study: RawStudy,
  arrangement: number,
  scene: Scene,
  keys: readonly LuminaireKey[],
  by: Vec3,
): NamedEdit {
  const layers = [...study.arrangements[arrangement].layers];
  const lifted = Math.abs(by[2]) > 1e-9;
  const shifted = Math.hypot(by[0], by[1]) > 1e-9;
  for (const at of new Set(keys.map((key) => key.layer))) {
    const layer = layers[at];
    const moved = new Set(keys.filter((key) => key.layer === at).map((key) => key.index));
    const all = moved.size === scene.layers[at].luminaires.length;
    const row = layer.row;
    if (row !== undefined && (!shifted || all)) {
      const clearance = metresOf(row.clearance);
      const offset = [metresOf(row.offset?.[0]) ?? 0, metresOf(row.offset?.[1]) ?? 0];
      const [along, across] = inIsland(scene, by);
      layers[at] = {
        ...layer,
        row: {
          ...row,
          ...(lifted && clearance !== undefined
            ? { clearance: tidy(Math.max(0.05, clearance + by[2])) }
            : {}),
          ...(shifted ? { offset: [tidy(offset[0] + along), tidy(offset[1] + across)] as const } : {}),
        },
      };
      continue;
    }
    const places = layer.at === undefined ? placesOf(scene, at) : [...layer.at];
    for (const index of moved) {
      const [x, y, z] = scene.layers[at].luminaires[index].frame.origin;
      places[index] = { ...places[index], position: [tidy(x + by[0]), tidy(y + by[1]), tidy(z + by[2])] };
    }
    layers[at] = withPlaces(layer, places);
  }
  const words = wordsFor(keys, layers);
  return {
    name: shifted ? `move ${words}` : `height of ${words}`,
    edits: replaceLayers(arrangement, layers),
  };
}

function inIsland(scene: Scene, [x, y]: Vec3): [number, number] {
  const turn = scene.island?.turn ?? 0;
  return [Math.cos(turn) * x + Math.sin(turn) * y, -Math.sin(turn) * x + Math.cos(turn) * y];
}

/** Adds one luminaire: one more in a row, or a free place midway between the last two (or beside the last). */
export function addLuminaire(study: RawStudy, arrangement: number, scene: Scene, at: number): NamedEdit {
  const layers = [...study.arrangements[arrangement].layers];
  const layer = layers[at];
  const name = `add ${ROLE_WORDS[layer.role ?? "other"]}`;
  if (layer.row !== undefined) {
    layers[at] = { ...layer, row: { ...layer.row, count: layer.row.count + 1 } };
    return { name, edits: replaceLayers(arrangement, layers) };
  }
  const places = placesOf(scene, at);
  const last = places.at(-1) as RawPlace;
  const [x, y, z] = last.position as Vec3;
  layers[at] = withPlaces(layer, [...places, { ...last, position: [tidy(x + 0.3), y, z] }]);
  return { name, edits: replaceLayers(arrangement, layers) };
}

/** Copies luminaires beside themselves as free places of their layers. */
export function copyLuminaires(
  study: RawStudy,
  arrangement: number,
  scene: Scene,
  keys: readonly LuminaireKey[],
): NamedEdit {
  const layers = [...study.arrangements[arrangement].layers];
  for (const at of new Set(keys.map((key) => key.layer))) {
    const places = placesOf(scene, at);
    const copies = keys
      .filter((key) => key.layer === at)
      .map(({ index }) => {
        const [x, y, z] = places[index].position as Vec3;
        return { ...places[index], position: [tidy(x + 0.15), tidy(y + 0.15), z] as const };
      });
    layers[at] = withPlaces(layers[at], [...places, ...copies]);
  }
  return { name: `copy ${wordsFor(keys, layers)}`, edits: replaceLayers(arrangement, layers) };
}

/** Mirrors luminaires across the middle of the island, along its length (`along`) or its width (`across`). */
export function mirrorLuminaires(
  study: RawStudy,
  arrangement: number,
  scene: Scene,
  keys: readonly LuminaireKey[],
  axis: "along" | "across",
): NamedEdit {
  const layers = [...study.arrangements[arrangement].layers];
  const [cx, cy] = scene.island?.centre ?? [scene.room.length / 2, scene.room.width / 2];
  const turn = (scene.island?.turn ?? 0) + (axis === "along" ? 0 : Math.PI / 2);
  // Reflection in the line through the middle whose normal stands at `turn`.
  const [nx, ny] = [Math.cos(turn), Math.sin(turn)];
  for (const at of new Set(keys.map((key) => key.layer))) {
    const places = placesOf(scene, at);
    for (const { index } of keys.filter((key) => key.layer === at)) {
      const [x, y, z] = places[index].position as Vec3;
      const d = 2 * ((x - cx) * nx + (y - cy) * ny);
      const turned = 2 * degrees(turn) + 180 - (places[index].turn ?? 0);
      places[index] = {
        ...places[index],
        position: [tidy(x - d * nx), tidy(y - d * ny), z],
        ...(places[index].turn === undefined && places[index].tilt === undefined
          ? {}
          : { turn: ((turned % 360) + 360) % 360 }),
      };
    }
    layers[at] = withPlaces(layers[at], places);
  }
  return { name: `mirror ${wordsFor(keys, layers)}`, edits: replaceLayers(arrangement, layers) };
}

/** Removes luminaires; a row of which the last are left becomes free places, an empty layer goes. */
export function removeLuminaires(
  study: RawStudy,
  arrangement: number,
  scene: Scene,
  keys: readonly LuminaireKey[],
): NamedEdit {
  const before = study.arrangements[arrangement].layers;
  const layers: RawLayer[] = [];
  before.forEach((layer, at) => {
    const gone = new Set(keys.filter((key) => key.layer === at).map((key) => key.index));
    if (gone.size === 0) layers.push(layer);
    else {
      const left = placesOf(scene, at).filter((_, index) => !gone.has(index));
      if (left.length > 0) layers.push(withPlaces(layer, left));
    }
  });
  return { name: `remove ${wordsFor(keys, before)}`, edits: replaceLayers(arrangement, layers) };
}

/** Puts another luminaire into a layer. */
export function swapLuminaire(
  study: RawStudy,
  arrangement: number,
  layer: number,
  luminaire: string,
): NamedEdit {
  return {
    name: `${luminaire} in ${study.arrangements[arrangement].layers[layer].name}`,
    edits: [{ path: ["arrangements", arrangement, "layers", layer, "luminaire"], value: luminaire }],
  };
}

/** Makes free places a row again: as many, in equal bays, at the clearance given (m). */
export function makeRow(study: RawStudy, arrangement: number, at: number, clearance: number): NamedEdit {
  const layers = [...study.arrangements[arrangement].layers];
  const { at: places = [], grid: _grid, ...rest } = layers[at];
  layers[at] = { ...rest, row: { count: Math.max(1, places.length), clearance: tidy(clearance) } };
  return { name: `row of ${layers[at].name}`, edits: replaceLayers(arrangement, layers) };
}
