/**
 * What documents of one hand-over share: the set holds every sheet, and each paper some of them again.
 *
 * The first document that is written with it leaves the drawing of each sheet and the glyphs of each face in it. A later one
 * whose sheets are all among them takes both, and draws nothing: glyphs have the numbers they got there, so that it carries
 * all of them.
 */

import type { Sheet } from "../../drawing/paper/paper.ts";

/** The drawing of a sheet: what its page does, and the faces that it is lettered in. */
export interface DrawnSheet {
  readonly content: string;
  readonly faces: readonly string[];
}

/** A face of a document as far as it depends on what was written in it. */
export interface WrittenFace {
  subset: { encode(): Uint8Array };
  unicode: readonly (readonly number[])[];
  widths: readonly number[];
}

export class DrawnSheets {
  readonly #sheets = new Map<Sheet, DrawnSheet>();
  readonly #faces = new Map<string, WrittenFace>();

  /** Whether a document wrote all of these sheets. A picture has a number in its document. */
  has(sheets: readonly Sheet[]): boolean {
    return sheets.every(
      (sheet) => this.#sheets.has(sheet) && sheet.marks.every(({ kind }) => kind !== "picture"),
    );
  }

  /** Whether nothing was drawn yet. */
  get isEmpty(): boolean {
    return this.#sheets.size === 0;
  }

  of(sheet: Sheet): DrawnSheet {
    return this.#sheets.get(sheet) as DrawnSheet;
  }

  keep(sheet: Sheet, drawn: DrawnSheet): void {
    this.#sheets.set(sheet, drawn);
  }

  /** Keeps a face that a document begins to write in; its glyphs are brought into a file once. */
  keepFace(name: string, face: WrittenFace): void {
    const { subset, unicode, widths } = face;
    let bytes: Uint8Array | undefined;
    const encode = (): Uint8Array => {
      bytes ??= subset.encode();
      return bytes;
    };
    this.#faces.set(name, { subset: { encode }, unicode, widths });
  }

  /** Gives a face what was written in it. */
  giveFace(name: string, face: WrittenFace): void {
    Object.assign(face, this.#faces.get(name));
  }
}
