/**
 * A luminaire from what the maker prints: lamp and shade in, luminaire out.
 *
 * The far field is tabulated at every degree of γ; the photometric centre lies on the axis, in the mouth of an
 * opaque shade, in the middle of one that lets light through. Light output ratio = escaped / emitted.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import { ringArea } from "../../geometry/revolved-surface.ts";
import type { IntensityDistribution } from "../../photometry/intensity-distribution.ts";
import type { Body } from "../body.ts";
import type { Luminaire } from "../luminaire.ts";
import { assemble } from "./assembly.ts";
import { type LampDefinition, lampSource } from "./lamp.ts";
import { GROUP_STRIDE } from "./light-table.ts";
import { type MirrorLight, mirrorLight } from "./mirror-light.ts";
import type { Shade } from "./shade.ts";
import { outlineOfRings } from "./shade-form.ts";
import { ringExitances, type ShadeLight, shadeSums } from "./shade-light.ts";
import type { TracedShade } from "./tally.ts";
import { traceShade } from "./trace.ts";

export interface ShadeAccuracy {
  /** Half-widths of the 95 % bands of the intensity straight down and of the light output ratio, relative. */
  readonly axial: number;
  readonly ratio: number;
}

export const DEFAULT_ACCURACY: ShadeAccuracy = { axial: 0.01, ratio: 0.005 };

export interface ShadePhotometry {
  readonly distribution: IntensityDistribution;
  readonly light: ShadeLight;
  readonly traced: TracedShade;
  readonly lightOutputRatio: number;
  /** Share of the escaping light that goes below the horizon. */
  readonly downwardShare: number;
  /** The bands reached: of the axial intensity with what rings leave open. */
  readonly band: ShadeAccuracy;
  /** Mean intensity within 6° of straight down (cd). What a mirror sends is a mean within 3° on the axis itself, where few rays go: where the
   * two differ much, its light changes fast about the axis. */
  readonly wideAxial: number;
}

const SEED = 20_240_501;
const BATCH = 8_000;
/** Relative error of the intensity by rings taken as their centres; checked against photons in the tests. */
const RING_ERROR = 0.005;
const GAMMA_STEPS = 180;

/** Traces a shade until its band is reached or a million photons are spent. Same inputs, same bytes. */
export function tracePhotometry(
  shade: Shade,
  lamps: readonly LampDefinition[],
  accuracy: ShadeAccuracy = DEFAULT_ACCURACY,
  observer?: Observer,
): ShadePhotometry {
  const assembly = assemble(shade, lamps.map(lampSource));
  const n = assembly.surface.count;
  // Axial intensity is linear in the exitances, so its scatter over the batches costs no second trace.
  const blank = shadeSums({
    assembly,
    inwardExitance: new Float64Array(n),
    outwardExitance: new Float64Array(n),
  });
  const lampAxial = blank.intensity(0);
  const weight = new Float64Array(2 * n);
  for (let i = 0; i < n; i++) {
    const area = ringArea(assembly.surface, i);
    if (area === 0) continue;
    weight[i] = (blank.ringIntensity(i, 0, false) * assembly.flux) / area;
    weight[n + i] = (blank.ringIntensity(i, 0, true) * assembly.flux) / area;
  }
  const bandOf = (traced: TracedShade): ShadeAccuracy => {
    const axials = traced.batches.map((batch) =>
      batch.reduce((sum, share, i) => sum + share * weight[i], lampAxial),
    );
    return {
      axial: relativeBand(axials),
      ratio: traced.escaped > 0 ? (1.96 * traced.escapedError) / traced.escaped : 0,
    };
  };
  const traced = traceShade(
    assembly,
    {
      seed: SEED,
      batchPhotons: BATCH,
      minimumBatches: 6,
      maximumBatches: 125,
      enough: (so) => {
        const band = bandOf(so);
        return band.axial <= accuracy.axial && band.ratio <= accuracy.ratio;
      },
    },
    observer,
  );
  const inwardExitance = ringExitances(assembly, traced.inwards);
  const outwardExitance = ringExitances(assembly, traced.outwards);
  const mirror = mirrorLight(assembly, inwardExitance, outwardExitance, SEED);
  const light: ShadeLight = { assembly, inwardExitance, outwardExitance, mirrored: mirror?.table };
  const sums = shadeSums(light);
  const vertical = Float64Array.from({ length: GAMMA_STEPS + 1 }, (_, i) => (i * Math.PI) / GAMMA_STEPS);
  const intensity = vertical.map((gamma, j) => sums.intensity(gamma) + mirroredIntensity(mirror, j));
  return {
    distribution: { type: "C", symmetry: "rotational", horizontal: Float64Array.of(0), vertical, intensity },
    light,
    traced,
    lightOutputRatio: traced.escaped,
    downwardShare: traced.escaped > 0 ? traced.escapedDown / traced.escaped : 0,
    band: withRings(bandOf(traced), mirror, intensity[0]),
    wideAxial: intensity[0] + (mirror?.axialStep ?? 0),
  };
}

/** Statistical bands widened by the rings and by the scatter of the mirror-like light. */
function withRings(
  { axial, ratio }: ShadeAccuracy,
  mirror: MirrorLight | undefined,
  I: number,
): ShadeAccuracy {
  const mirrored = mirror === undefined || I === 0 ? 0 : (1.96 * mirror.axialError) / I;
  return { axial: Math.hypot(axial, RING_ERROR, mirrored), ratio };
}

/** Intensity of the mirror-like light at `j` degrees: the first row of its table. */
function mirroredIntensity(mirror: MirrorLight | undefined, j: number): number {
  if (mirror === undefined) return 0;
  const { values, groups } = mirror.table;
  const gamma = (j * Math.PI) / GAMMA_STEPS;
  let sum = 0;
  for (let g = 0; g < groups; g++) {
    const at = (j * groups + g) * GROUP_STRIDE;
    sum += 2 * (values[at + 2] * Math.cos(gamma) - values[at] * Math.sin(gamma));
  }
  return sum;
}

function relativeBand(values: readonly number[]): number {
  const k = values.length;
  if (k < 2) return 1;
  const mean = values.reduce((sum, value) => sum + value, 0) / k;
  if (mean === 0) return 0;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (k - 1);
  return (1.96 * Math.sqrt(variance / k)) / mean;
}

export interface ShadeLuminaireOptions {
  readonly name: string;
  readonly origin: string;
  readonly watts?: number;
  readonly accuracy?: ShadeAccuracy;
}

/** Builds the luminaire; its light near by is that of lamp and shade in place. */
export function shadeLuminaire(
  shade: Shade,
  lamps: readonly LampDefinition[],
  options: ShadeLuminaireOptions,
  observer?: Observer,
): { readonly luminaire: Luminaire; readonly photometry: ShadePhotometry } {
  const photometry = tracePhotometry(shade, lamps, options.accuracy, observer);
  const { distribution, light } = photometry;
  const { assembly } = light;
  const height = shade.height;
  const across = shade.mouth?.diameter ?? shade.diameter;
  const body: Body = {
    profile: "profile",
    diameter: shade.diameter,
    height,
    offset: 0,
    outline: outlineOfRings(shade.segments).map(([r, z]) => [r, z - assembly.centre] as const),
    reflectance: shade.segments[0].material.outside,
    transmittance: Math.min(...shade.segments.map((s) => s.material.transmittance)),
    seeThrough: Math.min(...shade.segments.map((s) => s.material.transmittance * (1 - s.material.diffusion))),
  };
  const luminaire: Luminaire = {
    name: options.name,
    origin: options.origin,
    distribution,
    emission: {
      kind: "surfaces",
      opening: {
        shape: shade.mouth === undefined ? "cylinder" : "disc",
        length: across,
        width: across,
        height: shade.mouth === undefined ? height : 0,
      },
      light,
      size: 1,
      strength: 1,
    },
    body,
    evidence: "E",
    flux: assembly.flux * photometry.lightOutputRatio,
    ratedFlux: assembly.flux,
    watts: options.watts,
  };
  return { luminaire, photometry };
}
