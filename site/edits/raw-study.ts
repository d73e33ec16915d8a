/**
 * The study as it stands in its file: lengths may still be numbers of metres or texts with a unit, and are kept
 * as they were written.
 */

import type { Json } from "../store/pointer.ts";

export type RawLength = number | string;
export type RawPoint2 = readonly [RawLength, RawLength];
export type RawPoint3 = readonly [RawLength, RawLength, RawLength];

export interface RawRow {
  readonly count: number;
  readonly gap?: RawLength;
  readonly spacing?: RawLength;
  readonly end?: RawLength;
  readonly clearance?: RawLength;
  readonly offset?: RawPoint2;
  readonly turn?: number;
}

export interface RawPlace {
  readonly position: RawPoint3;
  readonly turn?: number;
  readonly tilt?: number;
  readonly spin?: number;
  readonly aim?: RawPoint3;
}

export interface RawGrid {
  readonly columns: number;
  readonly rows: number;
  /** One for all walls, or along x and along y. */
  readonly margin?: RawLength | readonly [RawLength, RawLength];
  readonly height?: RawLength;
}

export interface RawLayer {
  readonly name: string;
  readonly role?: "pendant" | "recessed" | "accent" | "other";
  readonly luminaire: string;
  readonly dim?: number;
  readonly row?: RawRow;
  readonly grid?: RawGrid;
  readonly at?: readonly RawPlace[];
  readonly circuit?: string;
  readonly beyondTop?: boolean;
  readonly dimmer?: Readonly<Record<string, unknown>>;
  readonly switches?: readonly { readonly at?: RawPoint2 }[];
}

export interface RawSetting {
  readonly name: string;
  readonly dim?: Readonly<Record<string, number>>;
  readonly zones?: Readonly<Record<string, string | null>>;
  readonly find?: "least power" | "evenest";
  readonly note?: string;
}

export interface RawArrangement {
  readonly name: string;
  readonly letter?: string;
  readonly layers: readonly RawLayer[];
  readonly settings?: readonly RawSetting[];
  readonly note?: string;
}

export interface RawZone {
  readonly name: string;
  readonly from?: RawPoint2;
  readonly size?: RawPoint2;
  readonly polygon?: readonly RawPoint2[];
  readonly height?: RawLength;
  readonly target?: string | null;
}

export interface RawBody {
  readonly name: string;
  readonly box: readonly [RawPoint3, RawPoint3];
  readonly turn?: number;
  readonly reflectance?: number;
  readonly colour?: string;
}

export interface RawOpening {
  readonly name?: string;
  readonly wall: number;
  readonly from: RawLength;
  readonly length: RawLength;
  readonly sill?: RawLength;
  readonly height: RawLength;
  readonly reflectance?: number;
}

export interface RawRegion {
  readonly from: RawPoint2;
  readonly size: RawPoint2;
}

export interface RawTarget {
  readonly illuminance?: number;
  readonly minimum?: number;
  readonly uniformity?: number;
  readonly source?: string;
}

export interface RawPlane {
  readonly name: string;
  readonly rectangle?: { readonly corner: RawPoint3; readonly u: RawPoint3; readonly v: RawPoint3 };
  readonly target?: string;
}

export interface RawPerson {
  readonly name: string;
  readonly stature?: RawLength;
  readonly at: RawPoint2;
  readonly facing?: number;
  readonly posture?: "standing" | "leaning" | "seated";
  readonly age?: number;
}

export interface RawLuminaire {
  readonly photometry?: string;
  readonly beam?: { readonly flux: number; readonly angle: number };
  readonly lamp?: Json;
  readonly shade?: Json;
  readonly body?: {
    readonly profile: string;
    readonly diameter?: RawLength;
    readonly height?: RawLength;
  };
  readonly watts?: number;
  readonly flux?: number;
  readonly [key: string]: unknown;
}

export interface RawStudy {
  readonly format: string;
  readonly version: number;
  readonly title?: string;
  readonly note?: string;
  readonly display?: { readonly length?: "mm" | "m" | "ft-in"; readonly illuminance?: "lx" | "fc" };
  readonly room: {
    readonly length: RawLength;
    readonly width: RawLength;
    readonly ceilingHeight: RawLength;
    readonly reflectance?: {
      readonly ceiling?: number;
      readonly walls?: number | readonly number[];
      readonly floor?: number;
    };
    readonly openings?: readonly RawOpening[];
  };
  readonly island?: {
    readonly centre?: RawPoint2;
    readonly length?: RawLength;
    readonly width?: RawLength;
    readonly height?: RawLength;
    readonly turn?: number;
    readonly finish?: "matt" | "satin" | "polished";
    readonly overhang?: { readonly side: string; readonly depth: RawLength };
    readonly reflectance?: { readonly top?: number; readonly sides?: number };
    readonly outline?: readonly RawPoint2[];
    readonly levels?: readonly (RawRegion & { readonly name?: string; readonly height: RawLength })[];
    readonly zones?: readonly RawZone[];
    readonly hob?: RawRegion;
    readonly sink?: RawRegion;
    readonly seats?: { readonly side?: string; readonly count?: number };
  };
  readonly bodies?: readonly RawBody[];
  readonly planes?: readonly RawPlane[];
  readonly people?: readonly RawPerson[];
  readonly luminaires?: { readonly [name: string]: RawLuminaire };
  readonly maintenance?: Json;
  readonly targets?: { readonly [name: string]: RawTarget };
  readonly arrangements: readonly RawArrangement[];
  readonly tariff?: { readonly perKilowattHour: number; readonly currency?: string };
  readonly underlay?: {
    readonly image: string;
    readonly scale?: number;
    readonly turn?: number;
    readonly origin?: RawPoint2;
    readonly opacity?: number;
  };
  readonly embedded?: { readonly [path: string]: { readonly text?: string; readonly base64?: string } };
}

/** A place in a document rounded to a tenth of a millimetre, which is finer than any hand or tape. */
export function tidy(metres: number): number {
  return Math.round(metres * 1e4) / 1e4;
}

/** An opening's own name, or the one it bears in drawings without one. */
export function openingName({ name }: RawOpening, index: number): string {
  return name ?? `opening ${index + 1}`;
}

/** A name that none of the others has: `pendants`, `pendants 2`, … */
export function freshName(wish: string, taken: Iterable<string>): string {
  const names = new Set(taken);
  if (!names.has(wish)) return wish;
  const stem = wish.replace(/ \d+$/, "");
  for (let i = 2; ; i++) if (!names.has(`${stem} ${i}`)) return `${stem} ${i}`;
}
