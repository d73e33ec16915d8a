/** How far apart the luminaires of a row are. */

export interface RowSpread {
  readonly count: number;
  readonly spacing?: number;
  readonly gap?: number;
  readonly end?: number;
}

/** Centre-to-centre spacing of a row (m), however it was given. */
export function rowSpacing(
  { count, spacing, gap, end }: RowSpread,
  islandLength: number,
  rim: number,
): number {
  if (spacing !== undefined) return spacing;
  if (gap !== undefined) return gap + rim;
  if (end !== undefined) return count === 1 ? 0 : (islandLength - 2 * end - rim) / (count - 1);
  return islandLength / count;
}
