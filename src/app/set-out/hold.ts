/** One thing that must not be built before somebody has said more, and where the study would say it. */

export interface Hold {
  /** Tags of the boxes held; empty when it concerns all. */
  readonly tags: readonly string[];
  readonly words: string;
  /** Where the study says it: keys in the document, of a layer (`layers`, number, …) in its arrangement. */
  readonly field: Field;
  /** What it lacks of the study, each where the study would say it; none where what is said does not hold. */
  readonly missing?: readonly Field[];
  /** Of what it lacks, the one that may be enough by itself: a switch, where nothing says that there is a dimmer. */
  readonly enough?: Field;
  /** Of a layer: what several layers may share, and its name, so that a paper says it once for all of them. */
  readonly shared?: { readonly stem: string; readonly name: string };
}

export type Field = readonly (string | number)[];

/** The luminaire, the layer or the part of the kitchen that a field belongs to: all that it is asked is answered at one place. */
export function ownerOf([list, of]: Field): Field {
  return list === "luminaires" || list === "layers" ? [list, of] : [list];
}
