/** Circuits of layers that name none. */

import type { NamedEdit } from "./named-edit.ts";
import type { RawStudy } from "./raw-study.ts";

/** One circuit for each layer of an option that names none, by the lowest free numbers; undefined where every layer names one. */
export function oneCircuitEach(study: RawStudy, arrangement: number): NamedEdit | undefined {
  const { layers } = study.arrangements[arrangement];
  const taken = new Set(layers.flatMap(({ circuit }) => circuit ?? []));
  const proposed = layers.flatMap(({ name, circuit }, layer) => {
    if (circuit !== undefined) return [];
    let number = 1;
    while (taken.has(String(number))) number++;
    const value = String(number);
    taken.add(value);
    return [
      { words: `${name} ${value}`, path: ["arrangements", arrangement, "layers", layer, "circuit"], value },
    ];
  });
  if (proposed.length === 0) return undefined;
  return {
    name: `circuits as proposed: ${proposed.map(({ words }) => words).join(", ")}`,
    edits: proposed.map(({ path, value }) => ({ path, value })),
  };
}
