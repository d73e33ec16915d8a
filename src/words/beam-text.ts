/** A beam angle in words: of a luminaire whose planes differ, the mean is no plane's, so that it is said to be one. */

/** `118°`; `74° (mean of planes, 57° to 136°)` where they print otherwise. @param mean of the planes (°) @param planes full angle of each (°) */
export function beamText(mean: number, planes: readonly number[]): string {
  const [least, most] = [Math.min(...planes), Math.max(...planes)].map(Math.round);
  const words = `${Math.round(mean)}°`;
  return least === most || planes.length === 0 ? words : `${words} (mean of planes, ${least}° to ${most}°)`;
}
