import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";

/** A luminaire in its place, and the key of both. */
export interface KeyedLuminaire {
  readonly placed: PlacedLuminaire;
  readonly key: string;
  readonly layer: number;
  /** Index of its own body among the moving ones, −1 without. */
  readonly own: number;
}
