/** What the trace asks of a solid: where a ray enters it from outside. */
export const MISS = Number.POSITIVE_INFINITY;

export interface Solid {
  /** Axis-parallel bounds in the room (m). */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** Face entered last; 1 is the open mouth of a shade, for round solids. */
  face: number;
  /** Outward unit normal, after `normalAt`. */
  readonly normal: Float64Array;
  /** Distance along a unit direction to the first entry beyond `from` (m), or MISS. A ray that starts inside does
   * not enter. */
  enter(ox: number, oy: number, oz: number, dx: number, dy: number, dz: number, from: number): number;
  /** Sets `normal` for the entry found last. */
  normalAt(): void;
}
