/**
 * The luminaire a study's `lamp` and `shade` stand for.
 *
 * Built shades are kept by the text of lamp and shade, the {@link KEPT} made last, so that an arrangement may be changed for ever
 * without tracing again.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import { failure, type Outcome, success } from "../../diagnostics/issue.ts";
import { type DefaultUsed, Ledger } from "../../diagnostics/ledger.ts";
import type { LengthUnit } from "../../units/length-text.ts";
import type { Luminaire } from "../luminaire.ts";
import { describeShade, resolveShade } from "./definition.ts";
import { LINEAR_ERROR, linearLight } from "./linear.ts";
import type { LinearAssembly } from "./linear-definition.ts";
import type { RevolvedAssembly } from "./revolved-definition.ts";
import type { LampDocument, ShadeDocument } from "./shade-document.ts";
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
  /** What the definition left open; paths within the luminaire. */
  readonly assumptions: readonly DefaultUsed[];
  readonly description: string;
}

const KEPT = 32;
const kept = new Map<string, BuiltShade>();

/** @param where file and document path of the luminaire, for issues; `unit` of lengths in its description */
export function buildShadeLuminaire(
  name: string,
  lamp: LampDocument,
  shade: ShadeDocument,
  { unit, ...where }: { readonly file?: string; readonly path?: string; readonly unit?: LengthUnit } = {},
  observer?: Observer,
): Outcome<BuiltShade> {
  const log = new Ledger(undefined, unit);
  const assembly = resolveShade(lamp, shade, log);
  const at = (path: string | undefined) => ({ ...where, path: `${where.path ?? ""}${path ?? ""}` });
  const refused = () =>
    failure<BuiltShade>(...log.errors.map((issue) => ({ ...issue, where: at(issue.where.path) })));
  if (log.errors.length > 0) return refused();
  const key = JSON.stringify([lamp, shade, unit]);
  let built = kept.get(key);
  if (built === undefined) {
    const watts = lamp.watts === undefined ? undefined : lamp.watts * (lamp.count ?? 1);
    const lit =
      assembly.kind === "linear"
        ? buildLinear(assembly, watts, unit)
        : buildRevolved(assembly, watts, unit, observer);
    built = { ...lit, description: describeShade(assembly, unit), assumptions: log.defaults };
    if (built.lightOutputRatio < 1e-4) {
      log.error(
        "shade-dark",
        "/shade",
        "The shade lets no light out.",
        "an open end or a finish that passes light",
        "a closed solid shade",
      );
      return refused();
    }
    if (kept.size >= KEPT) kept.delete(kept.keys().next().value as string);
    kept.set(key, built);
  }
  return success(
    { ...built, luminaire: { ...built.luminaire, name } },
    log.warnings.map((issue) => ({ ...issue, where: at(issue.where.path) })),
  );
}

type LitShade = Omit<BuiltShade, "description" | "assumptions">;

function buildRevolved(
  assembly: RevolvedAssembly,
  watts: number | undefined,
  unit?: LengthUnit,
  observer?: Observer,
): LitShade {
  const description = describeShade(assembly, unit);
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
  };
}

function buildLinear(assembly: LinearAssembly, watts: number | undefined, unit?: LengthUnit): LitShade {
  const { housing, flux } = assembly;
  const { distribution, lightOutputRatio, centre } = linearLight(housing, flux);
  const description = describeShade(assembly, unit);
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
  };
}
