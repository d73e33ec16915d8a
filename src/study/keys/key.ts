/**
 * What a key of a study means to whoever writes it. The types ask one description for every key of the schema, so that none is without;
 * kind, unit and range are the validator's.
 */

/** Where coordinates and directions of a key are measured from.
 * - room: origin in the corner of walls 3 and 0, x along wall 0, y along wall 3, z up from the floor; angles counter-clockwise from +x
 * - island: origin at the corner of least x and y of the unturned top's bounding box, x along `length`, y across
 * - wall: from the wall's first corner, counter-clockwise
 * - luminaire: origin in the photometric centre, x along C0, y along C90, z up
 * - shade: its axis, height from its lower rim upwards */
export type Frame = "room" | "island" | "wall" | "luminaire" | "shade";

export interface Key {
  /** One or two sentences. */
  readonly meaning: string;
  readonly frame?: Frame;
  /** The value that stands in for a key left out; or what is done instead, in words. Of a required key neither. */
  readonly default?: unknown;
  readonly without?: string;
  /** As a study would write it. */
  readonly example: unknown;
}

/** The object that a value of a study is, or that its entries are; never where it is none. */
type Inner<T> = T extends readonly (infer I)[]
  ? Inner<I>
  : T extends object
    ? string extends keyof T
      ? Inner<T[keyof T]>
      : T
    : never;

/** A description for every key of an object, and of the objects inside it. */
export type Keys<T> = {
  readonly [K in keyof T]-?: Key &
    ([Inner<NonNullable<T[K]>>] extends [never]
      ? { readonly keys?: undefined }
      : { readonly keys: Keys<Inner<NonNullable<T[K]>>> });
};
