import type { Frame } from "../geometry/frame.ts";
import type { Vec3 } from "../geometry/vector.ts";
import type { Luminaire } from "./luminaire.ts";

/** A luminaire in the room: `frame.origin` is the photometric centre. */
export interface PlacedLuminaire {
  readonly luminaire: Luminaire;
  readonly frame: Frame;
  /** The point it was aimed at (m, room), where it was. */
  readonly aim?: Vec3;
}
