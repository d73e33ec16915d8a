/**
 * What a photometric file holds, in the words and units of those who read it: degrees, lumens, candela, metres.
 * This is what `inspect --json` prints, one object a file.
 */

import { formatIssue, type Issue, type SourceLocation } from "../diagnostics/issue.ts";
import { degrees } from "../units/quantities.ts";
import { type AngularWidth, axialIntensity, type BeamAngle, beamAngle, FIELD_LEVEL } from "./beam-angle.ts";
import { resampleToC } from "./c-gamma-resampling.ts";
import { fluxCode, formatFluxCode } from "./flux-code.ts";
import type { PhotometryType, Symmetry } from "./intensity-distribution.ts";
import { luminousFluxOf } from "./luminous-flux.ts";
import type { LuminousOpening } from "./luminous-opening.ts";
import { maximumIntensity } from "./maximum-intensity.ts";
import { type OrderFacts, orderFacts } from "./order-facts.ts";
import type { PhotometricFormat } from "./photometric-formats.ts";
import type { Photometry } from "./photometry.ts";
import { photometryWarnings } from "./photometry-warnings.ts";
import { measuredSymmetry } from "./symmetry.ts";

/** Full angle and its two edges (°); edges are negative on the side of C + 180°. */
export interface WidthSummary {
  readonly angle: number;
  readonly from: number;
  readonly to: number;
}

/** Angles at a fraction of the maximum of each plane, and of the axial value (°); null where there is none. */
export interface BeamSummary {
  readonly level: number;
  /** Mean over the planes. */
  readonly ofMaximum: number | null;
  readonly ofAxial: number | null;
  readonly planes: readonly {
    /** The plane C–(C + 180°). */
    readonly C: number;
    readonly ofMaximum: WidthSummary | null;
    readonly ofAxial: WidthSummary | null;
  }[];
}

export interface WarningSummary {
  readonly code: string;
  readonly message: string;
  readonly where: SourceLocation;
}

export interface PhotometrySummary extends OrderFacts {
  readonly format: PhotometricFormat;
  readonly edition: string;
  readonly type: PhotometryType;
  /** As the file declares it. */
  readonly symmetry: Symmetry;
  /** The strongest the table has within 1 % of its peak. */
  readonly measuredSymmetry: Symmetry;
  readonly absolute: boolean;
  readonly description: string;
  /** lm; shares 0…1; `zones` of 10° from the nadir up. */
  readonly flux: {
    readonly rated: number | null;
    readonly integrated: number;
    readonly downward: number;
    readonly upward: number;
    readonly downwardShare: number;
    readonly zones: readonly number[];
  };
  readonly maximum: { readonly intensity: number; readonly C: number; readonly gamma: number };
  /** Intensity at the nadir (cd). */
  readonly axial: number;
  readonly beamAngle: BeamSummary;
  readonly fieldAngle: BeamSummary;
  readonly fluxCode: string;
  readonly watts: number | null;
  /** Integrated flux per watt (lm/W). */
  readonly efficacy: number | null;
  /** m; `length` along C0–C180, `width` along C90–C270 */
  readonly opening: LuminousOpening;
  /** As the file stores them. */
  readonly planes: number;
  readonly angles: number;
  /** For types A and B: errors of the 1° resampling behind zones, beams and diagram. */
  readonly resampling?: { readonly intensityError: number; readonly fluxError: number };
  readonly warnings: readonly WarningSummary[];
}

/** Summary of a file. `known` are the warnings of its reader; they come first. */
export function summarise(photometry: Photometry, issues: readonly Issue[] = []): PhotometrySummary {
  const { distribution, ratedFlux, watts } = photometry;
  const resampled = resampleToC(distribution);
  const typeC = resampled.distribution;
  const flux = luminousFluxOf(distribution, resampled);
  const maximum = maximumIntensity(distribution);
  const beam = beamAngle(typeC);
  const lamps = photometry.absolute ? "absolute" : ratedFlux;
  const stored = photometry.stored ?? storedPlanes(photometry);
  const warnings = [...issues, ...photometryWarnings(photometry, { flux, maximum, beam }, issues)];
  return {
    format: photometry.format,
    edition: photometry.edition,
    type: distribution.type,
    symmetry: distribution.symmetry,
    measuredSymmetry: measuredSymmetry(typeC),
    absolute: photometry.absolute,
    description: photometry.description,
    flux: {
      rated: ratedFlux ?? null,
      integrated: flux.total,
      downward: flux.downward,
      upward: flux.upward,
      downwardShare: flux.total > 0 ? flux.downwardShare : 0,
      zones: [...flux.zones],
    },
    maximum: {
      intensity: maximum.intensity,
      C: tidy(degrees(maximum.C)),
      gamma: tidy(degrees(maximum.gamma)),
    },
    axial: axialIntensity(typeC),
    beamAngle: inDegrees(beam),
    fieldAngle: inDegrees(beamAngle(typeC, FIELD_LEVEL)),
    fluxCode: formatFluxCode(fluxCode(typeC, lamps)),
    watts: watts ?? null,
    efficacy: watts !== undefined && watts > 0 ? flux.total / watts : null,
    opening: photometry.opening,
    ...orderFacts(photometry),
    planes: stored.planes,
    angles: stored.angles,
    ...(flux.resampling === undefined ? {} : { resampling: flux.resampling }),
    warnings: warnings.map((issue) => ({
      code: issue.code,
      message: formatIssue({ ...issue, where: {} }),
      where: issue.where,
    })),
  };
}

function inDegrees({ level, ofMaximum, ofAxial, planes }: BeamAngle): BeamSummary {
  const width = (one: AngularWidth | undefined): WidthSummary | null =>
    one === undefined
      ? null
      : { angle: tidy(degrees(one.angle)), from: tidy(degrees(one.from)), to: tidy(degrees(one.to)) };
  return {
    level,
    ofMaximum: ofMaximum === undefined ? null : tidy(degrees(ofMaximum)),
    ofAxial: ofAxial === undefined ? null : tidy(degrees(ofAxial)),
    planes: planes.map((plane) => ({
      C: tidy(degrees(plane.C)),
      ofMaximum: width(plane.ofMaximum),
      ofAxial: width(plane.ofAxial),
    })),
  };
}

/** A millionth of a degree is far below what anyone measures, and hides the rounding of radians. */
function tidy(value: number): number {
  return Math.round(value * 1e6) / 1e6 + 0;
}

/** Where a reader did not count them: the planes the declared symmetry needs. */
function storedPlanes({ distribution, format }: Photometry): { planes: number; angles: number } {
  const { horizontal, vertical, symmetry } = distribution;
  const within = (low: number, high: number) =>
    [...horizontal].filter((h) => degrees(h) > low - 1e-6 && degrees(h) < high + 1e-6).length;
  const planes: Record<Symmetry, () => number> = {
    rotational: () => 1,
    quadrant: () => within(0, 90),
    "mirrored in C0–C180": () => within(0, 180),
    "mirrored in C90–C270": () => within(90, 270),
    "mirrored in H0": () => within(0, 90),
    none: () => horizontal.length - (format === "EULUMDAT" ? 1 : 0),
  };
  return { planes: planes[symmetry](), angles: vertical.length };
}
