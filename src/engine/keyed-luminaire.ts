import type { PlacedSource } from "./direct/direct-sources.ts";

/** A luminaire in its place, and the key of both. */
export interface KeyedLuminaire {
  readonly placed: PlacedSource;
  readonly key: string;
  readonly layer: number;
  /** Index of its own body among the moving ones, −1 without. */
  readonly own: number;
}
