/** A luminaire's body from what a study says of it and its luminous opening. */

import { failure, type Outcome, success } from "../diagnostics/issue.ts";
import { pathTo } from "../diagnostics/json-path.ts";
import { type DefaultUsed, TYPICAL } from "../diagnostics/ledger.ts";
import type { LuminousOpening } from "../photometry/luminous-opening.ts";
import type { Body } from "./body.ts";
import { type BodyProfile, usualRise } from "./body-profiles.ts";

/** Lengths in m. */
export interface BodyDescription {
  readonly profile: BodyProfile;
  readonly diameter?: number;
  readonly height?: number;
  readonly length?: number;
  readonly width?: number;
  readonly outline?: readonly (readonly [radius: number, z: number])[];
  readonly offset?: number;
  readonly reflectance?: number;
  readonly lining?: number;
  readonly transmittance?: number;
}

const BODY_REFLECTANCE = 0.5;
/** Of a body whose size neither study nor file says (m). */
const USUAL_SIDE = 0.3;
/** A body this long and twice as long as wide is a bar, usually no higher than so (m). */
const BAR = { length: 0.6, height: 0.08 };
const LUMINOUS = "not given; the luminous opening's";

/** The body that a description gives, with usual values, each listed, for what it leaves open.
 * @param path of the luminaire in the document */
export function bodyOf(
  given: BodyDescription,
  opening: LuminousOpening,
  path: string,
): Outcome<{ body: Body; defaults: DefaultUsed[] }> {
  const at = pathTo(path, "body");
  const defaults: DefaultUsed[] = [];
  const fill = <T>(key: string, value: T, why: string): T => {
    defaults.push({ path: pathTo(at, key), value, why });
    return value;
  };
  const { profile, outline, lining } = given;
  let { diameter, height, length, width } = given;
  if (profile === "profile") {
    const fault = outline === undefined ? NO_OUTLINE : outlineFault(outline);
    if (outline === undefined || fault !== undefined)
      return failure({
        code: "luminaire-body",
        message: fault ?? NO_OUTLINE,
        ...(outline === undefined ? { expected: "[[radius, height], …], lower end first" } : {}),
        where: { path: pathTo(at, "outline") },
      });
    diameter = 2 * Math.max(...outline.map(([r]) => r));
    height = outline[outline.length - 1][1] - outline[0][1];
  } else if (profile === "box") {
    const other = length ?? width ?? USUAL_SIDE;
    const isLit = opening.length > 0 && opening.width > 0;
    const sides = isLit ? opening : { length: other, width: other };
    const why = isLit ? LUMINOUS : TYPICAL;
    length ??= diameter ?? fill("length", sides.length, why);
    width ??= diameter ?? fill("width", sides.width, why);
    diameter ??= Math.max(length, width);
  }
  const luminous = Math.max(opening.length, opening.width);
  diameter ??= luminous > 0 ? fill("diameter", luminous, LUMINOUS) : fill("diameter", USUAL_SIDE, TYPICAL);
  const isUsualHeight = height === undefined;
  const rising = Math.min(length ?? diameter, width ?? diameter);
  const long = Math.max(length ?? diameter, width ?? diameter);
  const isBar = profile === "box" && long >= BAR.length && long >= 2 * rising;
  const usual = rising * usualRise(profile);
  height ??= fill("height", isBar ? Math.min(usual, BAR.height) : usual, TYPICAL);
  const body: Body = {
    profile,
    diameter,
    height,
    offset: given.offset ?? 0,
    reflectance: given.reflectance ?? fill("reflectance", BODY_REFLECTANCE, TYPICAL),
    transmittance: given.transmittance ?? 0,
    ...(isUsualHeight ? { isUsualHeight } : {}),
    ...(length === undefined ? {} : { length }),
    ...(width === undefined ? {} : { width }),
    ...(outline === undefined ? {} : { outline }),
    ...(lining === undefined ? {} : { lining }),
  };
  return success({ body, defaults });
}

const NO_OUTLINE = "A drawn outline needs its points.";

function outlineFault(outline: readonly (readonly [number, number])[]): string | undefined {
  if (outline.every(([r]) => r === 0)) return "The profile has no width.";
  for (let i = 1; i < outline.length; i++)
    if (outline[i][1] < outline[i - 1][1])
      return "The profile must rise from its lower end without turning down.";
  if (outline[outline.length - 1][1] === outline[0][1]) return "The profile has no height.";
  const inner = outline.slice(1, -1);
  return inner.some(([r]) => r === 0) ? "The profile touches its axis between its ends." : undefined;
}
