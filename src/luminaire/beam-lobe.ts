/**
 * A rotational lobe from what a data sheet prints: flux Φ, beam angle β (50 %), perhaps peak I₀ and field angle
 * (10 %).
 *
 *   I(γ) = I₀ · 2^(−q(s)),   s = ln cos γ / ln cos(β/2),   q = s^p · ((1 + s¹⁶) / 2)^((r − p) / 16)
 *
 * s is 0 on the axis, 1 at the beam's edge and grows without end towards 90°, so I(0) = I₀, I(β/2) = I₀/2 and
 * I(90°) = 0 whatever p and r. In ln s the slope of ln q passes smoothly from p (the core) to r (the tail); both
 * positive, so the lobe falls steadily. p = r = 1 is cosⁿ γ with n = ln ½ / ln cos(β/2), for which
 * Φ = 2π I₀ / (n + 1).
 *
 *   flux and beam     p = r = 1
 *   and field angle   p = 1, r from q(s_field) = log₂ 10
 *   and peak          p = 1/r: a peaked core goes with a sharp edge, a flat core with a long tail
 *   all four          r from the field angle for every p, p from the flux
 *
 * The family is a smooth interpolation of ours, not a law of lamps; the band of `beam-luminaire.ts` stands for
 * its uncertainty. Error of the fit: flux within 1e-7.
 */

import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { adaptiveSimpson } from "../numerics/adaptive-simpson.ts";
import { degrees } from "../units/quantities.ts";

/** Angles are full (rad), flux in lm, peak in cd. */
export interface BeamData {
  readonly flux: number;
  readonly beamAngle: number;
  readonly peakIntensity?: number;
  readonly fieldAngle?: number;
}

export interface BeamLobe {
  /** cd */
  readonly peak: number;
  readonly beamAngle: number;
  /** p and r */
  readonly core: number;
  readonly tail: number;
}

/** Exponents beyond these are spikes and steps that no optic of a luminaire makes. */
const LEAST = 0.1;
const MOST = 10;
const SHARPEST_TAIL = 60;
/** With peak and field angle both, a core beyond these is a needle bent to the numbers: rather no field angle. */
const NEEDLE = 0.25;
/** How quickly core passes into tail: within some 10 % of the beam angle to either side of its edge. */
const QUICKNESS = 16;
const TENTH = Math.log2(10);

/** Intensity (cd) at γ (rad, 0…π); zero from 90° up. */
export function lobeIntensity({ peak, beamAngle, core, tail }: BeamLobe, gamma: number): number {
  const cos = Math.cos(gamma);
  if (gamma >= Math.PI / 2 || cos <= 0) return 0;
  return peak * relativeIntensity(Math.log(cos) / Math.log(Math.cos(beamAngle / 2)), core, tail);
}

/** 2^(−q(s)): intensity relative to the peak. */
export function relativeIntensity(s: number, core: number, tail: number): number {
  if (s <= 0) return 1;
  if (core === 1 && tail === 1) return 2 ** -s;
  const x = Math.log(s);
  return 2 ** -Math.exp(core * x + (tail - core) * bend(x));
}

/** ln((1 + s^k)/2) / k with s = eˣ, without overflow. */
function bend(x: number): number {
  const y = QUICKNESS * x;
  return (Math.max(y, 0) + Math.log1p(Math.exp(-Math.abs(y))) - Math.LN2) / QUICKNESS;
}

/** ∫ I/I₀ sin γ dγ = κ ∫ 2^(−q(t)) e^(−κt) dt with κ = −ln cos(β/2), the tail in ln t. */
function shapeIntegral(beamAngle: number, core: number, tail: number): number {
  const kappa = -Math.log(Math.cos(beamAngle / 2));
  if (core === 1 && tail === 1) return kappa / (kappa + Math.LN2);
  const inner = (t: number) => relativeIntensity(t, core, tail) * Math.exp(-kappa * t);
  const outer = (y: number) => inner(Math.exp(y)) * Math.exp(y);
  const end = Math.log(Math.max(2, 40 / kappa));
  return kappa * (adaptiveSimpson(inner, 0, 1, 1e-9) + adaptiveSimpson(outer, 0, end, 1e-9 / kappa));
}

/** The lobe that has the data, or why there is none. Warns where a field angle cannot be kept with the rest. */
export function fitLobe(data: BeamData): Outcome<BeamLobe> {
  const wrong = check(data);
  if (wrong !== undefined) return failure(wrong);
  const { flux, beamAngle, peakIntensity, fieldAngle } = data;
  const warnings: Issue[] = [];
  let tailOf: ((core: number) => number) | undefined;
  if (fieldAngle !== undefined) {
    const x = Math.log(Math.log(Math.cos(fieldAngle / 2)) / Math.log(Math.cos(beamAngle / 2)));
    tailOf = (core) => core + (Math.log(TENTH) - core * x) / bend(x);
  }
  let core = 1;
  let tail = 1;
  if (peakIntensity === undefined) {
    if (tailOf !== undefined) tail = Math.min(SHARPEST_TAIL, tailOf(1));
    if (tail === SHARPEST_TAIL)
      warnings.push(
        issue(
          "warning",
          "beam-field-sharp",
          "The field angle is so near the beam angle that the edge is a step; the lobe's is as sharp as it gets.",
        ),
      );
  } else {
    const wanted = flux / (2 * Math.PI * peakIntensity);
    const excess = (p: number, r: number) => shapeIntegral(beamAngle, p, r) - wanted;
    const both = tailOf === undefined ? undefined : coreWithField(excess, tailOf);
    if (both !== undefined) [core, tail] = both;
    else {
      if (fieldAngle !== undefined)
        warnings.push(
          issue(
            "warning",
            "beam-field-unmet",
            "No steady lobe has this field angle beside flux, beam angle and peak; it was left out.",
            undefined,
            `${round(degrees(fieldAngle))}°`,
          ),
        );
      const power = root((t) => excess(Math.exp(t), Math.exp(-t)), Math.log(LEAST), Math.log(MOST));
      if (power === undefined) {
        const most = flux / (2 * Math.PI * shapeIntegral(beamAngle, LEAST, 1 / LEAST));
        const least = flux / (2 * Math.PI * shapeIntegral(beamAngle, MOST, 1 / MOST));
        return failure(
          issue(
            "error",
            "beam-inconsistent",
            "Flux, beam angle and peak intensity do not go together; leave one out or look again.",
            `a peak of ${round(least)} to ${round(most)} cd for ${round(flux)} lm in ${round(degrees(beamAngle))}°`,
            `${round(peakIntensity)} cd`,
          ),
        );
      }
      core = Math.exp(power);
      tail = Math.exp(-power);
    }
  }
  const peak = peakIntensity ?? flux / (2 * Math.PI * shapeIntegral(beamAngle, core, tail));
  return success({ peak, beamAngle, core, tail }, warnings);
}

/** Core and tail that keep the field angle and, by `excess` = 0, the flux; undefined where there are none. */
function coreWithField(
  excess: (core: number, tail: number) => number,
  tailOf: (core: number) => number,
): [core: number, tail: number] | undefined {
  const at = (t: number) => {
    const tail = tailOf(Math.exp(t));
    return tail >= LEAST && tail <= SHARPEST_TAIL ? excess(Math.exp(t), tail) : Number.NaN;
  };
  // The excess need not be monotone along this path: look for the change of sign nearest to cosⁿ.
  const steps = 24;
  const places = Array.from({ length: steps + 1 }, (_, i) => Math.log(NEEDLE) * (1 - (2 * i) / steps));
  const values = places.map(at);
  let best: number | undefined;
  for (let i = 0; i < steps; i++) {
    if (!(values[i] * values[i + 1] <= 0)) continue;
    const zero = root(at, places[i], places[i + 1]);
    if (zero !== undefined && (best === undefined || Math.abs(zero) < Math.abs(best))) best = zero;
  }
  return best === undefined ? undefined : [Math.exp(best), tailOf(Math.exp(best))];
}

/** Zero of a function between a and b by halving; undefined when it has one sign at both. */
function root(f: (x: number) => number, a: number, b: number): number | undefined {
  let low = a;
  let high = b;
  const sign = Math.sign(f(low));
  if (!(sign * f(high) <= 0)) return undefined;
  for (let i = 0; i < 60 && high - low > 1e-12; i++) {
    const middle = (low + high) / 2;
    if (Math.sign(f(middle)) === sign) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function check({ flux, beamAngle, peakIntensity, fieldAngle }: BeamData): Issue | undefined {
  const positive = (x: number) => x > 0 && x < 1e9;
  const bad = (what: string, expected: string, received: number) =>
    issue("error", "beam-data", `The ${what} cannot be.`, expected, String(received));
  if (!positive(flux)) return bad("flux", "more than 0 lm", flux);
  if (!(degrees(beamAngle) >= 1 && degrees(beamAngle) <= 170))
    return bad("beam angle", "1° to 170°; a wider source is no beam", round(degrees(beamAngle)));
  if (peakIntensity !== undefined && !positive(peakIntensity))
    return bad("peak intensity", "more than 0 cd", peakIntensity);
  if (fieldAngle !== undefined && !(fieldAngle > beamAngle * (1 + 1e-9) && degrees(fieldAngle) < 179.9))
    return bad("field angle", "wider than the beam angle, less than 179.9°", round(degrees(fieldAngle)));
  return undefined;
}

function issue(
  severity: Issue["severity"],
  code: string,
  message: string,
  expected?: string,
  received?: string,
): Issue {
  return { code, severity, message, expected, received, where: {} };
}

function round(x: number): number {
  return Number(x.toPrecision(4));
}
