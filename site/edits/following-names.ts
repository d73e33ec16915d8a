/** Names of options that say what hangs: they follow it until somebody types another. */

import type { Edit } from "../store/history.ts";
import { type Json, write } from "../store/pointer.ts";
import { freshName, type RawArrangement, type RawLayer, type RawStudy } from "./raw-study.ts";

/** What the name of a copy ends with, until what hangs in it differs. */
export const COPY = /, copy(?: \d+)?$/;

function pendantLuminaires({ layers }: RawArrangement): string {
  const names = layers.flatMap(({ role, luminaire }) => (role === "pendant" ? luminaire.slice(0, 60) : []));
  return [...new Set(names)].join(" and ");
}

/** Names an option may have been given by its pendants alone: as a kitchen starts, and as the search for rows names what it proposes. */
function generatedNames(option: RawArrangement): readonly string[] {
  const pendants = option.layers.filter(({ role }) => role === "pendant");
  const count = pendants.reduce((sum, layer) => sum + countOf(layer), 0);
  if (count === 0) return [];
  const luminaires = pendantLuminaires(option);
  const heights = [...new Set(pendants.map(({ row }) => row?.clearance))];
  const above = heights.length === 1 ? heights[0] : undefined;
  const height = typeof above === "number" ? `${Math.round(1000 * above)} mm` : above;
  return [
    `${count} ${count === 1 ? "pendant" : "pendants"}`,
    `${count} × ${luminaires}`,
    ...(height === undefined ? [] : [`${count} × ${luminaires}, ${height}`]),
  ];
}

function countOf({ row, grid, at }: RawLayer): number {
  return row?.count ?? (grid === undefined ? (at?.length ?? 0) : grid.columns * grid.rows);
}

/** The edits, and with them the names of options that say how many pendants hang and of which luminaire: such a name follows what hangs until
 * somebody types another. */
export function withFollowingNames(study: RawStudy, edits: readonly Edit[]): readonly Edit[] {
  if (edits.every(({ path: [first, , key] }) => first !== "arrangements" || key === "name")) return edits;
  const document = study as unknown as Json;
  const after = edits.reduce((sum, { path, value }) => write(sum, path, value), document);
  const list = (after as unknown as RawStudy).arrangements;
  if (list.length !== study.arrangements.length) return edits;
  const renamed = list.flatMap((option, index): Edit[] => {
    const before = study.arrangements[index];
    const ending = /(?:, copy)?(?: \d+)?$/.exec(option.name)?.[0] ?? "";
    const form = generatedNames(before).findIndex((name) => [name, name + ending].includes(option.name));
    if (form < 0 || option.name !== before.name) return [];
    const others = list.filter((_, i) => i !== index);
    const names = generatedNames(option);
    // Once another luminaire is hung a count alone says too little. A copy is called by the first thing in which it differs from all others.
    const least = pendantLuminaires(before) === pendantLuminaires(option) ? form : form || 1;
    const differs = COPY.test(option.name)
      ? names.findIndex((name, i) => i >= form && others.every((each) => generatedNames(each)[i] !== name))
      : least;
    const name = names[differs];
    if (name === undefined || name === option.name || name + ending === option.name) return [];
    const taken = others.map((each) => each.name);
    return [{ path: ["arrangements", index, "name"], value: freshName(name, taken) }];
  });
  return [...edits, ...renamed];
}
