/**
 * Which C planes a EULUMDAT file stores, by its symmetry. The list of C angles always names all of them; the
 * planes stored are those below, in this order. The angle list, not the counts, is trusted.
 *
 *   Isym 0  all                      1  one, for every C
 *        2  C0 … C180                3  C270 … C360 = C0 … C90
 *        4  C0 … C90
 */

import type { Symmetry } from "../intensity-distribution.ts";
import { near } from "./angle-list.ts";

export interface StoredAngles {
  readonly symmetry: Symmetry;
  /** degrees, in the order the planes are stored */
  readonly angles: readonly number[];
  /** A plane that the symmetry needs and the list lacks (degrees). */
  readonly missing?: number;
}

export function storedPlanes(isym: 0 | 1 | 2 | 3 | 4, list: readonly number[]): StoredAngles {
  const between = (from: number, to: number) => list.filter((c) => c >= from - 1e-6 && c <= to + 1e-6);
  switch (isym) {
    case 0:
      return { symmetry: "none", angles: list };
    case 1:
      return { symmetry: "rotational", angles: [0] };
    case 2:
      return needing({ symmetry: "mirrored in C0–C180", angles: between(0, 180) }, 0, 180);
    case 3: {
      const front = between(270, 360).filter((c) => !near(c, 360));
      return needing({ symmetry: "mirrored in C90–C270", angles: [...front, ...between(0, 90)] }, 270, 90);
    }
    case 4:
      return needing({ symmetry: "quadrant", angles: between(0, 90) }, 0, 90);
  }
}

function needing(stored: StoredAngles, ...planes: number[]): StoredAngles {
  const missing = planes.find((plane) => !stored.angles.some((angle) => near(angle, plane)));
  return missing === undefined ? stored : { ...stored, missing };
}
