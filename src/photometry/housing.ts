/** Outer size of the luminaire as a photometric file states it (m): `length` along C0–C180, `width` along C90–C270, both the diameter
 * of a round one; `height` is 0 where the file states none. */
export interface Housing {
  readonly isRound: boolean;
  readonly length: number;
  readonly width: number;
  readonly height: number;
}
