/** Which luminaires of a scene are meant, and how far they are to move. */

/** One luminaire: index of its layer in the scene and its own index in the layer. */
export interface LuminaireKey {
  readonly layer: number;
  readonly index: number;
}

/** A move in the island's axes (m). */
export interface Move {
  readonly along: number;
  readonly across: number;
  readonly height: number;
}

export function sameLuminaire(a: LuminaireKey, b: LuminaireKey): boolean {
  return a.layer === b.layer && a.index === b.index;
}
