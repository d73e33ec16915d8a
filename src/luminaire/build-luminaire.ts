/**
 * A luminaire from what is known of it: a photometric file, or flux and beam; with body, power and paperwork.
 */

import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { pathTo } from "../diagnostics/json-path.ts";
import type { DefaultUsed } from "../diagnostics/ledger.ts";
import { issueTexts, phrase } from "../diagnostics/phrase.ts";
import { implausibleValues, implausibleWords } from "../photometry/implausible.ts";
import type { IntensityDistribution } from "../photometry/intensity-distribution.ts";
import { luminousFlux } from "../photometry/luminous-flux.ts";
import { type LuminousOpening, type OpeningShape, POINT_OPENING } from "../photometry/luminous-opening.ts";
import { orderFacts } from "../photometry/order-facts.ts";
import type { Photometry } from "../photometry/photometry.ts";
import { unstatedOpening } from "../photometry/unstated-opening.ts";
import { radians } from "../units/quantities.ts";
import type { beamLuminaire } from "./beam-luminaire.ts";
import { bodyOutline } from "./body-profiles.ts";
import { type BodyDescription, bodyOf } from "./described-body.ts";
import type { Luminaire } from "./luminaire.ts";
import { type ProductFacts, productFacts } from "./product-facts.ts";
import { unsettledFlux, unsettledFluxWords } from "./unsettled-flux.ts";

/** What a study says of a luminaire; lengths in metres, angles in degrees. */
export interface LuminaireDescription extends Omit<ProductFacts, "lamp"> {
  readonly photometry?: string;
  readonly beam?: {
    readonly flux: number;
    readonly angle: number;
    readonly peak?: number;
    readonly fieldAngle?: number;
  };
  readonly opening?: {
    readonly shape?: OpeningShape;
    readonly diameter?: number;
    readonly length?: number;
    readonly width?: number;
    readonly height?: number;
  };
  readonly body?: BodyDescription;
  readonly lampSet?: number;
  readonly flux?: number;
  readonly fluxFrom?: "file" | "lamps";
  /** Text: the lamp to order; else that of a shade. */
  readonly lamp?: string | object;
}

export interface BuiltLuminaire {
  readonly luminaire: Luminaire;
  readonly defaults: readonly DefaultUsed[];
}

/** Builds a luminaire. `path` is the document path of its description, for issues. The photometry has been read
 * with the description's `lampSet`; `buildBeam` is handed in for a description by flux and beam. Fails when the description has no light, or two. */
export function buildLuminaire(
  name: string,
  description: LuminaireDescription,
  photometry: Photometry | undefined,
  path: string,
  buildBeam?: typeof beamLuminaire,
): Outcome<BuiltLuminaire> {
  const source =
    description.beam !== undefined
      ? fromBeam(name, description, path, buildBeam)
      : photometry !== undefined
        ? fromPhotometry(name, description, photometry, path)
        : failure<Luminaire>(wrong("luminaire-no-light", "The luminaire has no light.", path, LIGHTS));
  if (!source.ok) return source;
  const furnished = furnishLuminaire(source.value, description, path);
  if (!furnished.ok) return furnished;
  const unstated =
    photometry === undefined || description.opening !== undefined
      ? undefined
      : unstatedOpening(photometry.opening);
  return success(furnished.value, [
    ...source.warnings,
    ...furnished.warnings,
    ...(unstated === undefined ? [] : [{ ...unstated, where: { path: pathTo(path, "opening") } }]),
  ]);
}

const LIGHTS = '"photometry", "beam", or "lamp" with "shade"';

function fromPhotometry(
  name: string,
  description: LuminaireDescription,
  file: Photometry,
  path: string,
): Outcome<Luminaire> {
  const { distribution, absolute, ratedFlux, watts, tilt } = file;
  const own = luminousFlux(distribution).total;
  const facts = orderFacts(file);
  const luminaire = (
    light: IntensityDistribution,
    rated: number | undefined,
    relamped = false,
  ): Luminaire => ({
    name,
    distribution: light,
    emission: { kind: "opening", opening: openingOf(description, file.opening) },
    evidence: relamped ? "G" : absolute ? "A" : "B",
    flux: luminousFlux(light).total,
    origin: description.photometry ?? "photometric data",
    ...facts,
    filed: defined({
      order: facts.order,
      maker: description.maker === undefined ? facts.maker : undefined,
      housing: file.housing,
      description: file.description || undefined,
    }),
    ...defined({ ratedFlux: rated, watts, tilt }),
  });
  const scaled = (factor: number, rated: number): Luminaire =>
    luminaire(
      { ...distribution, intensity: distribution.intensity.map((candela) => candela * factor) },
      rated,
      true,
    );
  const unsettled = unsettledFlux(own, { absolute, ...defined({ ratedFlux }) });
  if (description.flux === undefined) {
    const asFiled = luminaire(distribution, ratedFlux);
    if (unsettled === undefined || description.fluxFrom === "file") return success(asFiled);
    if (description.fluxFrom === "lamps") return success(scaled(unsettled.lamps / own, unsettled.lamps));
    const issue = wrong("luminaire-flux-unsettled", unsettledFluxWords(unsettled), pathTo(path, "fluxFrom"));
    return success({ ...asFiled, unsettledFlux: unsettled }, [{ ...issue, severity: "warning" }]);
  }
  const at = pathTo(path, "flux");
  if (absolute)
    return failure(
      wrong(
        "luminaire-relamp-absolute",
        "The file is absolute: its candela do not rest on a lamp's flux.",
        at,
        'no "flux"',
      ),
    );
  if (ratedFlux === undefined || !(ratedFlux > 0))
    return failure(
      wrong("luminaire-relamp-unrated", "The file states no rated flux to scale from.", at, 'no "flux"'),
    );
  return success(scaled(description.flux / ratedFlux, description.flux));
}

function fromBeam(
  name: string,
  description: LuminaireDescription,
  path: string,
  buildBeam?: typeof beamLuminaire,
): Outcome<Luminaire> {
  if (buildBeam === undefined) throw new Error("A beam was met where nothing builds one.");
  const { flux, angle, peak, fieldAngle } = description.beam as NonNullable<LuminaireDescription["beam"]>;
  const built = buildBeam(name, {
    flux,
    beamAngle: radians(angle),
    opening: openingOf(description, POINT_OPENING),
    ...(peak === undefined ? {} : { peakIntensity: peak }),
    ...(fieldAngle === undefined ? {} : { fieldAngle: radians(fieldAngle) }),
  });
  if (built.ok) return built;
  const beam = pathTo(path, "beam");
  return failure(...built.issues.map((issue) => ({ ...issue, where: { ...issue.where, path: beam } })));
}

/** Body, power and paperwork put on a luminaire that has its light; what the description does not say stays. */
export function furnishLuminaire(
  bare: Luminaire,
  description: LuminaireDescription,
  path: string,
): Outcome<BuiltLuminaire> {
  const { opening } = bare.emission;
  const body = description.body === undefined ? undefined : bodyOf(description.body, opening, path);
  if (body !== undefined && !body.ok) return body;
  const { lamp, ...facts } = description;
  const said = productFacts({ ...facts, ...(typeof lamp === "string" ? { lamp } : {}) });
  const bodied = { ...bare, ...defined({ body: body?.value.body }), ...said };
  const luminaire: Luminaire = glowsOtherwise(bodied, description)
    ? { ...bodied, emission: { ...bodied.emission, uncertain: true } as Luminaire["emission"] }
    : bodied;
  const implausible = implausibleValues({
    intensity: luminaire.distribution.intensity.reduce((most, candela) => Math.max(most, candela), 0),
    flux: luminaire.flux,
    opening,
    ...defined({ watts: luminaire.watts }),
  });
  const warnings = implausible.map((value): Issue => {
    const said = implausibleWords(value);
    return { code: "luminaire-implausible", severity: "warning", ...said, where: { path } };
  });
  return success(
    {
      luminaire: implausible.length === 0 ? luminaire : { ...luminaire, implausible },
      defaults: body?.value.defaults ?? [],
    },
    [...warnings, ...openingInside(luminaire, path)],
  );
}

/** Deeper than this (m) a flat opening is not at the foot of its housing: `study-format`, Body. */
const INSIDE = 0.02;

/** A flat opening within a closed box: measured light leaves a housing at its foot, so the box is set too low. */
function openingInside({ body, emission: { opening } }: Luminaire, path: string): Issue[] {
  if (body?.profile !== "box" || body.isUsualHeight || opening.shape === "point" || opening.height > 0)
    return [];
  const depth = body.height / 2 - body.offset;
  if (depth <= INSIDE) return [];
  return [
    {
      code: "opening-inside-body",
      severity: "warning",
      ...issueTexts({
        message:
          "The flat luminous opening lies inside the housing, which is centred on it unless it has an offset.",
        expected: `"offset": "${Math.round(500 * body.height)} mm" where the light leaves at the foot of the housing`,
        received: phrase`${depth} above its foot`,
      }),
      where: { path: pathTo(path, "body") },
    },
  ];
}

/** A globe or a bowl that its file calls a flat opening: where on it the light leaves is not known, so near by the
 * result carries a band. An opening stated in the study is taken at its word. */
function glowsOtherwise(
  { emission, body }: Luminaire,
  { photometry, opening }: LuminaireDescription,
): boolean {
  const round = body !== undefined && bodyOutline(body.profile)?.glowsRound === true;
  const flat = emission.opening.height === 0 && emission.opening.shape !== "point";
  return round && flat && photometry !== undefined && opening === undefined && emission.kind === "opening";
}

function openingOf({ opening }: LuminaireDescription, otherwise: LuminousOpening): LuminousOpening {
  if (opening === undefined) return otherwise;
  const { diameter, height = 0 } = opening;
  const length = opening.length ?? diameter ?? 0;
  const width = opening.width ?? diameter ?? length;
  const round = diameter !== undefined;
  const guess: OpeningShape =
    length === 0 ? "point" : round ? (height > 0 ? "cylinder" : "disc") : height > 0 ? "box" : "rectangle";
  const shape = opening.shape ?? guess;
  if (shape === "point") return POINT_OPENING;
  return { shape, length, width, height: shape === "ellipsoid" && height === 0 ? width : height };
}

function wrong(code: string, message: string, path: string, expected?: string): Issue {
  return {
    code,
    severity: "error",
    message,
    ...(expected === undefined ? {} : { expected }),
    where: { path },
  };
}

/** The entries that have a value. */
function defined<T extends object>(entries: T): T {
  return Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as T;
}
