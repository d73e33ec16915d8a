/** Outer size of the luminaire as a photometric file states it, unchecked (m): `length` along C0–C180, 0 of a round one; `width` along
 * C90–C270, or the diameter; `height` is 0 where the file states none. */
export interface Housing {
  readonly length: number;
  readonly width: number;
  readonly height: number;
}
