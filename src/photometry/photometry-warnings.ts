/**
 * What a careful eye finds odd in a photometric file that reads without error. None of it alters a figure.
 *
 * Thresholds are common practice, no source, unless a line says otherwise; each stands beside its reason.
 */

import type { Issue } from "../diagnostics/issue.ts";
import { degrees } from "../units/quantities.ts";
import type { BeamAngle } from "./beam-angle.ts";
import { orSayWhich } from "./flux-expected.ts";
import { implausibleValues, implausibleWords } from "./implausible.ts";
import type { IntensityDistribution } from "./intensity-distribution.ts";
import { FLUX_TOLERANCE, type LuminousFlux } from "./luminous-flux.ts";
import type { MaximumIntensity } from "./maximum-intensity.ts";
import type { Photometry } from "./photometry.ts";
import { unstatedOpening } from "./unstated-opening.ts";

/** A luminaire that lets out less than a tenth of its lamps' flux is rather a slip of units. */
const LEAST_OUTPUT_RATIO = 0.1;
/** Uplight below this share is noise; above ten times of it, meant. */
const STRAY_UPLIGHT = 0.005;
const MEANT_UPLIGHT = 0.1;
/** Planes share one nadir and one zenith; a goniophotometer repeats within 2 %. */
const POLE_SPREAD = 0.02;
/** A table ending on more than a twentieth of its peak cuts light off. */
const CUT_OFF = 0.05;
/** Fewer steps than this across half a beam: a chord misses 2 % or more of the flux. */
const LEAST_STEPS = 3;
/** White light of good colour cannot pass about 300 lm/W; below 2 lm/W nothing is sold. */
const EFFICACY = [2, 300] as const;
const LARGEST_RESAMPLING_ERROR = 0.02;

export interface Analysis {
  readonly flux: LuminousFlux;
  readonly maximum: MaximumIntensity;
  readonly beam: BeamAngle;
}

/** Warnings about a file's light. `known` are those its reader gave: what it has said is not said twice. */
export function photometryWarnings(
  photometry: Photometry,
  { flux, maximum, beam }: Analysis,
  issues: readonly Issue[] = [],
): Issue[] {
  const { distribution, ratedFlux, absolute, watts } = photometry;
  const warnings: Issue[] = [];
  const said = (code: string) =>
    issues.some((issue) => issue.code === code || issue.code.endsWith(`-${code}`));
  const warn = (code: string, message: string, expected?: string, received?: string) => {
    if (!said(code)) warnings.push({ code, severity: "warning", message, expected, received, where: {} });
  };

  if (!(maximum.intensity > 0)) {
    warn("no-light", "Every intensity is zero.");
    return warnings;
  }
  if (!(flux.total > 0)) {
    warn("no-light", "The table spans no solid angle, so there is no flux.");
    return warnings;
  }
  const beyond = implausibleValues({
    intensity: maximum.intensity,
    flux: flux.total,
    opening: photometry.opening,
    ...(watts === undefined ? {} : { watts }),
  });
  for (const value of beyond) {
    const { message, expected, received } = implausibleWords(value);
    warn(`${value.quantity}-odd`, message, expected, received);
  }
  const unstated = unstatedOpening(photometry.opening);
  if (unstated !== undefined) warn(unstated.code, unstated.message, unstated.expected);
  if (ratedFlux !== undefined && ratedFlux > 0) {
    const ratio = flux.total / ratedFlux;
    const lumens = `${number(flux.total)} lm`;
    if (ratio > 1 + FLUX_TOLERANCE || (absolute && ratio < 1 - FLUX_TOLERANCE))
      warn(
        "flux-mismatch",
        "The flux integral of the intensities does not match the rated flux.",
        orSayWhich(`${absolute ? "" : "at most "}${number(ratedFlux)} lm`),
        lumens,
      );
    else if (ratio < LEAST_OUTPUT_RATIO)
      warn(
        "flux-low",
        "Hardly any of the lamps' flux leaves the luminaire; units or multiplier may be wrong.",
        `more than ${100 * LEAST_OUTPUT_RATIO} % of ${number(ratedFlux)} lm`,
        lumens,
      );
  }
  if (watts !== undefined && watts > 0) {
    const efficacy = flux.total / watts;
    if (
      efficacy < EFFICACY[0] ||
      (efficacy > EFFICACY[1] && !warnings.some(({ code }) => code === "efficacy-odd"))
    )
      warn(
        "efficacy-odd",
        "Flux and watts do not go together.",
        `${EFFICACY[0]} to ${EFFICACY[1]} lm/W`,
        `${number(efficacy)} lm/W`,
      );
  }
  const { shape } = photometry.opening;
  const uplight = flux.upward / (flux.upward + flux.downward);
  if ((shape === "disc" || shape === "rectangle") && uplight > STRAY_UPLIGHT && uplight < MEANT_UPLIGHT)
    warn(
      "stray-uplight",
      "Some light goes up although the opening is flat and the rest goes down: a true gap, or stray light of the measurement.",
      undefined,
      `${number(100 * uplight)} % upward`,
    );
  if (distribution.type === "C") typeCWarnings(distribution, maximum, warn);
  const half = beam.ofMaximum === undefined ? Number.POSITIVE_INFINITY : beam.ofMaximum / 2;
  const step = stepAt(distribution.vertical, distribution.type === "C" ? maximum.gamma : 0);
  if (step * LEAST_STEPS > half)
    warn(
      "coarse-angles",
      "The angles are coarse for so narrow a beam; between them the intensity is a straight line.",
      `steps of at most ${number(degrees(half / LEAST_STEPS))}°`,
      `${number(degrees(step))}°`,
    );
  const resampling = flux.resampling?.intensityError ?? 0;
  if (resampling > LARGEST_RESAMPLING_ERROR)
    warn(
      "resampling-error",
      "Zonal flux, beam and polar diagram rest on a 1° resampling that this distribution's steps do not fit; illuminance does not.",
      undefined,
      `${number(100 * resampling)} % of the peak at worst`,
    );
  return warnings;
}

type Warn = (code: string, message: string, expected?: string, received?: string) => void;

function typeCWarnings(
  { horizontal, vertical, intensity }: IntensityDistribution,
  maximum: MaximumIntensity,
  warn: Warn,
) {
  const size = vertical.length;
  const first = degrees(vertical[0]);
  const last = degrees(vertical[size - 1]);
  const near = (a: number, b: number) => Math.abs(a - b) < 0.01;
  if (!(near(first, 0) || near(first, 90)) || !(near(last, 90) || near(last, 180)))
    warn(
      "vertical-range",
      "The vertical angles do not span a hemisphere or the sphere; beyond them there is no light.",
      "from 0 or 90 to 90 or 180",
      `${number(first)} to ${number(last)}`,
    );
  const planes = horizontal.length;
  for (const [row, name, reached] of [
    [0, "nadir", near(first, 0)],
    [size - 1, "zenith", near(last, 180)],
  ] as const) {
    if (!reached) continue;
    let least = Number.POSITIVE_INFINITY;
    let most = 0;
    for (let h = 0; h < planes; h++) {
      least = Math.min(least, intensity[h * size + row]);
      most = Math.max(most, intensity[h * size + row]);
    }
    // Against the peak, so that noise of a dark pole stays unsaid.
    if (most - least > POLE_SPREAD * maximum.intensity)
      warn(
        `${name}-disagrees`,
        `The planes disagree at the ${name}, which is one direction.`,
        "one value",
        `${number(least)} to ${number(most)} cd`,
      );
  }
  if (last < 180 - 0.01) {
    let edge = 0;
    for (let h = 0; h < planes; h++) edge = Math.max(edge, intensity[h * size + size - 1]);
    if (edge > CUT_OFF * maximum.intensity)
      warn(
        "ends-on-light",
        `The table ends at ${number(last)}° on light, and there is none beyond it: was the rest not measured?`,
        undefined,
        `${number(edge)} cd, ${number((100 * edge) / maximum.intensity)} % of the peak`,
      );
  }
}

/** Step of rising angles about x (rad). */
function stepAt(angles: Float64Array, x: number): number {
  let step = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < angles.length; i++)
    if (angles[i] <= x + 1e-9 && x <= angles[i + 1] + 1e-9) step = Math.min(step, angles[i + 1] - angles[i]);
  return Number.isFinite(step) ? step : 0;
}

function number(x: number): string {
  return String(Number(x.toPrecision(4)));
}
