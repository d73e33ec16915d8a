/** What is on screen beside the study and its light. Fires `change` when something of it is another. */

import type { Issue } from "../../src/app.ts";
import type { KitchenItem } from "../edits/kitchen-moves.ts";
import type { LuminaireKey } from "../edits/luminaires.ts";

/** What a field says of the text typed last. */
export interface Draft {
  /** The text, where it could not be read, and why. */
  readonly text?: string;
  readonly problem?: string;
  /** How it was read, where it could be meant otherwise: said while the field shows that value. */
  readonly remark?: Remark;
}

export interface Remark {
  readonly shown: string;
  readonly words: string;
  /** The other reading, where it is usual in the field. */
  readonly instead?: { readonly words: string; take(): void };
}

/** Something that was not done, a thing given that was not taken for the most part, and why. */
export interface Refusal {
  readonly words: string;
  readonly issues: readonly Issue[];
  /** The document that was given, as far as it could be read. */
  readonly document?: unknown;
  /** Of what the page itself could not do, which stands whatever study is on screen; "Not opened" without one. */
  readonly heading?: string;
  /** What can be done about it. */
  readonly act?: readonly [label: string, run: () => void];
}

/** What stands on the sheet: the aligned drawings, the whole room in plan, or the room as a picture. */
export type SheetContent = "drawings" | "floor plan" | "room";

export class ScreenStore extends EventTarget {
  /** Index of the option on screen. */
  arrangement = 0;
  /** The setting whose light is shown, where the option has it; the layers' own levels without one. */
  setting: string | undefined;
  selection: readonly LuminaireKey[] = [];
  readonly drafts = new Map<string, Draft>();
  /** Whether it is shown what people take from the light. */
  showPeople = false;
  /** The luminaire whose fields are open. */
  luminaire: string | undefined;
  sheetContent: SheetContent = "drawings";
  /** The thing of the room that is selected on the floor plan. */
  item: KitchenItem | undefined;
  /** The sheet alone is on screen, for a client to look at. */
  isForClient = false;
  refusal: Refusal | undefined;
  /** The last line said. */
  line = "";

  setSelection(selection: readonly LuminaireKey[]): void {
    this.selection = selection;
    this.#change();
  }

  setDraft(id: string, draft: Draft): void {
    this.drafts.set(id, draft);
    this.#change();
  }

  removeDraft(id: string): void {
    this.drafts.delete(id);
    this.#change();
  }

  setLine(line: string): void {
    this.line = line;
    this.#change();
  }

  setRefusal(refusal: Refusal | undefined): void {
    this.refusal = refusal;
    if (refusal !== undefined) this.line = refusal.words;
    this.#change();
  }

  /** Another study is on screen from now on. */
  clear(): void {
    this.arrangement = 0;
    this.setting = undefined;
    this.selection = [];
    this.item = undefined;
    this.drafts.clear();
    this.luminaire = undefined;
    if (this.refusal?.heading === undefined) this.refusal = undefined;
  }

  #change(): void {
    this.dispatchEvent(new Event("change"));
  }
}
