import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";

/** The distribution as its mirror image across the plane x–z: H → −H, C → 2π − C. For the file whose maker
 * counted the horizontal angle the other way round; changes nothing where both sides are alike. */
export function mirrorHorizontal(distribution: IntensityDistribution): IntensityDistribution {
  const { horizontal, vertical, intensity, type } = distribution;
  const planes = horizontal.length;
  if (type === "C" && planes === 1) return distribution;
  const full = type === "C" ? 2 * Math.PI : 0;
  const size = vertical.length;
  const mirrored = new Float64Array(intensity.length);
  for (let h = 0; h < planes; h++) {
    mirrored.set(intensity.subarray((planes - 1 - h) * size, (planes - h) * size), h * size);
  }
  // 0 − 0 rather than −0, so that a centre plane stays the plane people ask for.
  const angles = Float64Array.from(horizontal, (_, h) => full - horizontal[planes - 1 - h]);
  return { ...distribution, horizontal: angles, intensity: mirrored };
}
