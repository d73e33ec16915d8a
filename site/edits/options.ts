/** Options added, copied and removed. Each keeps its letter for life: whatever is done to the list first writes down the letters it has. */

import { arrangementLetters, newLetter } from "../../src/app.ts";
import type { Edit } from "../store/history.ts";
import { type Json, write } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import { freshName, type RawArrangement, type RawLayer, type RawStudy } from "./raw-study.ts";

function lettered(study: RawStudy): RawArrangement[] {
  const letters = arrangementLetters(study.arrangements);
  return study.arrangements.map((each, index) => ({ ...each, letter: letters[index] }));
}

function replaceOptions(name: string, list: readonly RawArrangement[]): NamedEdit {
  return { name, edits: [{ path: ["arrangements"], value: list as unknown as Json }] };
}

/** Adds an option at the end, under a letter and a name no other one has. */
export function addOption(study: RawStudy, option: Omit<RawArrangement, "letter">): NamedEdit {
  const list = lettered(study);
  const name = freshName(
    option.name,
    list.map((each) => each.name),
  );
  return replaceOptions(`add option ${name}`, [...list, { ...option, name, letter: newLetter(list) }]);
}

/** What the name of a copy ends with, until what hangs in it differs. */
const COPY = /, copy(?: \d+)?$/;

/** Copies an option; the copy stands after it, under a letter of its own. */
export function copyOption(study: RawStudy, index: number): NamedEdit {
  const list = lettered(study);
  const { name } = list[index];
  const copy: RawArrangement = {
    ...list[index],
    letter: newLetter(list),
    name: freshName(
      `${name.replace(COPY, "")}, copy`,
      list.map((each) => each.name),
    ),
  };
  list.splice(index + 1, 0, copy);
  return replaceOptions(`copy option ${name}`, list);
}

export function removeOption(study: RawStudy, index: number): NamedEdit {
  const list = lettered(study);
  return replaceOptions(
    `remove option ${list[index].name}`,
    list.filter((_, i) => i !== index),
  );
}

/** Names an option may have been given by its pendants alone: as a kitchen starts, and as the search for rows names what it proposes. */
function generatedNames({ layers }: RawArrangement): readonly string[] {
  const pendants = layers.filter(({ role }) => role === "pendant");
  const count = pendants.reduce((sum, layer) => sum + countOf(layer), 0);
  if (count === 0) return [];
  const luminaires = [...new Set(pendants.map(({ luminaire }) => luminaire.slice(0, 60)))].join(" and ");
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
    // A copy is called by the first thing in which it differs from all others.
    const differs = COPY.test(option.name)
      ? names.findIndex((name, i) => i >= form && others.every((each) => generatedNames(each)[i] !== name))
      : form;
    const name = names[differs];
    if (name === undefined || name === option.name || name + ending === option.name) return [];
    const taken = others.map((each) => each.name);
    return [{ path: ["arrangements", index, "name"], value: freshName(name, taken) }];
  });
  return [...edits, ...renamed];
}
