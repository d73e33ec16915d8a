/**
 * The luminaire a study's `lamp` and `shade` stand for.
 *
 * Built shades are kept by the text of their definition, so that an arrangement may be changed for ever without
 * tracing again.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import { failure, type Issue, type Outcome, success } from "../../diagnostics/issue.ts";
import type { Luminaire } from "../luminaire.ts";
import {
  type Assumption,
  describeShade,
  type LampDocument,
  type LinearAssembly,
  resolveShade,
  type ShadeAssembly,
  type ShadeDocument,
} from "./definition.ts";
import { LINEAR_ERROR, linearLight } from "./linear.ts";
import { type ShadeAccuracy, type ShadePhotometry, shadeLuminaire } from "./shade-luminaire.ts";

export interface BuiltShade {
  readonly luminaire: Luminaire;
  /** Flux of all lamps (lm), and the share of it that leaves the luminaire, and of that the share below. */
  readonly lampFlux: number;
  readonly lightOutputRatio: number;
  readonly downwardShare: number;
  /** Half-widths of the 95 % statistical band, relative; zero where nothing was sampled. */
  readonly band: ShadeAccuracy;
  /** What was traced, for a shade of revolution. */
  readonly traced?: ShadePhotometry;
  readonly assumptions: readonly Assumption[];
  readonly description: string;
}

const KEPT = 32;
const kept = new Map<string, BuiltShade>();

/** @param where file and document path of the luminaire, for issues */
export function buildShadeLuminaire(
  name: string,
  lamp: LampDocument,
  shade: ShadeDocument,
  where: { readonly file?: string; readonly path?: string } = {},
  observer?: Observer,
): Outcome<BuiltShade> {
  const issueAt = (
    key: string,
    code: string,
    message: string,
    expected: string,
    received: string,
  ): Issue => ({
    code,
    severity: "error",
    message,
    expected,
    received,
    where: { ...where, path: `${where.path ?? ""}${key}` },
  });
  const resolved = resolveShade(lamp, shade);
  if (resolved.kind === "faulty") {
    return failure(
      ...resolved.faults.map(({ key, message, expected, received }) =>
        issueAt(key, "shade-definition", message, expected, received),
      ),
    );
  }
  const key = JSON.stringify([lamp, shade]);
  let built = kept.get(key);
  if (built === undefined) {
    const watts = lamp.watts === undefined ? undefined : lamp.watts * (lamp.count ?? 1);
    built =
      resolved.kind === "linear" ? buildLinear(resolved, watts) : buildRevolved(resolved, watts, observer);
    if (built.lightOutputRatio < 1e-4) {
      return failure(
        issueAt(
          "/shade",
          "shade-dark",
          "The shade lets no light out.",
          "an open end or a finish that passes light",
          "a closed solid shade",
        ),
      );
    }
    if (kept.size >= KEPT) kept.delete(kept.keys().next().value as string);
    kept.set(key, built);
  }
  return success({ ...built, luminaire: { ...built.luminaire, name } });
}

function buildRevolved(assembly: ShadeAssembly, watts: number | undefined, observer?: Observer): BuiltShade {
  const description = describeShade(assembly);
  const { luminaire, photometry } = shadeLuminaire(
    assembly.shade,
    [assembly.lamp],
    { name: "", origin: description, watts },
    observer,
  );
  return {
    luminaire,
    lampFlux: photometry.light.assembly.flux,
    lightOutputRatio: photometry.lightOutputRatio,
    downwardShare: photometry.downwardShare,
    band: photometry.band,
    traced: photometry,
    assumptions: assembly.assumptions,
    description,
  };
}

function buildLinear(assembly: LinearAssembly, watts: number | undefined): BuiltShade {
  const { housing, flux } = assembly;
  const { distribution, lightOutputRatio, centre } = linearLight(housing, flux);
  const description = describeShade(assembly);
  return {
    luminaire: {
      name: "",
      origin: description,
      distribution,
      emission: {
        kind: "opening",
        opening: { shape: "rectangle", length: housing.length, width: housing.width, height: 0 },
        // Near by, the edges of an open mouth cut the light off where no flat opening does.
        ...(housing.cover === undefined && housing.depth > 0 ? { uncertain: true } : {}),
      },
      body: {
        profile: "box",
        diameter: Math.hypot(housing.length, housing.width),
        length: housing.length,
        width: housing.width,
        height: Math.max(housing.depth, 0.01),
        // The housing rises from its mouth, the light spreads from its centre above it.
        offset: Math.max(housing.depth, 0.01) / 2 - centre,
        reflectance: housing.inside.outside,
        transmittance: 0,
      },
      evidence: "E",
      flux: flux * lightOutputRatio,
      ratedFlux: flux,
      watts,
    },
    lampFlux: flux,
    lightOutputRatio,
    downwardShare: 1,
    band: LINEAR_ERROR,
    assumptions: assembly.assumptions,
    description,
  };
}
