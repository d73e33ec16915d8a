/** Whether a document is whole enough for the page to show and edit; what is wrong further in, the study's own check says. */

import type { RawStudy } from "../edits/raw-study.ts";

export function isWhole(document: unknown): document is RawStudy {
  if (!isObject(document) || !isObject(document.room)) return false;
  const { arrangements, island, bodies, people, luminaires, targets, room } = document;
  return (
    Array.isArray(arrangements) &&
    arrangements.length > 0 &&
    arrangements.every(
      (each) => isObject(each) && Array.isArray(each.layers) && each.layers.every((layer) => isObject(layer)),
    ) &&
    [island, luminaires, targets, room.reflectance].every((each) => each === undefined || isObject(each)) &&
    [bodies, people, room.openings, isObject(island) ? island.zones : undefined].every(
      (each) => each === undefined || (Array.isArray(each) && each.every(isObject)),
    )
  );
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
