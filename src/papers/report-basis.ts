/** The back of the report: what went in, what was assumed, how it was computed and from which sources. */

import { loadReport } from "../advice/load.ts";
import { DEFAULT_BANDS, DEFAULT_CONFIDENCE } from "../assessment/uncertainty/input-bands.ts";
import { formatIssue } from "../diagnostics/issue.ts";
import { printable } from "../diagnostics/printable.ts";
import { type Block, bullet, heading, paragraph } from "../drawing/paper/flow.ts";
import { EVIDENCE } from "../luminaire/evidence.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { Scene } from "../scene/scene.ts";
import { degrees } from "../units/quantities.ts";
import { briefValue } from "../words/brief-value.ts";
import { methodText } from "../words/method-text.ts";
import { asSentence } from "../words/sentence.ts";
import { chosenOption, type Handover, type HandoverWords, program } from "./handover.ts";
import { SIZE, table } from "./report-style.ts";

export function inputs(handover: Handover, words: HandoverWords): Block[] {
  const { scene } = chosenOption(handover);
  const { room, island } = scene;
  const reflectances = new Map<string, Set<string>>();
  for (const { part, name, reflectance } of scene.surfaces) {
    const label = part === "body" || part === "opening" ? printable(name, 30) : part;
    reflectances.set(label, (reflectances.get(label) ?? new Set()).add(reflectance.toFixed(2)));
  }
  const types = [...new Set(handover.options.flatMap((option) => luminairesOf(option.scene)))];
  return [
    heading("5  What went in", 12),
    bullet(
      `Room ${words.length(room.length)} × ${words.length(room.width)}, ceiling ${words.length(room.ceilingHeight)}${room.slope === 0 ? ", flat" : ` at its lowest, rising ${Number(degrees(room.slope).toFixed(2))}° towards ${Number(degrees(room.towards).toFixed(1))}° from +x`}.`,
      SIZE,
    ),
    ...(island === undefined
      ? []
      : [
          bullet(
            `Island ${words.length(island.length)} × ${words.length(island.width)}, top at ${words.length(island.height)}, centre at ${words.length(island.centre[0])}, ${words.length(island.centre[1])}${island.turn === 0 ? "" : `, turned ${Number(degrees(island.turn).toFixed(2))}°`}; finish ${island.finish}.`,
            SIZE,
          ),
        ]),
    bullet(
      `Diffuse reflectances: ${[...reflectances].map(([name, values]) => `${name} ${[...values].join("/")}`).join(", ")}.`,
      SIZE,
    ),
    ...(scene.people.length === 0
      ? []
      : [
          bullet(
            `People: ${scene.people.map((p) => `${printable(p.name, 24)} ${words.length(p.stature)}, ${p.posture}`).join("; ")}.`,
            SIZE,
          ),
        ]),
    bullet(`Maintenance factor ${scene.maintenance.toFixed(2)} on every figure called maintained.`, SIZE),
    table(
      [
        { title: "luminaire", share: 1.2 },
        { title: "flux, lm", share: 0.7, align: "end" },
        { title: "rated, lm", share: 0.7, align: "end" },
        { title: "power, W", share: 0.7, align: "end" },
        { title: "light leaves from", share: 1.7 },
        { title: "evidence and its band", share: 1.7 },
        { title: "source", share: 2 },
      ],
      types.map((each) => luminaireRow(each, words)),
    ),
    table(
      [
        { title: "option", share: 0.75 },
        { title: "layer", share: 1.2 },
        { title: "luminaire", share: 1.2 },
        { title: "count", share: 0.5, align: "end" },
        { title: "level", share: 0.6, align: "end" },
        { title: "places: x, y, height of the photometric centre", share: 5 },
      ],
      handover.options.flatMap(({ scene: each }) =>
        each.layers.map((layer) => [
          each.letter,
          printable(layer.name, 30),
          [...new Set(layer.luminaires.map(({ luminaire }) => printable(luminaire.name, 30)))].join(", "),
          `${layer.luminaires.length}`,
          `${Math.round(layer.dim * 100)} %`,
          layer.luminaires
            .slice(0, 24)
            .map(({ frame }) => frame.origin.map(words.dimension).join(", "))
            .join("; ") + (layer.luminaires.length > 24 ? "; and more, see the tables of boxes" : ""),
        ]),
      ),
    ),
    ...loadReport(scene).remarks.map((remark) => bullet(printable(remark, 300), SIZE)),
  ];
}

function luminairesOf(scene: Scene): Luminaire[] {
  return scene.layers.flatMap(({ luminaires }) => luminaires.map(({ luminaire }) => luminaire));
}

function luminaireRow(
  { name, flux, ratedFlux, watts: power, emission, evidence, origin }: Luminaire,
  words: HandoverWords,
): string[] {
  const { shape, length, width, height } = emission.opening;
  const { words: known, band } = EVIDENCE[evidence];
  const [down, up] = band.map((share) => Math.round(share * 100));
  return [
    printable(name, 40),
    flux.toFixed(0),
    ratedFlux === undefined ? "–" : ratedFlux.toFixed(0),
    power === undefined ? "–" : `${Number(power.toPrecision(3))}`,
    shape === "point"
      ? "a point"
      : `${shape} ${words.dimension(length)} × ${words.dimension(width)}${height > 0 ? ` × ${words.dimension(height)}` : ""}`,
    `${known}, ${down === up ? `±${up}` : `−${down} +${up}`} %`,
    printable(origin, 60),
  ];
}

export function assumed(handover: Handover): Block[] {
  const { defaults, warnings } = handover;
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
          table(
            [
              { title: "place in the study", share: 2.2 },
              { title: "value", share: 1.2 },
              { title: "why", share: 3.4 },
            ],
            defaults.map(({ path, value, why }) => [
              printable(path, 90),
              briefValue(value, 60),
              printable(why, 160),
            ]),
          ),
        ]),
    ...(warnings.length === 0 ? [] : [paragraph("Warnings met on the way:", { size: SIZE, strong: true })]),
    ...warnings.map((issue) => bullet(printable(formatIssue(issue), 400), SIZE)),
  ];
}

export function method(handover: Handover): Block[] {
  const { assessment } = chosenOption(handover);
  const { method: how, balance } = assessment;
  const percent = (share: number, digits = 2): string => `${(100 * share).toFixed(digits)} %`;
  const bands = DEFAULT_BANDS;
  return [
    heading("7  How it was computed", 12),
    bullet(`${asSentence(methodText(how))} Quality: ${how.quality}.`, SIZE),
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
      `Bands (95 %): light output and beam shape by their evidence; rated flux 0 to −${percent(bands.ratedFlux, 0)}; between equal luminaires σ ${percent(bands.unitScatter, 0)}; maintenance ±${bands.maintenance}; reflectance ±${bands.reflectance}; places ±${1000 * bands.position} mm, heights ±${1000 * bands.height} mm, angles as hung ±${degrees(bands.hungAngle).toFixed(0)}°; dimmed flux ±${percent(bands.dimming, 0)}. "Meets" is said when the target is reached with probability ${DEFAULT_CONFIDENCE} or more, "falls short" when with ${(1 - DEFAULT_CONFIDENCE).toFixed(1)} or less, else "too close to call".${how.quality === "quick" ? " A draft: what it left out widens every band at both ends." : ""}`,
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
