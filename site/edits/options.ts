/** Options added, copied and removed. Each keeps its letter for life: whatever is done to the list first writes down the letters it has. */

import { arrangementLetters, newLetter } from "../../src/app.ts";
import type { Json } from "../store/pointer.ts";
import { COPY } from "./following-names.ts";
import type { NamedEdit } from "./named-edit.ts";
import { freshName, type RawArrangement, type RawStudy } from "./raw-study.ts";

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

/** Copies an option; the copy stands at the end, under a letter of its own: letters then rise along the list. */
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
  return replaceOptions(`copy option ${name}`, [...list, copy]);
}

export function removeOption(study: RawStudy, index: number): NamedEdit {
  const list = lettered(study);
  return replaceOptions(
    `remove option ${list[index].name}`,
    list.filter((_, i) => i !== index),
  );
}
