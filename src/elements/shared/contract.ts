/** What the elements say to the page: event details and the data they take beside the library's own types. */

import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import type { FloorPlanKind } from "../../drawing/floor-plan-items.ts";
import type { LuminaireKey } from "../../drawing/luminaire-key.ts";
import type { Vec2, Vec3 } from "../../geometry/vector.ts";
import type { Photometry } from "../../photometry/photometry.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { LayerRole, Scene } from "../../scene/scene.ts";

/** Where one luminaire is moved to. */
export interface LuminaireMove extends LuminaireKey {
  readonly layerName: string;
  /** Photometric centre in the room (m). */
  readonly position: Vec3;
  /** Where it was when the hand took it (m). */
  readonly from: Vec3;
}

/** `luminaire-move`. Nothing is changed by the element: the page applies the move and hands back a scene. */
export interface LuminaireMoveDetail extends LuminaireMove {
  /** `drag` while the hand holds it, `commit` when it lets go, `cancel` when Escape takes it back. */
  readonly phase: "drag" | "commit" | "cancel";
  /** Everything that moves together, the held one first. */
  readonly moves: readonly LuminaireMove[];
  /** For the undo list, e.g. `move pendants 2`. */
  readonly name: string;
  /** Why it came to rest there, e.g. `equal bays`. */
  readonly reasons: readonly string[];
  readonly by: "pointer" | "keyboard";
}

/** `luminaire-select` */
export interface LuminaireSelectDetail {
  readonly selection: readonly LuminaireKey[];
}

/** `zone-open` */
export interface ZoneOpenDetail {
  readonly name: string;
  /** Among the zones of the verdict. */
  readonly index: number;
  /** Its target is asked for, rather than the zone. */
  readonly isTarget?: boolean;
}

/** `luminaire-remove`, on Delete. */
export interface LuminaireRemoveDetail {
  readonly luminaires: readonly LuminaireKey[];
  readonly name: string;
}

/** A thing on the floor plan: a body, window, person or zone by its place in its list, or the island. */
export interface FloorPlanKey {
  readonly kind: FloorPlanKind;
  /** 0 for the island. */
  readonly index: number;
}

/** `item-move`. Nothing is changed by the element: the page applies the move and hands back a scene. */
export interface ItemMoveDetail extends FloorPlanKey {
  /** Since the hand took it (m): along and across the room; of a zone, along and across the top. */
  readonly move: Vec2;
  /** The side that is drawn instead, as the floor plan numbers sides, and how far outwards (m). */
  readonly side?: number;
  readonly distance: number;
  readonly phase: "drag" | "commit" | "cancel";
  readonly by: "pointer" | "keyboard";
}

/** `item-select`: what is selected now; nothing when it was let go. */
export interface ItemSelectDetail {
  readonly item: FloorPlanKey | undefined;
}

/** `item-remove`, on Delete. */
export interface ItemRemoveDetail {
  readonly item: FloorPlanKey;
}

/** `underlay-points`: the two points between which a length is known, in the room (m). */
export interface UnderlayPointsDetail {
  readonly points: readonly [Vec2, Vec2];
}

/** `underlay-move`: the drawing underneath was moved (m). */
export interface UnderlayMoveDetail {
  readonly by: Vec2;
}

/** Light at one place, by role (lx). */
export interface LightReading {
  readonly total: number;
  /** `name`: the layer's, or of all layers of the role. */
  readonly parts: readonly { readonly role: LayerRole; readonly name: string; readonly value: number }[];
}

/** `reading-move`: place in the island's axes (m), or nothing when the pointer left. */
export interface ReadingDetail {
  readonly place?: { readonly along: number; readonly across: number };
  readonly light?: LightReading;
}

/** `study-edit`: one change of the study document. */
export interface StudyEditDetail {
  /** JSON pointer into the study, e.g. `/room/ceilingHeight`. */
  readonly path: string;
  /** The new value, in the study's own notation; `undefined` removes the key. */
  readonly value: unknown;
  /** For the undo list, e.g. `ceiling 2.55 m`. */
  readonly name: string;
}

/** `field-change`: metres, lux, or the plain number, and the same in words. */
export interface FieldChangeDetail {
  readonly value: number;
  readonly words: string;
}

/** `photometry-choose`: a photometric file was given to the page. */
export interface PhotometryChooseDetail {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly photometry: Photometry;
}

/** `study-light`: the light of the arrangement that a study shows. */
export interface StudyLightDetail {
  readonly study: ResolvedStudy;
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment;
  /** Figures without verdicts; the whole light follows when the scene rests. */
  readonly draft: boolean;
}

declare global {
  interface HTMLElementEventMap {
    "luminaire-move": CustomEvent<LuminaireMoveDetail>;
    "luminaire-select": CustomEvent<LuminaireSelectDetail>;
    "luminaire-remove": CustomEvent<LuminaireRemoveDetail>;
    "zone-open": CustomEvent<ZoneOpenDetail>;
    "item-move": CustomEvent<ItemMoveDetail>;
    "item-select": CustomEvent<ItemSelectDetail>;
    "item-remove": CustomEvent<ItemRemoveDetail>;
    "underlay-points": CustomEvent<UnderlayPointsDetail>;
    "underlay-move": CustomEvent<UnderlayMoveDetail>;
    "reading-move": CustomEvent<ReadingDetail>;
    "field-change": CustomEvent<FieldChangeDetail>;
    "study-edit": CustomEvent<StudyEditDetail>;
    "photometry-choose": CustomEvent<PhotometryChooseDetail>;
    "study-light": CustomEvent<StudyLightDetail>;
  }
}
