/**
 * Configuration factors between two axis-parallel rectangles, parallel or perpendicular, anywhere.
 *
 * A₁F₁₂ = Σ (−1)^(i+j+k+l) G(corner differences), the fourfold integral of cosθ₁ cosθ₂ / (π s²) in closed form.
 * `exchange…` functions return A₁F₁₂ = A₂F₂₁ (m²), symmetric by construction; divide by the emitting area.
 *
 * [1] J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors, C-11, C-13, C-14, C-16.
 * Known error: rounding; about 1e-16 · (distance⁴ / (A₁A₂)) relative, so 1e-9 for 0.1 m patches 3 m apart.
 */

/** Exchange area of the parallel rectangles [x1, x2] × [y1, y2] and [ξ1, ξ2] × [η1, η2], `z` apart and facing
 * each other. Zero when `z` is: coplanar surfaces do not see each other. */
export function exchangeParallel(
  x1: number,
  x2: number,
  y1: number,
  y2: number,
  ξ1: number,
  ξ2: number,
  η1: number,
  η2: number,
  z: number,
): number {
  if (z === 0) return 0;
  const w = Math.abs(z);
  return (
    strip(x1 - ξ1, y1, y2, η1, η2, w) -
    strip(x1 - ξ2, y1, y2, η1, η2, w) -
    strip(x2 - ξ1, y1, y2, η1, η2, w) +
    strip(x2 - ξ2, y1, y2, η1, η2, w)
  );
}

function strip(δx: number, y1: number, y2: number, η1: number, η2: number, z: number): number {
  return (
    parallelTerm(δx, y1 - η1, z) -
    parallelTerm(δx, y1 - η2, z) -
    parallelTerm(δx, y2 - η1, z) +
    parallelTerm(δx, y2 - η2, z)
  );
}

/** G of two parallel rectangles at one pair of corners; for callers that share corners between many pairs. */
export function parallelTerm(δx: number, δy: number, z: number): number {
  const zz = z * z;
  const u = Math.sqrt(δx * δx + zz);
  const v = Math.sqrt(δy * δy + zz);
  return (
    (δy * u * Math.atan(δy / u) + δx * v * Math.atan(δx / v) - 0.5 * zz * Math.log(δx * δx + δy * δy + zz)) /
    (2 * Math.PI)
  );
}

/** Exchange area of two perpendicular rectangles whose planes meet in the y axis: one in the plane z = 0 over
 * [x1, x2] × [y1, y2], the other in the plane x = 0 over [ξ1, ξ2] of z and [η1, η2] of y. `x` and `ξ` are
 * distances from the common line, ≥ 0: the parts of each rectangle on the other's front side. */
export function exchangePerpendicular(
  x1: number,
  x2: number,
  y1: number,
  y2: number,
  ξ1: number,
  ξ2: number,
  η1: number,
  η2: number,
): number {
  return (
    ridge(x1 * x1 + ξ1 * ξ1, y1, y2, η1, η2) -
    ridge(x1 * x1 + ξ2 * ξ2, y1, y2, η1, η2) -
    ridge(x2 * x2 + ξ1 * ξ1, y1, y2, η1, η2) +
    ridge(x2 * x2 + ξ2 * ξ2, y1, y2, η1, η2)
  );
}

function ridge(cc: number, y1: number, y2: number, η1: number, η2: number): number {
  return (
    perpendicularTerm(cc, y1 - η1) -
    perpendicularTerm(cc, y1 - η2) -
    perpendicularTerm(cc, y2 - η1) +
    perpendicularTerm(cc, y2 - η2)
  );
}

/** G of two perpendicular rectangles: `cc` = x² + ξ², `D` = y − η. */
export function perpendicularTerm(cc: number, D: number): number {
  const sum = cc + D * D;
  // The limit of t² ln t² at the point both rectangles share.
  if (sum === 0) return 0;
  const C = Math.sqrt(cc);
  const arc = C === 0 ? 0 : D * C * Math.atan(D / C);
  return (arc - 0.25 * (cc - D * D) * Math.log(sum)) / (2 * Math.PI);
}
