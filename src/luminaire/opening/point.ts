/** An opening without extent: the inverse-square law from the photometric centre. */

import type { Vec3 } from "../../geometry/vector.ts";
import type { Half, OpeningKind, OpeningSurface } from "./opening-surface.ts";

class PointOpening implements OpeningSurface {
  readonly kind = "point";
  readonly half: Half = [0, 0, 0];
  readonly axis = 2;
  readonly radius = 0;
  readonly ends = new Float64Array(6);
  readonly flat = true;
  readonly rotational = false;

  projectedArea(): number {
    return 0;
  }

  maximumElements(): number {
    return 1;
  }

  elements(): void {}

  sample(_x: number, _y: number, _z: number, _s: number, _t: number, out: Float64Array, k: number): number {
    out.fill(0, k, k + 3);
    return 1;
  }

  polygons(): Vec3[][] {
    return [];
  }
}

export const POINT: OpeningKind = { kind: "point", shader: 0, of: () => new PointOpening() };
