/**
 * One arrangement of a study, resolved: everything has a place in metres and every default is filled in. What is absent is not in
 * this kitchen. This is all the engine knows.
 */

import type { Mesh } from "../geometry/mesh.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import type { DimmerControl } from "../study/arrangement-schema.ts";
import type { CalculationPlane } from "./calculation-plane.ts";
import type { Surface } from "./surface.ts";

export type LayerRole = "pendant" | "recessed" | "accent" | "other";

export interface SwitchPlace {
  /** m, room */
  readonly at: Vec2;
  /** Whether a place stands in that nobody said. */
  readonly assumed?: true;
}

/** Luminaires switched and dimmed together. */
export interface Layer {
  readonly name: string;
  readonly role: LayerRole;
  /** Fraction of luminous flux, 0…1. */
  readonly dim: number;
  readonly luminaires: readonly PlacedLuminaire[];
  /** Half a spacing stands in for the grid's distance from the walls, which nobody gave. */
  readonly isMarginAssumed?: boolean;
  readonly circuit?: string;
  /** Hours of use a day. */
  readonly hours?: number;
  /** Its pendants are meant to reach beyond the top where they do. */
  readonly beyondTop?: boolean;
  /** Places in plan from which it is switched (m), in the order of their wiring. */
  readonly switches?: readonly SwitchPlace[];
  readonly dimmer?: {
    readonly name?: string;
    readonly minimumWatts?: number;
    readonly maximumWatts?: number;
    /** [share of flux, share of watts], rising. */
    readonly curve?: readonly (readonly [flux: number, watts: number])[];
    /** What it is set to for a share of flux. */
    readonly control?: DimmerControl;
  };
}

/** An opaque (or partly passing) solid that blocks light; its faces are in `surfaces` too. */
export interface Blocker {
  readonly name: string;
  readonly kind: "island" | "body" | "person" | "pendant";
  readonly mesh: Mesh;
  readonly transmittance: number;
  /** For a pendant's body: layer and luminaire index, whose own direct light it does not block. */
  readonly owner?: readonly [layer: number, luminaire: number];
  /** Diffuse reflectance of the outside of a pendant or a person, where known; the others are in `surfaces`. */
  readonly reflectance?: number;
}

export interface RoomShape {
  /** m */
  readonly length: number;
  readonly width: number;
  /** Lowest height of the ceiling (m). */
  readonly ceilingHeight: number;
  /** rad; direction counter-clockwise from +x towards which the ceiling rises. */
  readonly slope: number;
  readonly towards: number;
  /** Clear height above the ceiling, for what is set into it (m). */
  readonly ceilingVoid?: number;
  readonly joists?: {
    readonly along: "x" | "y";
    readonly spacing: number;
    /** Centreline of the first one from x = 0 or y = 0 (m). */
    readonly first: number;
    readonly width?: number;
  };
  /** Width of the boxes in the ceiling, where stated (m). */
  readonly ceilingBox?: number;
  /** Parts of the ceiling's plan where no box may go (m). */
  readonly keepOuts?: readonly { readonly name: string; readonly outline: readonly Vec2[] }[];
  readonly openings?: readonly RoomOpening[];
  readonly doors?: readonly RoomDoor[];
}

/** A window or door; `from` runs counter-clockwise from the wall's first corner (m). */
export interface RoomOpening {
  readonly name: string;
  readonly wall: 0 | 1 | 2 | 3;
  readonly from: number;
  readonly length: number;
  readonly sill: number;
  readonly height: number;
}

/** A door's leaf; `from` as of an opening (m). `swing`: hinges as seen from inside the room, opening into it or out of it. */
export interface RoomDoor {
  readonly name: string;
  readonly wall: 0 | 1 | 2 | 3;
  readonly from: number;
  readonly width: number;
  /** Of the leaf, above the floor. */
  readonly height: number;
  readonly swing: "in-left" | "in-right" | "out-left" | "out-right" | "none";
}

/** An upright solid: a cabinet, a hood; plan outline counter-clockwise in the room (m). */
export interface SolidBody {
  readonly name: string;
  readonly outline: readonly Vec2[];
  readonly bottom: number;
  readonly top: number;
  readonly colour?: string;
  readonly finish?: string;
}

/** The island in room coordinates. */
export interface Island {
  readonly centre: Vec2;
  readonly turn: number;
  /** Bounding-box extents along and across (m). */
  readonly length: number;
  readonly width: number;
  /** Height of the main top (m). */
  readonly height: number;
  /** Outline in the island's frame (origin at the bounding box's least corner), counter-clockwise. */
  readonly outline: readonly Vec2[];
  readonly overhang?: { readonly side: "x-" | "x+" | "y-" | "y+"; readonly depth: number };
  readonly topThickness: number;
  readonly finish: "matt" | "satin" | "polished";
  readonly topReflectance: number;
  readonly sideReflectance: number;
  readonly levels: readonly { readonly outline: readonly Vec2[]; readonly height: number }[];
  /** A recess in the top: outline in the island's frame, height of its floor (m). */
  readonly basin?: { readonly outline: readonly Vec2[]; readonly floor: number };
  readonly hob?: readonly Vec2[];
  readonly sink?: readonly Vec2[];
  readonly seats?: {
    readonly side: "x-" | "x+" | "y-" | "y+";
    readonly count: number;
    readonly width: number;
    /** Those that fit on the outline's own edge there. */
    readonly fitting: number;
    /** Where they begin along the side (m), side by side about the middle of that edge. */
    readonly from: number;
  };
  readonly colour?: string;
}

/** A part of the top where one task is done, in the island's frame. */
export interface Zone {
  readonly name: string;
  readonly outline: readonly Vec2[];
  readonly height: number;
  /** Key of the resolved targets. */
  readonly target?: string;
  /** What is done there, as far as name and target tell; decides how people stand. */
  readonly task?: "preparation" | "cooking" | "washing" | "eating";
}

export interface Person {
  readonly name: string;
  /** m */
  readonly stature: number;
  /** Between the feet (m). */
  readonly at: Vec2;
  /** rad counter-clockwise from +x */
  readonly facing: number;
  readonly posture: "standing" | "leaning" | "seated";
  /** Height of the seat (m) as the study states it; `seatOf` has the usual one. */
  readonly seat?: number;
  readonly age?: number;
  readonly hand?: "left" | "right";
  /** Eye point (m). */
  readonly eye: Vec3;
}

/** Levels of the layers for one use of the kitchen, such as dinner, and what is asked of the zones then. */
export interface LightingSetting {
  readonly name: string;
  /** Fraction of luminous flux of each layer, 0…1, in the scene's order. */
  readonly dims: readonly number[];
  /** What the levels are to be found by; absent where they were given. */
  readonly find?: "least power" | "evenest";
  /** Target of a zone by its name, in place of its own; null asks nothing. */
  readonly targets: ReadonlyMap<string, string | null>;
}

export interface Scene {
  readonly name: string;
  /** Of its arrangement in the study: A, B …; the same on screen, on paper and in JSON. */
  readonly letter: string;
  readonly room: RoomShape;
  readonly island?: Island;
  readonly zones: readonly Zone[];
  readonly people: readonly Person[];
  readonly bodies?: readonly SolidBody[];
  readonly layers: readonly Layer[];
  /** Absent without any. */
  readonly settings?: readonly LightingSetting[];
  /** Every reflecting face of room, openings, island and bodies; not people, not pendants. */
  readonly surfaces: readonly Surface[];
  /** Every solid, people and pendants among them. */
  readonly blockers: readonly Blocker[];
  readonly planes: readonly CalculationPlane[];
  /** Maintenance factor, 0…1. */
  readonly maintenance: number;
  /** Price of electricity, and the currency of all prices; untrusted text. */
  readonly tariff?: { readonly perKilowattHour: number; readonly currency?: string };
}
