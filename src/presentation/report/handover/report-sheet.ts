/**
 * The calculation report: what was asked, what was found and how sure it is, what went in, what was assumed, how it
 * was computed and from which sources. Whoever doubts a figure finds here what it rests on.
 */

import { wholeTopPlane } from "../../../assessment/assess.ts";
import type { ArrangementAssessment, Check } from "../../../assessment/assessment.ts";
import { guidelineCards } from "../../../assessment/guidelines/cards.ts";
import { averageOf } from "../../../assessment/layer-light.ts";
import { loadReport } from "../../../assessment/load.ts";
import { PUBLISHED_TARGETS_BY_ID, publishedRange } from "../../../assessment/targets-published.ts";
import { DEFAULT_BANDS, DEFAULT_CONFIDENCE } from "../../../assessment/tolerance/input-bands.ts";
import { whatWouldSettle } from "../../../assessment/tolerance/settling.ts";
import { formatIssue } from "../../../diagnostics/issue.ts";
import { printable } from "../../../diagnostics/printable.ts";
import { EVIDENCE } from "../../../luminaire/evidence.ts";
import type { Luminaire } from "../../../luminaire/luminaire.ts";
import type { Scene } from "../../../scene/scene.ts";
import { degrees } from "../../../units/quantities.ts";
import { type Block, bullet, type Column, flow, gap, heading, paragraph } from "../../drawing/paper/flow.ts";
import { sheetFrame } from "../../drawing/paper/frame.ts";
import { moved, type Sheet } from "../../drawing/paper/paper.ts";
import { VERDICT_MARK, zoneSentence } from "../../text.ts";
import {
  chosenOption,
  type Handover,
  type HandoverOption,
  type HandoverWords,
  handoverWords,
  optionLetter,
  program,
} from "./handover.ts";
import { lightKey, optionPlan } from "./option-plan.ts";
import { relianceBlocks } from "./schedule-sheet.ts";

const SIZE = 8.5;
const TABLE = 7.5;

export function reportSheets(handover: Handover): Sheet[] {
  const words = handoverWords(handover);
  const facts = {
    project: handover.project,
    title: "Calculation report",
    revision: handover.revision,
    date: handover.date,
    units: `${handover.unit === "mm" ? "mm" : "ft-in"}, ${handover.illuminance}`,
    fingerprint: handover.fingerprint,
  };
  const { field } = sheetFrame(handover.paper, false, { ...facts, number: "1" });
  const blocks: Block[] = [
    ...summary(handover, words),
    ...asked(handover, words),
    ...handover.options.flatMap((option, i) => results(handover, option, i, field.width, words)),
    heading("4  What the light of the chosen option relies on", 12),
    ...relianceBlocks(handover, words),
    ...inputs(handover, words),
    ...assumed(handover),
    ...method(handover),
    ...rules(handover, words),
    ...cautions(),
  ];
  const pages = flow(blocks, () => field);
  return pages.map((marks, i): Sheet => {
    const frame = sheetFrame(handover.paper, false, { ...facts, number: `${i + 1} of ${pages.length}` });
    return {
      name: "report",
      title: `${handover.project}: calculation report`,
      width: frame.width,
      height: frame.height,
      marks: [...frame.marks, ...marks],
      summary:
        "Calculation report: targets, results with their bands, inputs, defaults, methods, sources, cautions.",
    };
  });
}

function summary(handover: Handover, words: HandoverWords): Block[] {
  const { scene, assessment } = chosenOption(handover);
  return [
    heading("1  In short", 12),
    paragraph(
      `Handed over: "${printable(scene.name, 60)}", ${VERDICT_MARK[assessment.verdict]} ${assessment.verdict}. Maintained values, in the dark, without daylight${assessment.method.people ? ", with the people of the study standing in the light" : ", nobody standing in the light"}.`,
      { size: SIZE, strong: true },
    ),
    ...assessment.zones.map((zone) =>
      paragraph(printable(upper(zoneSentence(zone, words.light)), 500), {
        marker: VERDICT_MARK[zone.verdict],
        size: SIZE,
        depicts: "verdict",
      }),
    ),
    ...(handover.options.length > 1
      ? [
          table(
            [
              { title: "option", share: 2.2 },
              { title: "verdict", share: 1.6 },
              { title: `whole top: average, ${words.light}`, share: 1.4, align: "end" },
              { title: "minimum", share: 1, align: "end" },
              { title: "evenness min/avg", share: 1.2, align: "end" },
              { title: "power, W", share: 0.9, align: "end" },
            ],
            handover.options.map(({ scene: each, assessment: light }, i) => {
              const top = light.planes[wholeTopPlane(each)]?.statistics;
              return [
                `${optionLetter(i)}  ${printable(each.name, 40)}${i === handover.chosen ? " (chosen)" : ""}`,
                `${VERDICT_MARK[light.verdict]} ${light.verdict}`,
                top === undefined ? "–" : words.figure(top.average),
                top === undefined ? "–" : words.figure(top.minimum),
                top === undefined ? "–" : top.uniformity.toFixed(2),
                watts(light),
              ];
            }),
          ),
        ]
      : []),
  ];
}

function watts({ energy }: ArrangementAssessment): string {
  return `${energy.unknownWatts > 0 ? "≥ " : ""}${energy.watts.toFixed(0)}`;
}

function asked(handover: Handover, words: HandoverWords): Block[] {
  const scene = chosenOption(handover).scene;
  const rows = scene.zones.map((zone) => {
    const target =
      zone.target === undefined
        ? undefined
        : (handover.targets.get(zone.target) ?? PUBLISHED_TARGETS_BY_ID.get(zone.target));
    const requirements = target?.requirements.map((r) =>
      r.quantity === "illuminance"
        ? `${r.statistic} ${words.lux(r.value)} ${r.nature}`
        : `evenness ${r.value.toFixed(2)}`,
    );
    return [
      printable(zone.name, 40),
      requirements?.join(", ") ?? "nothing",
      target === undefined ? "–" : printable(`${target.name}. ${target.source}`, 200),
      target?.known ?? "–",
    ];
  });
  const { least, greatest } = publishedRange("worktop");
  return [
    heading("2  What was asked", 12),
    ...(rows.length === 0
      ? [paragraph("No zones were given: the whole top is one, and nothing is asked of it.", { size: SIZE })]
      : [
          table(
            [
              { title: "zone", share: 1 },
              { title: "target", share: 1.8 },
              { title: "source", share: 3.2 },
              { title: "how known", share: 0.9 },
            ],
            rows,
          ),
        ]),
    paragraph(
      `Published figures for a worktop disagree, from ${words.figure(least)} to ${words.lux(greatest)}; the target is the designer's choice among them. "secondary": quoted by another text; "from memory": not looked up; confirm either before a contract rests on it.`,
      { size: SIZE },
    ),
  ];
}

function results(
  handover: Handover,
  option: HandoverOption,
  index: number,
  width: number,
  words: HandoverWords,
): Block[] {
  const { scene, assessment } = option;
  const plan = optionPlan(handover, option, width, 120);
  const key = lightKey(handover, width);
  return [
    ...(index === 0 ? [heading("3  What was found", 12)] : []),
    heading(
      `${optionLetter(index)}  ${printable(scene.name, 60)}: ${VERDICT_MARK[assessment.verdict]} ${assessment.verdict}`,
      10,
    ),
    { kind: "figure", height: plan.height + 4, draw: (x, y) => moved(plan.marks, [x, y]) },
    ...(index === 0
      ? [
          {
            kind: "figure",
            height: key.height + 6,
            draw: (x: number, y: number) => [...key.draw(x, y)],
          } as Block,
        ]
      : []),
    table(
      [
        { title: "zone", share: 1.2 },
        { title: "figure", share: 1.5 },
        { title: "value", share: 0.9, align: "end" },
        { title: "95 % band", share: 1.3, align: "end" },
        { title: "target", share: 0.9, align: "end" },
        { title: "verdict", share: 1.5 },
        { title: "what the doubt hangs on", share: 3 },
      ],
      assessment.zones.flatMap((zone) =>
        zone.checks.length === 0
          ? [
              [
                printable(zone.name, 30),
                "average",
                words.lux(zone.statistics.average),
                "–",
                "–",
                "– no target",
                "–",
              ],
            ]
          : zone.checks.map((check) => checkRow(zone.name, check, words)),
      ),
    ),
    table(
      [
        { title: `plane, ${words.light}`, share: 1.6 },
        { title: "average", share: 0.8, align: "end" },
        { title: "minimum", share: 0.9, align: "end" },
        { title: "maximum", share: 0.9, align: "end" },
        { title: "min/avg", share: 0.7, align: "end" },
        { title: "min/max", share: 0.7, align: "end" },
        { title: "points", share: 0.7, align: "end" },
        { title: "by layer: direct + interreflected", share: 3.4 },
      ],
      assessment.planes.flatMap((plane, i) => {
        if (plane.name.endsWith(", fine")) return [];
        const s = plane.statistics;
        const fine = (value: number, finer: number | undefined): string =>
          `${words.figure(value)}${finer === undefined ? "" : ` (${words.figure(finer)})`}`;
        const layers = plane.layers.map((layer) => {
          const part = averageOf(plane.layers, scene.planes[i].weights, (each) => each === layer);
          return `${printable(layer.layer, 24)} ${words.figure(part.direct)} + ${words.figure(part.interreflected)}`;
        });
        return [
          [
            printable(plane.name, 40),
            words.figure(s.average),
            fine(s.minimum, plane.fine?.minimum),
            fine(s.maximum, plane.fine?.maximum),
            s.uniformity.toFixed(2),
            s.diversity.toFixed(2),
            `${s.points}`,
            layers.join("; "),
          ],
        ];
      }),
    ),
    paragraph(
      `Figures in brackets are of the fine grid, for minima and isolux lines; verdicts rest on the verification grid. Power ${watts(assessment)} W as dimmed, ${assessment.energy.wattsPerSquareMetre.toFixed(1)} W/m² of floor.`,
      { size: TABLE },
    ),
    gap(6),
  ];
}

function checkRow(zone: string, check: Check, words: HandoverWords): string[] {
  const light = check.quantity === "illuminance";
  const value = (x: number): string => (light ? words.figure(x) : x.toFixed(2));
  const chance =
    check.probability === undefined
      ? ""
      : ` (reached with probability ${check.probability > 0.995 ? "over 0.99" : check.probability < 0.005 ? "under 0.01" : check.probability.toFixed(2)})`;
  return [
    printable(zone, 30),
    light ? `${check.statistic} ${check.nature}, ${words.light}` : "evenness, min/avg",
    value(check.value),
    `${value(check.band[0])} to ${value(check.band[1])}`,
    value(check.target),
    `${VERDICT_MARK[check.verdict]} ${check.verdict}${chance}`,
    check.drivers.length === 0 ? "–" : printable(whatWouldSettle(check.drivers), 120),
  ];
}

function inputs(handover: Handover, words: HandoverWords): Block[] {
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
      handover.options.flatMap(({ scene: each }, i) =>
        each.layers.map((layer) => [
          optionLetter(i),
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

function assumed(handover: Handover): Block[] {
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
            defaults.map(({ path, value, why }) => [printable(path, 90), brief(value), printable(why, 160)]),
          ),
        ]),
    ...(warnings.length === 0 ? [] : [paragraph("Warnings met on the way:", { size: SIZE, strong: true })]),
    ...warnings.map((issue) => bullet(printable(formatIssue(issue), 400), SIZE)),
  ];
}

function method(handover: Handover): Block[] {
  const { assessment } = chosenOption(handover);
  const { method: how, balance } = assessment;
  const percent = (share: number, digits = 2): string => `${(100 * share).toFixed(digits)} %`;
  const bands = DEFAULT_BANDS;
  const tolerant = assessment.zones.some((zone) =>
    zone.checks.some((check) => check.probability !== undefined),
  );
  return [
    heading("7  How it was computed", 12),
    bullet(`${upper(how.description)} Quality: ${how.quality}.`, SIZE),
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
      tolerant
        ? `Bands (95 %): photometry by its evidence; rated flux 0 to −${percent(bands.ratedFlux, 0)}; between equal luminaires σ ${percent(bands.unitScatter, 0)}; maintenance ±${bands.maintenance}; reflectance ±${bands.reflectance}; places ±${1000 * bands.position} mm, heights ±${1000 * bands.height} mm; dimmed flux ±${percent(bands.dimming, 0)}. "Meets" is said when the target is reached with probability ${DEFAULT_CONFIDENCE} or more, "falls short" when with ${(1 - DEFAULT_CONFIDENCE).toFixed(1)} or less, else "too close to call".`
        : 'Bands (95 %): that of each luminaire type\'s evidence, all types at their ends together; "meets" when even the low end reaches the target, "falls short" when even the high end does not, else "too close to call".',
      SIZE,
    ),
    bullet(
      "Conditions: steady state, dark, surfaces diffuse, colours neutral. Verification grid after EN 12464-1 (spacing 0.2 · 5^log₁₀ d), area-weighted.",
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

function rules(handover: Handover, words: HandoverWords): Block[] {
  const cards = guidelineCards(chosenOption(handover).scene, { length: words.unit }).filter(
    (card) => card.outcome !== "does not apply",
  );
  if (cards.length === 0) return [];
  return [
    heading("8  Rules of thumb held against the chosen option", 12),
    paragraph("They inform and contradict one another; no verdict rests on them.", { size: SIZE }),
    table(
      [
        { title: "rule", share: 3.6 },
        { title: "here", share: 1 },
        { title: "would ask for", share: 2.2 },
        { title: "heard from", share: 2 },
      ],
      cards.map((card) => [
        printable(card.rule, 200),
        card.outcome,
        printable(card.asks, 140),
        printable(card.source, 120),
      ]),
    ),
  ];
}

function cautions(): Block[] {
  return [
    heading("9  Cautions", 12),
    ...[
      "The figures are predictions with a band, not a guarantee. A reading within 20 % of a calculation has long counted as a good result; a hand meter adds 3 to 10 % of its own (both read in published articles).",
      "Electrical work, boxes, supports, weight, heat above a hob and hanging glass: licensed people and local codes decide. Nothing here is a design of the wiring.",
      "Typical finishes and shade values are to be replaced by the real ones before a promise rests on them.",
      "Night only: no daylight is counted. A person at the top takes light from it; ask for a calculation with people where that matters.",
      "Check with a meter at night, lamps warm, layers one by one, at the points of the verification grid.",
    ].map((words) => bullet(words, SIZE)),
  ];
}

function table(columns: readonly Column[], rows: readonly (readonly string[])[]): Block {
  return { kind: "table", columns, rows, size: TABLE };
}

function brief(value: unknown): string {
  const rounded = typeof value === "number" ? Number(value.toPrecision(6)) : value;
  return printable((typeof rounded === "string" ? rounded : JSON.stringify(rounded)) ?? "", 60);
}

function upper(words: string): string {
  return words === "" ? "" : `${words.charAt(0).toUpperCase()}${words.slice(1).replace(/\.?$/, ".")}`;
}
