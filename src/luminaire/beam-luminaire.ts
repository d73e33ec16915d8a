/**
 * A luminaire from flux and beam angle, with peak intensity and field angle where they are printed: the lobe of
 * `beam-lobe.ts`, tabulated.
 *
 * Nodes lie where the lobe bends: cells are halved until the straight line between nodes is within 1e-4 of the
 * local intensity (1e-6 of the peak where that is more), down to cells of 1e-7 rad; so intensity and flux are
 * those of the lobe within 1e-4.
 *
 * How far such a lobe is from the lamp it stands for: for five measured lamps flux and beam angle alone give the
 * axial intensity within −20 … +35 % (`tests/validation/beam-model.test.ts`); the evidence classes carry it.
 */

import { type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import type { IntensityDistribution } from "../photometry/intensity-distribution.ts";
import { luminousFlux } from "../photometry/luminous-flux.ts";
import { type LuminousOpening, POINT_OPENING } from "../photometry/luminous-opening.ts";
import { degrees } from "../units/quantities.ts";
import { type BeamData, type BeamLobe, fitLobe, lobeIntensity } from "./beam-lobe.ts";
import type { Luminaire } from "./luminaire.ts";

const LOCAL_ERROR = 1e-4;
const LEAST_ERROR = 1e-6;
const NARROWEST_CELL = 1e-7;

export interface BeamLuminaireData extends BeamData {
  /** W */
  readonly watts?: number;
  /** A point unless said. */
  readonly opening?: LuminousOpening;
}

/** The luminaire, or why the data make none. Evidence: peak and beam when the peak is known, else flux and
 * beam. Warnings where a field angle could not be kept. */
export function beamLuminaire(name: string, data: BeamLuminaireData): Outcome<Luminaire> {
  const lobe = fitLobe(data);
  if (!lobe.ok) return lobe;
  const { flux, watts, opening = POINT_OPENING, peakIntensity } = data;
  const distribution = tabulateLobe(lobe.value);
  const warnings: readonly Issue[] = lobe.warnings;
  return success(
    {
      name,
      distribution,
      emission: { kind: "opening", opening },
      evidence: peakIntensity === undefined ? "D" : "C",
      flux: luminousFlux(distribution).total,
      ratedFlux: flux,
      ...(watts === undefined ? {} : { watts }),
      origin: describe(data),
    },
    warnings,
  );
}

/** The lobe on nodes of its own choosing, 0…90°. */
export function tabulateLobe(lobe: BeamLobe): IntensityDistribution {
  // In shares of the peak: of a flux near the least number there is, rounding would bend every cell.
  const shape = { ...lobe, peak: 1 };
  const I = (gamma: number) => lobeIntensity(shape, gamma);
  const gamma: number[] = [];
  const intensity: number[] = [];

  /** Nodes of [a, b) in order. */
  const add = (a: number, b: number, Ia: number, Ib: number): void => {
    const m = (a + b) / 2;
    const Im = I(m);
    const bends = [0.25, 0.5, 0.75].some((t) => {
      const exact = t === 0.5 ? Im : I(a + t * (b - a));
      return Math.abs((1 - t) * Ia + t * Ib - exact) > Math.max(LOCAL_ERROR * exact, LEAST_ERROR);
    });
    if (bends && b - a > NARROWEST_CELL) {
      add(a, m, Ia, Im);
      add(m, b, Im, Ib);
    } else {
      gamma.push(a);
      intensity.push(Ia);
    }
  };
  const cells = 18;
  const edge = (i: number) => (i * Math.PI) / (2 * cells);
  for (let i = 0; i < cells; i++) add(edge(i), edge(i + 1), I(edge(i)), I(edge(i + 1)));
  gamma.push(Math.PI / 2);
  intensity.push(0);
  return {
    type: "C",
    symmetry: "rotational",
    horizontal: Float64Array.of(0),
    vertical: Float64Array.from(gamma),
    intensity: Float64Array.from(intensity, (share) => share * lobe.peak),
  };
}

function describe({ flux, beamAngle, peakIntensity, fieldAngle }: BeamData): string {
  const round = (x: number) => Number(x.toPrecision(4));
  const parts = [`${round(flux)} lm`, `beam ${round(degrees(beamAngle))}°`];
  if (fieldAngle !== undefined) parts.push(`field ${round(degrees(fieldAngle))}°`);
  if (peakIntensity !== undefined) parts.push(`peak ${round(peakIntensity)} cd`);
  return parts.join(", ");
}
