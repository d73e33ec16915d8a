/**
 * The sheet for whoever programs the dimmers: in each setting the light output of each layer, what its dimmer is set to where that
 * is known, and what a meter then reads at a point of each zone.
 *
 *   new = maintained / MF: lamps are new and everything is clean when dimmers are set
 */

import { switchingLegs } from "../advice/switching.ts";
import { isPlainlySwitched } from "../app/set-out/layer-issues.ts";
import type { SetOut } from "../app/set-out/set-out.ts";
import { settingLevels } from "../app/settings-comparison.ts";
import type { MeterPoint, ZoneAssessment } from "../assessment/assessment.ts";
import { layerPower } from "../assessment/energy.ts";
import { printable } from "../diagnostics/printable.ts";
import { type Box, line, overlaps, segment, type TextMark, text, textBox } from "../drawing/drawing.ts";
import { islandAxes } from "../drawing/island-axes.ts";
import { fittingNames, fittings } from "../drawing/island-fittings.ts";
import { lineMeetsBox, orientedBox } from "../drawing/oriented-box.ts";
import { type Block, bullet, flowPages, heading, paragraph, SMALL } from "../drawing/paper/flow.ts";
import type { PaperMark } from "../drawing/paper/paper.ts";
import { column, endColumn, table } from "../drawing/paper/table.ts";
import { depthInside } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { initialFactor } from "../scene/maintained.ts";
import type { Layer, Scene } from "../scene/scene.ts";
import { withSetting } from "../scene/settings.ts";
import { powerFigure } from "../units/power-text.ts";
import { controlWords, levelWords } from "../words/settings-text.ts";
import { chosenOption, type Handover, type HandoverWords, handoverWords } from "./handover.ts";
import { lengthUnits, type Page, page, pageField } from "./page.ts";
import { setOutHolds } from "./set-out/holds.ts";

const TABLE = SMALL + 0.25;
const TALLEST_PLAN = 150;

export function dimmerSheets(handover: Handover, setOut: SetOut): Page[] {
  const { scene } = chosenOption(handover);
  const words = handoverWords(handover);
  const sheet = pageField(handover, true);
  const head = {
    title: "Dimmer settings",
    option: scene.name,
    units: lengthUnits(handover),
    held: setOutHolds(handover, setOut, words).length,
  };
  const settings = dimmedSettings(handover);
  const points = meterPoints(handover);
  const blocks = [
    heading("Levels", 11),
    levels(scene, settings),
    paragraph(levelsNote(scene), { size: TABLE }),
    ...(points.length === 0 ? [] : meterBlocks(scene, settings, points, words)),
  ];
  return flowPages(blocks, sheet.field).map((marks) =>
    page(handover, sheet, head, {
      name: "dimmers",
      marks,
      summary: "Levels of every dimmer in every setting, and what a meter then reads.",
    }),
  );
}

interface DimmedSetting {
  readonly name: string;
  readonly layers: readonly Layer[];
  readonly zones: readonly ZoneAssessment[];
}

/** The settings of the chosen option; one of the levels as dimmed where it has none. */
function dimmedSettings(handover: Handover): readonly DimmedSetting[] {
  const { scene, assessment } = chosenOption(handover);
  const { settings = [] } = scene;
  if (settings.length === 0) return [{ name: "as dimmed", layers: scene.layers, zones: assessment.zones }];
  return settings.map((setting, i) => ({
    name: setting.name,
    layers: withSetting(scene, setting).layers,
    zones: assessment.settings?.[i].zones ?? [],
  }));
}

function levels(scene: Scene, settings: readonly DimmedSetting[]): Block {
  const rows = settings.flatMap(({ name, layers }) =>
    switchingLegs(layers).map(({ leg, layer }, i) => ({
      name: i === 0 ? printable(name, 30) : "",
      leg,
      layer,
    })),
  );
  return table(
    rows,
    [
      column("setting", 1.5, ({ name }) => name),
      column("layer", 1.5, ({ layer }) => printable(layer.name, 30)),
      column("circuit", 0.8, ({ layer: { circuit } }) =>
        circuit === undefined ? "HOLD" : printable(circuit, 20),
      ),
      column("leg", 0.4, ({ leg }) => leg),
      column("dimmer", 1.6, ({ layer }) => dimmerWords(layer, scene)),
      endColumn("light output", 0.9, ({ layer }) => levelWords(layer.dim)),
      endColumn("dimmer at", 1.3, ({ layer }) => setWords(layer, scene)),
      endColumn("load, W", 0.7, ({ layer }) => {
        const { watts, unknown } = layerPower(layer);
        return powerFigure(watts, unknown, "≥", 1);
      }),
    ],
    { size: TABLE, depicts: "setting row" },
  );
}

/** @param layer as a setting has it, which may be off there */
function isSwitched({ name }: Layer, scene: Scene): boolean {
  const planned = scene.layers.find((layer) => layer.name === name);
  return planned !== undefined && isPlainlySwitched(scene, planned);
}

function setWords(layer: Layer, scene: Scene): string {
  if (isSwitched(layer, scene)) return layer.dim === 0 ? "off" : "on";
  const [{ control }] = settingLevels([layer], [layer.dim]);
  if (control === undefined) return "not stated";
  return layer.dim === 0 ? "off" : controlWords(control);
}

function dimmerWords(layer: Layer, scene: Scene): string {
  const { dimmer } = layer;
  if (isSwitched(layer, scene)) return "none: switched";
  if (dimmer === undefined) return "not stated";
  return dimmer.name === undefined ? "its name not stated" : printable(dimmer.name, 40);
}

function levelsNote({ layers, settings }: Scene): string {
  const isKnown = layers.some(({ dimmer }) => dimmer?.control !== undefined);
  const first = settings === undefined ? "The study names no setting: these are the levels as dimmed. " : "";
  return `${first}Light output is the share of a layer's full light; what a dimmer shows is rarely the same${isKnown ? ': "dimmer at" follows the curve that the study states for it' : ""}. Fade times, scenes of the control system and who may change them: to be settled with the client.`;
}

interface NamedPoint extends Pick<MeterPoint, "at"> {
  /** `M1` on plan and in tables. */
  readonly tag: string;
  readonly zone: string;
}

/** The middle of each zone of the chosen option. */
function meterPoints(handover: Handover): readonly NamedPoint[] {
  return chosenOption(handover).assessment.zones.flatMap(({ name, middle }, i) =>
    middle === undefined ? [] : [{ tag: `M${i + 1}`, zone: name, at: middle.at }],
  );
}

function meterBlocks(
  scene: Scene,
  settings: readonly DimmedSetting[],
  points: readonly NamedPoint[],
  words: HandoverWords,
): Block[] {
  return [
    heading("To check with a meter", 11),
    pointsPlan(scene, points),
    places(scene, points, words),
    readings(scene, settings, points, words),
    ...[
      ...sinkWords(scene, points),
      "At night, lamps warm. The sensor lies flat on the top at the point, facing up, and nobody leans over it.",
      `"New" is what to read now, with new lamps and clean shades; "maintained" is what is left of it at the maintenance factor ${scene.maintenance.toFixed(2)}, which the verdicts are about.`,
      "One layer alone tells which dimmer is off its level. A hand meter errs by 3 to 10 %, the prediction has its own band in the report. Every figure is rounded by itself: those of the layers may add to one more or less than all.",
    ].map((sentence) => bullet(sentence, TABLE)),
  ];
}

/** Nothing lies flat in the middle of a sink. */
function sinkWords(scene: Scene, points: readonly NamedPoint[]): string[] {
  const { island } = scene;
  const sink = island?.sink;
  if (island === undefined || sink === undefined) return [];
  const inSink = points.filter(({ at }) => depthInside(islandAxes(scene).toIsland([at[0], at[1]]), sink) > 0);
  const above = inSink.filter(({ at }) => at[2] > island.height - 0.02).map(({ tag }) => tag);
  const below = inSink.filter(({ at }) => at[2] <= island.height - 0.02).map(({ tag }) => tag);
  return [
    ...(above.length === 0
      ? []
      : [
          `${above.join(", ")} lies over the sink: lay a board across it, level with the top, for the sensor.`,
        ]),
    ...(below.length === 0 ? [] : [`${below.join(", ")} lies on the floor of the basin: empty it first.`]),
  ];
}

const isOnTop = ({ island }: Scene, place: Vec2): boolean =>
  island !== undefined && depthInside(place, island.outline) > 0;

/** Along and across the top from its left end and near edge; of what lies off the island from the room's walls. */
function placeOf(scene: Scene, { at }: NamedPoint): { readonly from: "top" | "room"; readonly place: Vec2 } {
  const [x, y] = at;
  const place = islandAxes(scene).toIsland([x, y]);
  return isOnTop(scene, place) ? { from: "top", place } : { from: "room", place: [x, y] };
}

function places(scene: Scene, points: readonly NamedPoint[], words: HandoverWords): Block {
  return table(
    points.map((point) => ({ ...point, ...placeOf(scene, point) })),
    [
      column("point", 0.5, ({ tag }) => tag),
      column("near the middle of", 1.5, ({ zone }) => printable(zone, 40)),
      column("measured from", 2.2, ({ from }) =>
        from === "top" ? "left end and near edge of the top" : "left and near wall of the room",
      ),
      endColumn("along", 0.9, ({ place }) => words.dimension(place[0])),
      endColumn("across", 0.9, ({ place }) => words.dimension(place[1])),
      endColumn("above the floor", 1, ({ at }) => words.dimension(at[2])),
    ],
    { size: TABLE, depicts: "meter row" },
  );
}

function readings(
  { layers, maintenance }: Scene,
  settings: readonly DimmedSetting[],
  points: readonly NamedPoint[],
  words: HandoverWords,
): Block {
  const fresh = initialFactor(maintenance);
  const rows = settings.flatMap(({ name, zones }) =>
    points.map(({ tag, zone }, i) => {
      const light = zones.find((each) => each.name === zone)?.middle?.layers ?? [];
      const together = light.reduce((sum, each) => sum + each, 0);
      return { name: i === 0 ? printable(name, 30) : "", tag, light, together };
    }),
  );
  const alone = ({ light }: (typeof rows)[number]): string =>
    layers.map(({ name }, l) => `${printable(name, 24)} ${words.figure((light[l] ?? 0) * fresh)}`).join(", ");
  return table(
    rows,
    [
      column("setting", 1.4, ({ name }) => name),
      column("point", 0.5, ({ tag }) => tag),
      column(`each layer alone, new, ${words.light}`, 3.2, alone),
      endColumn(`together, new, ${words.light}`, 1.1, ({ together }) => words.figure(together * fresh)),
      endColumn(`maintained, ${words.light}`, 0.9, ({ together }) => words.figure(together)),
      column("read", 0.8, () => ""),
    ],
    { size: TABLE, depicts: "meter row" },
  );
}

/** The top with its zones, hob, sink and seats, and the points on it. */
function pointsPlan(scene: Scene, points: readonly NamedPoint[]): Block {
  const { length, width, outline } = islandAxes(scene);
  // Beside and under the plan the names of what places are measured from.
  const [aside, under] = [12, 12];
  const heightOf = (perMetre: number): number => width * perMetre + 8 + under;
  const isOn = points.some((point) => placeOf(scene, point).from === "top");
  return {
    kind: "figure",
    height: heightOf(TALLEST_PLAN / Math.max(width, length / 3)),
    draw: (x, y, across) => {
      const perMetre = Math.min(TALLEST_PLAN / Math.max(width, length / 3), (across - aside) / length);
      const page = ([along, off]: Vec2): Vec2 => [x + aside + along * perMetre, y + (width - off) * perMetre];
      const { hob, sink } = scene.island ?? {};
      const rings = [
        outline,
        ...scene.zones.map((zone) => zone.outline),
        ...[hob, sink].flatMap((ring) => (ring ? [ring] : [])),
      ];
      const edges = rings.flatMap((corners) => sidesOf(corners.map(page)));
      const taken = points.map((point): Box => {
        const [left, top] = page(placeOf(scene, point).place);
        return { x: left - 4, y: top - 4, width: 8, height: 8 };
      });
      return [
        ...(isOn
          ? [
              text([x + 8, y + (width * perMetre) / 2], "left end", "dimension", {
                ink: "ink",
                size: 7,
                turn: -90,
                anchor: "middle",
              }),
              text(
                [x + aside + (length * perMetre) / 2, y + width * perMetre + 10],
                "near edge",
                "dimension",
                {
                  ink: "ink",
                  size: 7,
                  anchor: "middle",
                },
              ),
            ]
          : []),
        line(outline.map(page), "island outline", "ink", 1, { closed: true }),
        ...fittings(scene.island, page),
        ...scene.zones.map((zone) =>
          line(zone.outline.map(page), "zone", "quiet", 0.75, { closed: true, dash: "dashed" }),
        ),
        ...points.flatMap((point) => pointMarks(scene, point, page, edges, taken)),
        ...fittingNames(scene, page, taken).map((name) => ({ ...name, size: 8 })),
      ];
    },
  };
}

/** Beside its cross where it lies across no edge of the top or of a zone, whole or without the zone's name, which the table has; else over
 * them on the sheet's own ground. */
function pointMarks(
  scene: Scene,
  point: NamedPoint,
  page: (place: Vec2) => Vec2,
  edges: readonly (readonly [Vec2, Vec2])[],
  taken: Box[],
): PaperMark[] {
  const { from, place } = placeOf(scene, point);
  if (from === "room" && scene.island !== undefined) return [];
  const [x, y] = page(place);
  const named = [`${point.tag} ${printable(point.zone, 20)}`, point.tag].flatMap((words) => [
    label(words, [x + 6, y - 3], "start"),
    label(words, [x - 6, y - 3], "end"),
    label(words, [x, y - 8], "middle"),
    label(words, [x, y + 14], "middle"),
  ]);
  const isFree = (mark: TextMark): boolean => {
    const box = textBox(mark);
    return (
      !taken.some((other) => overlaps(box, other, 1)) &&
      !edges.some(([a, b]) => lineMeetsBox(a, b, orientedBox(box)))
    );
  };
  const name = named.find(isFree) ?? { ...named[4], ground: "sheet" as const };
  taken.push(textBox(name));
  return [segment(x - 4, y, x + 4, y, "meter point"), segment(x, y - 4, x, y + 4, "meter point"), name];
}

const label = (words: string, at: Vec2, anchor: TextMark["anchor"]): TextMark =>
  text(at, words, "meter point", { ink: "ink", size: 8, anchor });

const sidesOf = (corners: readonly Vec2[]): (readonly [Vec2, Vec2])[] =>
  corners.map((a, i) => [a, corners[(i + 1) % corners.length]]);
