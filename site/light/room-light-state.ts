/**
 * The room's light as the picture knows it already: of the same light only the dimming is new, of the same scene only
 * the light on its surfaces. What is the same stays the same object, and the picture computes nothing of it anew.
 */

import type { RoomAnswer } from "../../src/workers/browser.ts";
import type { Json } from "../store/pointer.ts";

type Scene = RoomAnswer["scene"];

/** What the picture is given. */
export type ShownRoom = RoomAnswer & { readonly sketched: boolean };

export class RoomLightState {
  #first: RoomAnswer | undefined;
  #whole: RoomAnswer | undefined;
  /** Key of the full light shown, if it is. */
  #fullKey: string | undefined;
  #shown: ShownRoom | undefined;

  /** What to show of a sketch and, once it is there, of the light in full. */
  of(first: RoomAnswer, whole: RoomAnswer | undefined): ShownRoom {
    const before = this.#shown;
    if (before !== undefined && this.#first === first && this.#whole === whole) return before;
    const isSame = before !== undefined && this.#first?.key === first.key;
    const scene =
      before === undefined || !isSame
        ? first.scene
        : this.#first === first
          ? before.scene
          : dimmed(before.scene, first.scene);
    const isKnown = isSame && (whole === undefined || whole.key === this.#fullKey);
    const surfaces = isKnown && before !== undefined ? before.surfaces : (whole ?? first).surfaces;
    this.#fullKey = whole?.key ?? (isSame ? this.#fullKey : undefined);
    this.#first = first;
    this.#whole = whole;
    this.#shown = { ...first, scene, surfaces, sketched: this.#fullKey === undefined };
    return this.#shown;
  }
}

/** A scene in all that is new, with what light rests on from another of the same light. */
function dimmed(before: Scene, now: Scene): Scene {
  const layers = now.layers.map((layer, i) => ({ ...layer, luminaires: before.layers[i].luminaires }));
  return { ...now, surfaces: before.surfaces, blockers: before.blockers, layers };
}

/** What weighs light and changes none: levels of layers, settings that hold such levels. */
const WEIGHTS: ReadonlySet<string> = new Set(["dim", "settings"]);

/** Whether two documents ask for the same light, however it is dimmed. */
export function isSameLight(a: Json | undefined, b: Json | undefined): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [x, y] = [a, b] as readonly Readonly<Record<string, Json>>[];
  return [...new Set([...Object.keys(x), ...Object.keys(y)])].every(
    (key) => WEIGHTS.has(key) || isSameLight(x[key], y[key]),
  );
}

/** A scene at the levels of another of the same light; itself where they are its own. */
export function atLevelsOf(scene: Scene, { layers: given }: Scene): Scene {
  if (scene.layers.length !== given.length || scene.layers.every(({ dim }, i) => dim === given[i].dim))
    return scene;
  return { ...scene, layers: scene.layers.map((layer, i) => ({ ...layer, dim: given[i].dim })) };
}

/** What a picture shows while the light of its room is being computed. */
export function pictureWords(isEarlier: boolean, hasSurfaces: boolean): string {
  if (isEarlier) return "The room as it was before the last change; it is being computed anew";
  return hasSurfaces ? "Dimmed as drawn; its light is being computed anew" : "Lighting the room";
}
