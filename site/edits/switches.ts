/** Places from which a layer is switched. */

import type { Json } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import { type RawStudy, tidy } from "./raw-study.ts";
import { roomOf } from "./room-contents.ts";

/** From the walls (m), so that its symbol is read beside them. */
const BESIDE_WALL = 0.1;

/** One more: in the corner of walls 0 and 3, then in the one across the room, then between those before. */
export function addSwitch(study: RawStudy, arrangement: number, layer: number): NamedEdit {
  const { name, switches = [] } = study.arrangements[arrangement].layers[layer];
  const { length, width } = roomOf(study);
  const place =
    switches.length === 0
      ? [BESIDE_WALL, BESIDE_WALL]
      : switches.length === 1
        ? [length - BESIDE_WALL, width - BESIDE_WALL]
        : [length / 2, BESIDE_WALL];
  const added = { at: place.map(tidy) };
  // The last one stays the other half of the two-way pair.
  const places =
    switches.length < 2 ? [...switches, added] : [...switches.slice(0, -1), added, ...switches.slice(-1)];
  return edit(`add a switch for ${name}`, arrangement, layer, places);
}

export function removeSwitch(study: RawStudy, arrangement: number, layer: number, index: number): NamedEdit {
  const { name, switches = [] } = study.arrangements[arrangement].layers[layer];
  const left = switches.filter((_, i) => i !== index);
  return edit(`remove switch ${index + 1} of ${name}`, arrangement, layer, left);
}

function edit(name: string, arrangement: number, layer: number, places: readonly object[]): NamedEdit {
  const value = places.length === 0 ? undefined : (places as unknown as Json);
  return { name, edits: [{ path: ["arrangements", arrangement, "layers", layer, "switches"], value }] };
}
