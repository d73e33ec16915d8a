import type { Edit } from "../store/history.ts";

/** Edits of the study document under the name the undo list shows. */
export interface NamedEdit {
  readonly name: string;
  readonly edits: readonly Edit[];
}
