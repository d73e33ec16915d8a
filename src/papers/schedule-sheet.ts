/** The sheet for whoever orders: luminaire schedule, lamps to bring, and what the light relies on. */

import { costReport, isCostStated } from "../advice/cost.ts";
import { reliances } from "../app/set-out/flux-margin.ts";
import { type SetOut, setOut, typeMarks } from "../app/set-out/set-out.ts";
import { oneLine } from "../diagnostics/one-line.ts";
import { printable } from "../diagnostics/printable.ts";
import { type Block, bullet, flowPages, heading, paragraph, SMALL } from "../drawing/paper/flow.ts";
import { column, endColumn, table } from "../drawing/paper/table.ts";
import { EVIDENCE } from "../luminaire/evidence.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { planExtents, planForm } from "../luminaire/plan-extent.ts";
import { suspensionPoints } from "../luminaire/suspension-points.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import { BEAM_LEVEL, beamAngle } from "../photometry/beam-angle.ts";
import { ceilingBoxes } from "../scene/ceiling-boxes.ts";
import type { Scene } from "../scene/scene.ts";
import { degrees, KILOGRAMS_PER_POUND } from "../units/quantities.ts";
import { beamText } from "../words/beam-text.ts";
import { costGapWords, costWords } from "../words/cost-words.ts";
import { overHobSentence } from "../words/hob-text.ts";
import { leastFluxSentence } from "../words/least-flux.ts";
import { orderContradictionWords, sameProductWords } from "../words/order-words.ts";
import { toBeBuilt } from "./cover-sheet.ts";
import { chosenOption, type Handover, type HandoverWords, handoverWords } from "./handover.ts";
import { lengthUnits, type Page, page, pageField } from "./page.ts";
import { setOutHolds } from "./set-out/holds.ts";
import { asHung } from "./set-out/orientation-table.ts";
import { recessWords } from "./set-out/other-boxes-tables.ts";

/** Letters of tables (points). */
const TABLE = SMALL + 0.25;

export function scheduleSheets(handover: Handover): Page[] {
  const { scene } = chosenOption(handover);
  const words = handoverWords(handover);
  const sheet = pageField(handover, true);
  const layout = setOut(scene, handover.unit, words.length);
  const held = setOutHolds(handover, layout, words).length;
  const head = { title: "Luminaires and lamps", option: scene.name, units: lengthUnits(handover), held };
  const overHob = overHobSentence(scene);
  const blocks = [
    ...toBeBuilt(handover, held),
    ...(overHob === undefined ? [] : [paragraph(overHob, { size: SMALL + 0.5 })]),
    ...scheduleBlocks(handover, layout, words),
  ];
  return flowPages(blocks, sheet.field).map((marks) =>
    page(handover, sheet, head, {
      name: "schedule",
      marks,
      summary: "Schedule of luminaires and lamps, and what the performance relies on.",
    }),
  );
}

/** One row of the schedule, for paper and for spreadsheets. */
export interface ScheduleRow {
  readonly type: string;
  readonly luminaire: Luminaire;
  readonly count: number;
  /** The first of them that sits in the ceiling. */
  readonly recessed: PlacedLuminaire | undefined;
  /** Full angle at half the maximum (rad); undefined in the dark. */
  readonly beam: number | undefined;
  /** The same of each plane, of which `beam` is the mean. */
  readonly beams: readonly number[];
  /** Extents in plan and height (m). */
  readonly size: readonly [length: number, width: number, height: number];
}

export function scheduleRows(handover: Pick<Handover, "options" | "chosen">): ScheduleRow[] {
  const { scene } = chosenOption(handover);
  const inCeiling = ceilingBoxes(scene).filter(({ kind }) => kind === "recessed");
  return [...typeMarks(scene)].map(([luminaire, type]): ScheduleRow => {
    const [lowest, highest] = verticalExtent(luminaire);
    const { ofMaximum: beam, planes } = beamAngle(luminaire.distribution, BEAM_LEVEL);
    return {
      type,
      luminaire,
      count: scene.layers.reduce(
        (sum, layer) => sum + layer.luminaires.filter((p) => p.luminaire === luminaire).length,
        0,
      ),
      recessed: inCeiling.find(({ placed }) => placed.luminaire === luminaire)?.placed,
      beam,
      beams: planes.flatMap(({ ofMaximum }) => (ofMaximum === undefined ? [] : [ofMaximum.angle])),
      size: [...planExtents(luminaire), highest - lowest],
    };
  });
}

function scheduleBlocks(handover: Handover, layout: SetOut, words: HandoverWords): Block[] {
  const { scene } = chosenOption(handover);
  const rows = scheduleRows(handover);
  return [
    heading("Luminaires", 11),
    luminaireTable(handover, rows, words),
    paragraph(
      "A dash means the study does not say; settle it before ordering. Dimmable, enclosed-rated, locally listed: to be confirmed by the supplier for every lamp and luminaire.",
      { size: SMALL + 0.5 },
    ),
    ...orderBlocks(rows, handover),
    ...costBlocks(handover),
    ...lampBlocks(handover, rows),
    ...asHung(layout, scene, words),
    heading("The performance relies on", 11),
    ...relianceBlocks(handover, words),
  ];
}

/** As the study states them; of a shade that states neither, what its light was traced with. */
function finishWords({ lamps }: Handover, luminaire: Luminaire): string | undefined {
  const stated = [luminaire.colour, luminaire.finish].filter((each) => each !== undefined);
  return stated.length > 0 ? stated.join(", ") : lamps.get(luminaire.name)?.shade;
}

function luminaireTable(handover: Handover, rows: readonly ScheduleRow[], words: HandoverWords): Block {
  const { scene } = chosenOption(handover);
  return table(
    rows,
    [
      column("type", 0.5, ({ type }) => type),
      column("luminaire", 1.5, ({ luminaire }) => printable(luminaire.name, 40)),
      endColumn("count", 0.6, ({ count }) => `${count}`),
      endColumn("flux, lm", 0.75, ({ luminaire }) => luminaire.flux.toFixed(0)),
      endColumn("power, W", 0.8, ({ luminaire }) => wattsWords(luminaire.watts)),
      endColumn("marked, W", 0.85, ({ luminaire }) => wattsWords(luminaire.markedWatts)),
      endColumn("CCT, K", 0.75, ({ luminaire }) => said(luminaire.cct)),
      endColumn("CRI, Ra", 0.95, ({ luminaire }) => said(luminaire.cri)),
      endColumn("beam at half", 0.9, beamWords),
      endColumn("size: plan, height", 1.7, (row) => sizeWords(row, words)),
      endColumn(words.unit === "ft-in" ? "weight, lb" : "weight, kg", 0.75, ({ luminaire: { weight } }) =>
        said(
          weight === undefined || words.unit !== "ft-in"
            ? weight
            : Number((weight / KILOGRAMS_PER_POUND).toFixed(1)),
        ),
      ),
      column("set in, or hangs on", 1.1, (row) => mountingWords(row, scene, words)),
      column("colour, finish", 1.2, ({ luminaire }) => said(finishWords(handover, luminaire), 60)),
      column("light known from", 1.9, ({ luminaire: { evidence, origin, unsettledFlux, filed } }) => {
        const held = unsettledFlux === undefined ? "" : "HOLD, flux not settled; ";
        const called = oneLine(filed?.description ?? "", 80);
        const own = called === "" ? "" : `, which calls it "${called}"`;
        return `${held}${EVIDENCE[evidence].words}: ${printable(origin, 160)}${own}`;
      }),
    ],
    { size: TABLE, depicts: "schedule row" },
  );
}

/** `cord, canopy 120 mm`; `cut-out 75 mm; depth 110 mm by its stated body` */
function mountingWords({ luminaire, recessed }: ScheduleRow, scene: Scene, words: HandoverWords): string {
  if (recessed !== undefined) return recessWords(scene, recessed, words);
  const { canopy } = luminaire;
  const hung = suspensionWords(luminaire, words);
  return canopy === undefined ? hung : `${hung}; canopy ${words.length(canopy.diameter)}`;
}

/** `cable, 2 points 960 mm apart (assumed)` */
function suspensionWords(luminaire: Luminaire, words: HandoverWords): string {
  const own = suspensionPoints(luminaire);
  if (own === undefined || own.points.length < 2) return said(luminaire.suspension);
  const [first, last] = [own.points[0], own.points[own.points.length - 1]];
  const apart = words.length(Math.hypot(last[0] - first[0], last[1] - first[1]));
  const assumed = luminaire.suspensions === undefined ? " (assumed)" : "";
  return `${luminaire.suspension === undefined ? "" : `${luminaire.suspension}, `}${own.points.length} points, ${apart} apart${assumed}`;
}

/** What the order names: from the study, else from the photometric file. */
function orderBlocks(rows: readonly ScheduleRow[], handover: Handover): Block[] {
  const { currency } = costReport(chosenOption(handover).scene);
  return [
    heading("To order", 11),
    table(
      rows,
      [
        column("type", 0.5, ({ type }) => type),
        column("maker", 1.6, ({ luminaire }) => said(luminaire.maker)),
        column("order no.", 1.6, ({ luminaire }) => said(luminaire.order)),
        column("lamp", 1.8, ({ luminaire: { lamp, name } }) => said(lamp ?? tracedLamp(handover, name))),
        column("base", 0.7, ({ luminaire }) => said(luminaire.base)),
        column("driver", 1.4, ({ luminaire }) => said(luminaire.driver)),
        column("dimming", 1.2, ({ luminaire }) => said(luminaire.dimming)),
        endColumn(priceTitle("price each", currency), 0.9, ({ luminaire }) => said(luminaire.price)),
      ],
      { size: TABLE, depicts: "order row" },
    ),
    ...rows.flatMap(({ type, luminaire }) =>
      orderContradictionWords(luminaire).map((words) =>
        paragraph(`HOLD type ${type}: ${words}`, { size: SMALL + 0.5, marker: "□", depicts: "hold" }),
      ),
    ),
    ...rows.flatMap(({ type, luminaire }) => {
      const words = sameProductWords(luminaire);
      return words === "" ? [] : [paragraph(`Type ${type}: ${words}`, { size: SMALL + 0.5 })];
    }),
  ];
}

/** The lamp that a shade was traced with: `A19, 806 lm`. */
function tracedLamp({ lamps }: Handover, name: string): string | undefined {
  const lamp = lamps.get(name);
  if (lamp === undefined) return undefined;
  const flux = lamp.flux === undefined ? undefined : `${lamp.flux} lm`;
  return [lamp.shape, flux].filter((each) => each !== undefined).join(", ") || undefined;
}

/** What it costs, where the study says anything of that. */
function costBlocks(handover: Handover): Block[] {
  const report = costReport(chosenOption(handover).scene);
  if (!isCostStated(report)) return [];
  const missing = costGapWords(report);
  return [
    heading(`Cost over ${report.years} years`, 11),
    paragraph(
      `${costWords(report)}${missing === undefined ? "" : ` ${missing}`} At today's prices and the levels as dimmed.`,
      { size: SMALL + 0.5 },
    ),
  ];
}

/** Nowhere under half its maximum: no beam. */
function beamWords({ beam, beams }: ScheduleRow): string {
  if (beam === undefined) return "–";
  return beam > 2 * Math.PI - 1e-6 ? "all round" : beamText(degrees(beam), beams.map(degrees));
}

/** `price each, EUR` */
export const priceTitle = (title: string, currency: string | undefined): string =>
  currency === undefined ? title : `${title}, ${printable(currency, 20)}`;

const said = (value: string | number | undefined, limit = 40): string =>
  value === undefined ? "–" : printable(String(value), limit);

const wattsWords = (watts: number | undefined): string =>
  said(watts === undefined ? undefined : Number(watts.toPrecision(3)));

function sizeWords({ luminaire, size: [length, width, height] }: ScheduleRow, words: HandoverWords): string {
  if (length === 0) return "–";
  const plan =
    planForm(luminaire) === "circle"
      ? words.dimension(length)
      : `${words.dimension(length)} × ${words.dimension(width)}`;
  return height < 0.0005 ? plan : `${plan}, ${words.dimension(height)}`;
}

function lampBlocks(handover: Handover, rows: readonly ScheduleRow[]): Block[] {
  const lamps = rows.flatMap((row) => {
    const lamp = handover.lamps.get(row.luminaire.name);
    return lamp === undefined ? [] : [{ row, lamp }];
  });
  if (lamps.length === 0)
    return [
      paragraph(
        "Lamps: the luminaires are taken as delivered with their light sources, as their photometry describes them. Where one takes a separate lamp, order the very lamp of its photometric file and have it on site at trim-out.",
        { size: SMALL + 0.5 },
      ),
    ];
  return [
    heading("Lamps to order, and to have on site at trim-out", 9.5),
    table(
      lamps,
      [
        column("for type", 0.7, ({ row }) => row.type),
        endColumn("lamps in all", 0.8, ({ row, lamp }) => `${row.count * (lamp.count ?? 1)}`),
        column("shape", 1.4, ({ lamp }) => said(lamp.shape)),
        column("finish", 1.2, ({ lamp }) => said(lamp.finish)),
        endColumn("flux each, lm", 1, ({ lamp }) => said(lamp.flux)),
        endColumn("power each, W", 1, ({ lamp }) => said(lamp.watts)),
        endColumn("beam", 0.7, ({ lamp }) => (lamp.beam === undefined ? "–" : `${lamp.beam}°`)),
        endColumn("CCT, K", 0.8, ({ row }) => said(row.luminaire.cct)),
        endColumn("CRI, Ra", 0.8, ({ row }) => said(row.luminaire.cri)),
      ],
      { size: TABLE, depicts: "lamp row" },
    ),
  ];
}

/** A black dome that is white inside gives many times the light of one that is not. */
function shadeSentence({ lamps }: Handover, { name }: Luminaire): string {
  const shade = lamps.get(name)?.shade;
  return shade === undefined ? "" : ` Its light was traced from its shade: ${shade}; order these finishes.`;
}

export function relianceBlocks(handover: Handover, words: HandoverWords): Block[] {
  const { scene, assessment } = chosenOption(handover);
  const marks = typeMarks(scene);
  const size = SMALL + 1;
  const blocks: Block[] = [];
  for (const reliance of reliances(scene, assessment)) {
    const { luminaire, shares } = reliance;
    const type = marks.get(luminaire);
    const parts = shares
      .map(({ zone, share }) => `${printable(zone, 30)} ${Math.round(share * 100)} %`)
      .join(", ");
    const floor = leastFluxSentence(reliance) ?? "No met target rests on its flux alone.";
    const colour = [
      luminaire.cct === undefined ? undefined : `${luminaire.cct} K`,
      luminaire.cri === undefined ? undefined : `Ra ${luminaire.cri} or better`,
    ].filter((each) => each !== undefined);
    blocks.push(
      bullet(
        `Type ${type}, "${printable(luminaire.name, 40)}", or one whose measured distribution has been run in this study: its share of the light is ${parts}.${shadeSentence(handover, luminaire)} ${floor}${colour.length === 0 ? "" : ` Order ${colour.join(", ")}.`} A lamp or trim of another beam is another light, whatever its lumens.`,
        size,
      ),
    );
  }
  const dims = scene.layers
    .filter((layer) => layer.luminaires.length > 0)
    .map((layer) => `${printable(layer.name, 30)} at ${Math.round(layer.dim * 100)} % of its flux`);
  const { room, island } = scene;
  blocks.push(
    bullet(
      `Levels: ${dims.join(", ")}; maintenance factor ${scene.maintenance.toFixed(2)}: lamps replaced and shades cleaned so that it holds.`,
      size,
    ),
    bullet(
      "Places and heights as on the set-out sheet; people and tall things not in the way of the light.",
      size,
    ),
    bullet(
      `Finishes as in the report${island === undefined ? "" : ` (top reflectance ${island.topReflectance.toFixed(2)})`}; room ${words.length(room.length)} × ${words.length(room.width)}, ceiling ${words.length(room.ceilingHeight)}${room.slope === 0 ? "" : " at its lowest"}.`,
      size,
    ),
    bullet(
      "Figures are for the dark. Any substitution goes back to the designer for a new verdict before it is ordered.",
      size,
    ),
  );
  return blocks;
}
