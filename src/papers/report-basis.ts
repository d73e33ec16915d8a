/** The back of the report: what was assumed, how it was computed and from which sources. */

import { DEFAULT_BANDS } from "../assessment/uncertainty/input-bands.ts";
import { DEFAULT_CONFIDENCE } from "../assessment/verdict.ts";
import { formatIssue } from "../diagnostics/issue.ts";
import { printable } from "../diagnostics/printable.ts";
import { type Block, bullet, heading, paragraph } from "../drawing/paper/flow.ts";
import { column } from "../drawing/paper/table.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import { degrees } from "../units/quantities.ts";
import { briefValue } from "../words/brief-value.ts";
import { methodSentences } from "../words/method-text.ts";
import { chosenOption, type Handover, type HandoverWords, program } from "./handover.ts";
import { SIZE, table } from "./report-style.ts";

export function assumed(handover: Handover): Block[] {
  const { defaults, warnings, unit, illuminance } = handover;
  return [
    heading("6  What was assumed", 12),
    paragraph(
      defaults.length === 0
        ? "Nothing: the study gives every value."
        : `The study does not give ${defaults.length} values; these stood in for them and are to be replaced by the real ones:`,
      { size: SIZE },
    ),
    ...(defaults.length === 0
      ? []
      : [
          table(defaults, [
            column("place in the study", 2.2, ({ path }) => printable(path, 90)),
            column("value", 1.2, ({ path, value }) => standIn(path, value, { length: unit, illuminance })),
            column("why", 3.4, ({ why }) => printable(why, 160)),
          ]),
        ]),
    ...(warnings.length === 0 ? [] : [paragraph("Warnings met on the way:", { size: SIZE, strong: true })]),
    ...warnings.map((issue) => bullet(printable(formatIssue(issue), 400), SIZE)),
  ];
}

/** A value that stood in; what has places of its own is told with them in section 5. */
function standIn(path: string, value: unknown, display: ResolvedStudy["display"]): string {
  const words = briefValue(path, value, display, 200);
  const hasPlaces = typeof value === "object" && value !== null && "polygon" in value;
  return hasPlaces ? `${words}; its place is in section 5` : words;
}

export function method(handover: Handover, words: HandoverWords): Block[] {
  const { scene, assessment } = chosenOption(handover);
  const { method: how, balance } = assessment;
  const percent = (share: number, digits = 2): string => `${(100 * share).toFixed(digits)} %`;
  const bands = DEFAULT_BANDS;
  return [
    heading("7  How it was computed", 12),
    ...methodSentences(
      handover.options.map(({ scene: { name }, assessment: { method } }) => ({ name, method })),
    ).map((sentence) => bullet(sentence, SIZE)),
    bullet(
      `Quality: ${how.quality}. The figures of this section are those of ${printable(scene.name, 60)}.`,
      SIZE,
    ),
    bullet(
      `Direct light, point by point: E = Σ I(C, γ) cos θ / d² over the parts of each luminous opening, divided until the bound of ${percent(how.nearFieldError)} on each luminaire's share is reached; bodies, cabinets and shades block it${how.penumbraError === undefined ? "" : `, penumbrae to ${percent(how.penumbraError)}`}.`,
      SIZE,
    ),
    ...(handover.calculation.interreflection
      ? [
          bullet(
            `Interreflected light: M = ρ E between ${how.patches} diffuse patches, solved to a residual of ${how.residual.toExponential(1)}, then gathered at each point${how.interreflectionBound === undefined ? "" : `; bound ${percent(how.interreflectionBound, 0)} of the mean interreflected light`}.`,
            SIZE,
          ),
        ]
      : [
          bullet(
            "Interreflected light was switched off in the study: the figures are of direct light alone.",
            SIZE,
          ),
        ]),
    ...(balance === undefined
      ? []
      : [
          bullet(
            `Energy: flux absorbed differs from flux emitted by ${percent(balance.imbalance, 3)}; form factors of a patch sum to one within ${percent(balance.closureError, 3)} before correction.`,
            SIZE,
          ),
        ]),
    bullet(
      `Bands (95 %): light output and beam shape by their evidence; rated flux 0 to −${percent(bands.ratedFlux, 0)}; between equal luminaires σ ${percent(bands.unitScatter, 0)}; maintenance ±${bands.maintenance}; reflectance ±${bands.reflectance}; places ±${words.length(bands.position)}, heights ±${words.length(bands.height)}, angles as hung ±${degrees(bands.hungAngle).toFixed(0)}°; dimmed flux ±${percent(bands.dimming, 0)}. "Meets" is said when the target is reached with probability ${DEFAULT_CONFIDENCE} or more, "falls short" when with ${(1 - DEFAULT_CONFIDENCE).toFixed(1)} or less, else "too close to call".${how.quality === "quick" ? " A draft: what it left out widens every band at both ends." : ""}`,
      SIZE,
    ),
    bullet(
      "Conditions: steady state, dark, surfaces diffuse, colours neutral. Verification grid after EN 12464-1 (spacing 0.2 · 5^log₁₀ d, d of a leg its width), area-weighted.",
      SIZE,
    ),
    bullet(
      "References: CIE 15 and CIE 121 for photometric conventions; ANSI/IES LM-63, EULUMDAT, ANSI/IES TM-33 for the files; Goral et al., Modeling the interaction of light between diffuse surfaces, 1984, for the exchange between patches.",
      SIZE,
    ),
    bullet(
      `Computed with ${program(handover)}; study ${handover.fingerprint}: the same study gives the same figures.`,
      SIZE,
    ),
  ];
}
