/** Values the study leaves to a default: found by their place, and written where the study would say them. */

import { formatPointer } from "../../src/app.ts";
import type { Edit } from "../store/history.ts";
import { type Json, type Path, read } from "../store/pointer.ts";

interface DefaultUsed {
  readonly path: string;
  readonly value: unknown;
  readonly why: string;
}

export interface DefaultValue {
  /** At the place asked for. */
  readonly value: Json;
  readonly why: string;
  /** Writes it as the study's own. */
  readonly edit: Edit;
}

/** The default that stands at a place the document leaves open; part of one, where the default is a list, such as a point. */
export function defaultAt(
  defaults: readonly DefaultUsed[],
  document: Json,
  path: Path,
): DefaultValue | undefined {
  if (read(document, path) !== undefined) return undefined;
  const whole = defaults.find((each) => each.path === formatPointer(path));
  if (whole !== undefined) {
    const value = whole.value as Json;
    return { value, why: whole.why, edit: { path, value } };
  }
  const parent = path.slice(0, -1);
  const list = defaults.find((each) => each.path === formatPointer(parent));
  const step = path.at(-1);
  if (list === undefined || typeof step !== "number" || !Array.isArray(list.value)) return undefined;
  return { value: list.value[step], why: list.why, edit: { path: parent, value: list.value as Json } };
}

/** Sets the value at a place; in a list that is still a default, the rest of the list is said too. */
export function editsAt(standard: DefaultValue | undefined, path: Path, value: Json | undefined): Edit[] {
  const own = { path, value };
  return standard === undefined || standard.edit.path.length === path.length ? [own] : [standard.edit, own];
}
