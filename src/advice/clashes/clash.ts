/** What cannot hang or be built as it is placed: facts; `words/clash-words.ts` says them. */

export type ClashKind =
  | "boxes"
  | "box and body"
  | "bodies"
  | "ceiling"
  | "door"
  | "head"
  | "joist"
  | "keep-out"
  | "opening";

interface JoistShift {
  readonly by: number;
  readonly from: "wall 0" | "wall 3";
  /** Tags of the layer's boxes. */
  readonly boxes: readonly string[];
}

/** The way out of a clash; lengths in m. */
export type Remedy =
  /** The row's luminaires stand at least so far from middle to middle; `fit` of them along the top, where fewer do than hang there. */
  | { readonly kind: "space row"; readonly pitch: number; readonly fit?: number }
  /** One of the two moves by at least so much. */
  | { readonly kind: "move apart"; readonly by: number }
  /** It moves by at least so much; the other is fixed. */
  | { readonly kind: "move away"; readonly by: number }
  /** A box, or all of a layer, those that stand clear included, move by one shift: positive away from wall 0 (joists along x) or wall 3
   * (along y). */
  | ({ readonly kind: "shift together" } & JoistShift)
  /** No shift frees all boxes of the layer: one of them moves by at least so much. */
  | ({ readonly kind: "move box" } & JoistShift)
  | { readonly kind: "lower"; readonly by: number }
  | { readonly kind: "raise"; readonly by: number }
  /** Length and width of a box exchanged: it lies across its luminous opening. */
  | { readonly kind: "exchange sides" }
  /** The body as large as the luminous opening at least (m along C0–C180 and C90–C270). */
  | { readonly kind: "enlarge body"; readonly length: number; readonly width: number };

export interface Clash {
  readonly kind: ClashKind;
  /** Names as on paper: tags of boxes (P1, R2), names of bodies and people. */
  readonly between: readonly string[];
  /** Free distance (m), negative where they overlap. */
  readonly clear: number;
  readonly remedy: Remedy;
}
