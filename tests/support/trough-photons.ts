/** An open trough with a strip along its top by brute force: photons by chance between five planes until they leave
 * by the mouth or are lost. Mouth at z = 0, x along the length. */
import { randomStream } from "./random-stream.ts";

export interface PhotonTrough {
  readonly length: number;
  readonly width: number;
  readonly depth: number;
  readonly strip: number;
  readonly reflectance: number;
}

export interface TroughCount {
  readonly lightOutputRatio: number;
  /** Share of the flux per steradian in cells [C band][γ band]: C within ±5° of 0, 30, 60, 90° (and their mirror
   * images), γ in steps of 5°. */
  readonly intensity: readonly Float64Array[];
  readonly intensityErrors: readonly Float64Array[];
  /** Illuminance per lumen (1/m²) in 5 cm squares from the middle outwards across, `drop` below: [drop][cell], the
   * square's length along x 20 cm about the middle. */
  readonly across: readonly Float64Array[];
  readonly acrossErrors: readonly Float64Array[];
}

export const C_BANDS = [0, 30, 60, 90];

export function traceTroughPhotons(
  { length, width, depth, strip, reflectance }: PhotonTrough,
  photons: number,
  seed: number,
  drops: readonly number[],
  cells: number,
): TroughCount {
  const random = randomStream(seed);
  const intensity = C_BANDS.map(() => new Float64Array(18));
  const across = drops.map(() => new Float64Array(cells));
  const half = [length / 2, width / 2];
  let out = 0;
  for (let k = 0; k < photons; k++) {
    const p = [length * (random() - 0.5), strip * (random() - 0.5), depth];
    let d = cosine(2, -1);
    for (;;) {
      // Nearest of the planes ahead.
      let t = Infinity;
      let axis = 2;
      for (let a = 0; a < 3; a++) {
        if (d[a] === 0) continue;
        const wall = a === 2 ? (d[a] > 0 ? depth : 0) : Math.sign(d[a]) * half[a];
        const s = (wall - p[a]) / d[a];
        if (s < t) {
          t = s;
          axis = a;
        }
      }
      for (let a = 0; a < 3; a++) p[a] += t * d[a];
      if (axis === 2 && d[2] < 0) {
        out++;
        score(p, d);
        break;
      }
      if (random() >= reflectance) break;
      const side = d[axis] > 0 ? -1 : 1;
      p[axis] = axis === 2 ? depth : -side * half[axis];
      d = cosine(axis, side);
    }
  }
  const zone = (j: number) => {
    const step = Math.PI / 36;
    return Math.cos(j * step) - Math.cos((j + 1) * step);
  };
  // A band of 10° in each of its mirror images: two for 0 and 90°, four for the others.
  const azimuth = (b: number) => ((C_BANDS[b] % 90 === 0 ? 2 : 4) * Math.PI) / 18;
  const area = 2 * 0.05 * 0.2;
  return {
    lightOutputRatio: out / photons,
    intensity: intensity.map((row, b) => row.map((c, j) => c / photons / zone(j) / azimuth(b))),
    intensityErrors: intensity.map((row, b) =>
      row.map((c, j) => Math.sqrt(c) / photons / zone(j) / azimuth(b)),
    ),
    across: across.map((row) => row.map((c) => c / photons / area)),
    acrossErrors: across.map((row) => row.map((c) => Math.sqrt(c) / photons / area)),
  };

  function score(p: readonly number[], d: readonly number[]): void {
    const folded = (Math.atan2(Math.abs(d[1]), Math.abs(d[0])) * 180) / Math.PI;
    const j = Math.min(17, Math.floor((Math.acos(-d[2]) * 36) / Math.PI));
    C_BANDS.forEach((c, b) => {
      if (Math.abs(folded - c) <= 5) intensity[b][j]++;
    });
    drops.forEach((drop, i) => {
      const t = -drop / d[2];
      const x = p[0] + t * d[0];
      const cell = Math.floor(Math.abs(p[1] + t * d[1]) / 0.05);
      if (Math.abs(x) < 0.1 && cell < cells) across[i][cell]++;
    });
  }

  function cosine(axis: number, side: number): number[] {
    const z = 2 * random() - 1;
    const s = Math.sqrt(1 - z * z);
    const a = 2 * Math.PI * random();
    const d = [s * Math.cos(a), s * Math.sin(a), z];
    d[axis] += side;
    const l = Math.hypot(d[0], d[1], d[2]);
    return d.map((v) => v / l);
  }
}
