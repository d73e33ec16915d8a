/** A closed triangle mesh in room coordinates (m): `positions` holds x, y, z per vertex, `triangles` three
 * vertex indices per face, counter-clockwise seen from outside. */
export interface Mesh {
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
}
