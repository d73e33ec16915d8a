/**
 * Configuration factor from a differential receiver to any flat polygon, by Lambert's contour formula.
 *
 * F = (1/2π) Σ βᵢ cos γᵢ over the edges: βᵢ the angle an edge subtends at the receiver, γᵢ the angle between
 * the receiver's normal and the normal of the plane through the receiver and that edge [1, 2].
 * The part below the receiver's horizon is clipped away; the cut along the horizon is an edge like any other.
 *
 * [1] J. H. Lambert, Photometria, 1760. [2] J. R. Howell, A Catalog of Radiation Heat Transfer Configuration
 * Factors, introduction. [3] S. L. Moshier, Methods and Programs for Mathematical Functions, 1989 (the Cephes library).
 * Error is rounding, about 1e-15 absolute; see the note on the rim below.
 */

/** Factor from the point (px, py, pz) with unit normal (nx, ny, nz) to the polygon of `count` vertices,
 * `vertices[3 (offset + i)…]`, which may be concave.
 *
 * Signed: positive from the side on which the vertices run counter-clockwise (the front of a surface), negative
 * from behind, so that clockwise holes subtract; zero in the polygon's plane. A point exactly on an edge of an
 * upright polygon takes the limit from the front. Never allocates. */
export function elementToPolygon(
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
  vertices: ArrayLike<number>,
  count = vertices.length / 3,
  offset = 0,
): number {
  let start = -1;
  for (let i = 0; i < count; i++) {
    const k = 3 * (offset + i);
    if (nx * (vertices[k] - px) + ny * (vertices[k + 1] - py) + nz * (vertices[k + 2] - pz) > 0) {
      start = i;
      break;
    }
  }
  if (start < 0) return 0;

  let sum = 0;
  let k = 3 * (offset + start);
  let ax = vertices[k] - px;
  let ay = vertices[k + 1] - py;
  let az = vertices[k + 2] - pz;
  let ah = nx * ax + ny * ay + nz * az;
  // Where the outline last went below the horizon.
  let ox = 0;
  let oy = 0;
  let oz = 0;
  for (let step = 1; step <= count; step++) {
    const index = start + step;
    k = 3 * (offset + (index >= count ? index - count : index));
    const bx = vertices[k] - px;
    const by = vertices[k + 1] - py;
    const bz = vertices[k + 2] - pz;
    const bh = nx * bx + ny * by + nz * bz;
    if (ah > 0 && bh > 0) {
      sum += edge(ax, ay, az, bx, by, bz, nx, ny, nz);
    } else if (ah > 0) {
      const t = ah / (ah - bh);
      ox = ax + t * (bx - ax);
      oy = ay + t * (by - ay);
      oz = az + t * (bz - az);
      sum += edge(ax, ay, az, ox, oy, oz, nx, ny, nz);
    } else if (bh > 0) {
      const t = ah / (ah - bh);
      const ix = ax + t * (bx - ax);
      const iy = ay + t * (by - ay);
      const iz = az + t * (bz - az);
      sum += horizon(ox, oy, oz, ix, iy, iz, nx, ny, nz);
      sum += edge(ix, iy, iz, bx, by, bz, nx, ny, nz);
    }
    ax = bx;
    ay = by;
    az = bz;
    ah = bh;
  }
  return -sum / (2 * Math.PI);
}

/** β cos γ of one edge. */
function edge(
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  nx: number,
  ny: number,
  nz: number,
): number {
  const cx = ay * bz - az * by;
  const cy = az * bx - ax * bz;
  const cz = ax * by - ay * bx;
  const square = cx * cx + cy * cy + cz * cz;
  const cosine = ax * bx + ay * by + az * bz;
  const across = cx * nx + cy * ny + cz * nz;
  const z = square / (cosine * cosine);
  // Most edges subtend less than 33°, where the arc over its sine needs neither root nor call: atan(t) / t, z = t² [3].
  if (cosine > 0 && z < 0.43) {
    const p =
      (((-8.750608600031904e-1 * z - 1.615753718733365e1) * z - 7.500855792314705e1) * z -
        1.2288666844901361e2) *
        z -
      6.485021904942025e1;
    const q =
      ((((z + 2.485846490142306e1) * z + 1.6502700983169885e2) * z + 4.328810604912903e2) * z +
        4.853903996359137e2) *
        z +
      1.945506571482614e2;
    return (across * (q + z * p)) / (cosine * q);
  }
  if (square === 0) return 0;
  const sine = Math.sqrt(square);
  return (Math.atan2(sine, cosine) / sine) * across;
}

/** The cut along the horizon: its plane's normal is the receiver's, so cos γ = ±1. */
function horizon(
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  nx: number,
  ny: number,
  nz: number,
): number {
  const s = nx * (ay * bz - az * by) + ny * (az * bx - ax * bz) + nz * (ax * by - ay * bx);
  const c = ax * bx + ay * by + az * bz;
  // On the edge itself the direction of the half turn is lost; the front side is meant.
  if (s === 0 && c < 0) return -Math.PI;
  return Math.atan2(s, c);
}
