/** Places from which a layer is switched. */

import type { Json } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import type { RawStudy } from "./raw-study.ts";

/** One more at a place that stands in, on hold until it is said; the last one stays the other half of the two-way pair. */
export function addSwitch(study: RawStudy, arrangement: number, layer: number): NamedEdit {
  const { name, switches = [] } = study.arrangements[arrangement].layers[layer];
  const added = placeOfAdded(switches);
  const places = [...switches.slice(0, added), {}, ...switches.slice(added)];
  return edit(`add a switch for ${name}`, arrangement, layer, places);
}

/** Where one more is listed. */
export function placeOfAdded({ length }: readonly object[]): number {
  return length < 2 ? length : length - 1;
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
