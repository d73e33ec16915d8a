/** The tables and words of the set-out sheet: boxes, how each pendant hangs, circuits, what is on hold, notes. */

import { BOX_WIDTH } from "../advice/clashes/ceiling-clashes.ts";
import { loadReport } from "../advice/load.ts";
import { type Hold, holds } from "../app/schedule/open-issues.ts";
import type { SetOut, SetOutBox } from "../app/schedule/set-out.ts";
import { canopyCover, cordLength, rodSet } from "../app/schedule/suspension.ts";
import { printable } from "../diagnostics/printable.ts";
import { type Block, bullet, type Column, gap, heading, SMALL, tableFits } from "../drawing/paper/flow.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { planExtents } from "../luminaire/plan-extent.ts";
import { ceilingAt } from "../scene/room.ts";
import type { Scene } from "../scene/scene.ts";
import { degrees } from "../units/quantities.ts";
import { clashReason } from "../words/clash-words.ts";
import { chosenOption, type Handover, type HandoverWords } from "./handover.ts";

export function tables(handover: Handover, found: SetOut, words: HandoverWords, width: number): Block[] {
  const blocks: Block[] = [];
  const pendants = found.boxes.filter((box) => box.kind === "pendant");
  const recessed = found.boxes.filter((box) => box.kind === "recessed");
  if (pendants.length > 0)
    blocks.push(
      ...pendantTables(pendants, words, width),
      ...hanging(pendants, words),
      ...suspensionTable(pendants, words),
    );
  if (recessed.length > 0)
    blocks.push(heading("Recessed, from the datum", 9), recessedTable(recessed, words));
  const fixed = found.boxes.filter(({ kind }) => kind === "fixed");
  if (fixed.length > 0)
    blocks.push(heading("Fixed below the ceiling, to cabinet, hood or wall", 9), fixedTable(fixed, words));
  blocks.push(...asHung(found, words), heading("Circuits", 9), circuitTable(handover));
  const flags = setOutHolds(handover, found, words);
  blocks.push(heading("HOLD: not to be built before this is settled", 9));
  if (pendants.length > 0)
    blocks.push(
      hold(
        tagRange(pendants),
        "If the island is not yet set, or has moved: hold these boxes, measure it, and ask.",
      ),
    );
  for (const { tags, words: flag } of flags)
    blocks.push(hold(tags.length === 0 ? "all" : shortTags(tags), flag));
  blocks.push(heading("Notes", 9), ...notes(handover, found, words));
  return blocks;
}

/** What is on hold of the option to be built. */
export function setOutHolds(handover: Handover, found: SetOut, words: HandoverWords): Hold[] {
  return holds(chosenOption(handover), found, handover.defaults, {
    length: words.length,
    clash: (clash) => clashReason(clash, words.unit),
  });
}

/** Each point a long pendant hangs on, and where it is fed, from the datum. */
function suspensionTable(pendants: readonly SetOutBox[], words: HandoverWords): Block[] {
  const rows = pendants.flatMap(({ tag, suspensions }) =>
    suspensions === undefined
      ? []
      : [
          ...suspensions.points.map((at, i) => [`${tag}.${i + 1}`, "hangs", ...at.map(words.dimension)]),
          [tag, "feed", ...suspensions.feed.map(words.dimension)],
        ],
  );
  if (rows.length === 0) return [];
  const assumed = pendants.filter(({ suspensions }) => suspensions?.assumed === true);
  const end = "end" as const;
  return [
    heading("Suspensions and feed, from the datum", 9),
    {
      kind: "table",
      size: SMALL,
      depicts: "suspension row",
      columns: [
        { title: "point", share: 0.8 },
        { title: "", share: 0.8 },
        { title: "x", share: 1.2, align: end },
        { title: "y", share: 1.2, align: end },
      ],
      rows,
    },
    ...(assumed.length === 0
      ? []
      : [
          bullet(
            `${tagRange(assumed)}: assumed where not stated, two points at 0.4 of the length from the middle, fed at the first (common practice, no source); confirm with the maker.`,
            SMALL,
          ),
        ]),
  ];
}

/** What does not simply hang plumb, or lies another way than the room: how it is turned, and the point it is aimed at. */
function turnedBoxes({ boxes }: SetOut): readonly SetOutBox[] {
  return boxes.filter(({ luminaire, orientation: { turn, tilt }, aim }) => {
    const [length, width] = planExtents(luminaire);
    return tilt > 1e-9 || aim !== undefined || (Math.abs(turn) > 1e-9 && Math.abs(length - width) > 1e-6);
  });
}

/** Turn, tilt, spin and aim of each box that has them, from the datum and the finished floor. */
export function asHung(found: SetOut, words: HandoverWords): Block[] {
  const turned = turnedBoxes(found);
  if (turned.length === 0) return [];
  const end = "end" as const;
  const angle = (radians: number): string => `${Number(degrees(radians).toFixed(1)) + 0}°`;
  return [
    heading("Turned, tilted, aimed", 9),
    {
      kind: "table",
      size: SMALL,
      depicts: "hung row",
      columns: [
        { title: "box", share: 0.6 },
        { title: "turn", share: 0.8, align: end },
        { title: "tilt", share: 0.7, align: end },
        { title: "spin", share: 0.8, align: end },
        { title: "aim x", share: 1, align: end },
        { title: "aim y", share: 1, align: end },
        { title: "aim above floor", share: 1.3, align: end },
      ],
      rows: turned.map(({ tag, orientation: { turn, tilt, spin }, aim }) => [
        tag,
        angle(turn),
        angle(tilt),
        angle(spin),
        ...(aim === undefined ? ["–", "–", "–"] : aim.map(words.dimension)),
      ]),
    },
    bullet(
      "Turn: counter-clockwise on plan, from wall 3 towards wall 1 = 0°. Tilt: lower end leans that way, from plumb. Spin: about its own axis, before both.",
      SMALL,
    ),
  ];
}

/** Places and heights in one table where its figures fit, else in two. */
function pendantTables(pendants: readonly SetOutBox[], words: HandoverWords, width: number): Block[] {
  const overTop = pendants.some((box) => box.heights?.overTop);
  const end = "end" as const;
  const heightsOf = (box: SetOutBox) => box.heights as NonNullable<SetOutBox["heights"]>;
  type Entry = readonly [Column, (box: SetOutBox) => string];
  const tag: Entry[] = [
    [{ title: "box", share: 0.7 }, (box) => box.tag],
    [{ title: "type", share: 0.6 }, (box) => box.type],
  ];
  const places: Entry[] = [
    [{ title: "from face of wall 3 (x)", share: 1.3, align: end }, (box) => words.dimension(box.x)],
    [{ title: "from face of wall 0 (y)", share: 1.3, align: end }, (box) => words.dimension(box.y)],
  ];
  const heights: Entry[] = [
    [
      { title: "ceiling above floor", share: 1.2, align: end },
      (box) => words.dimension(heightsOf(box).ceiling),
    ],
    [{ title: "drop to body", share: 1.1, align: end }, (box) => words.dimension(heightsOf(box).drop)],
    [{ title: "body height", share: 1, align: end }, (box) => words.dimension(heightsOf(box).body)],
    [
      { title: "bottom above floor", share: 1.2, align: end },
      (box) => words.dimension(heightsOf(box).bottom),
    ],
  ];
  if (overTop)
    heights.push([
      { title: "bottom above top", share: 1.1, align: end },
      (box) => (heightsOf(box).overTop ? words.dimension(heightsOf(box).gap) : "–"),
    ]);
  const table = (entries: readonly Entry[]): Extract<Block, { kind: "table" }> => ({
    kind: "table",
    size: SMALL,
    depicts: "pendant row",
    columns: entries.map(([column]) => column),
    rows: pendants.map((box) => entries.map(([, value]) => value(box))),
  });
  const whole = table([...tag, ...places, ...heights]);
  const title = heading("Pendants, from the datum and from the finished floor", 9);
  return tableFits(whole, width)
    ? [title, whole]
    : [title, table([...tag, ...places]), table([...tag, ...heights])];
}

/** How each type hangs: rod or cord and what to bring, canopy, weight. */
function hanging(pendants: readonly SetOutBox[], words: HandoverWords): Block[] {
  const types = new Map<string, SetOutBox[]>();
  for (const box of pendants) types.set(box.type, [...(types.get(box.type) ?? []), box]);
  return [...types].map(([type, boxes]) =>
    bullet(`${type} (${shortTags(boxes.map((box) => box.tag))}): ${hangingWords(boxes, words)}`, SMALL + 0.5),
  );
}

export function hangingWords(boxes: readonly SetOutBox[], words: HandoverWords): string {
  const { luminaire } = boxes[0];
  const drops = boxes.map((box) => (box.heights as NonNullable<SetOutBox["heights"]>).drop);
  const same = Math.max(...drops) - Math.min(...drops) < 1e-9;
  const each = (value: (drop: number) => string): string =>
    same ? value(drops[0]) : boxes.map((box, i) => `${box.tag} ${value(drops[i])}`).join(", ");
  const parts: string[] = [`"${printable(luminaire.name, 30)}"`];
  switch (luminaire.suspension) {
    case "rod":
      parts.push(`on a rod: ${each((drop) => rodWords(drop, words))}`);
      break;
    case undefined:
      parts.push("rod or cord not stated");
      break;
    default:
      parts.push(
        `on a ${luminaire.suspension}: cut ${each((drop) => words.length(cordLength(drop, words.unit)))} or longer`,
      );
  }
  parts.push(canopyWords(luminaire, words), weightWords(luminaire));
  return `${parts.join("; ")}.`;
}

function rodWords(drop: number, words: HandoverWords): string {
  const { pieces, rest, exact } = rodSet(drop);
  if (pieces.length === 0) return `${words.length(drop)}, shorter than any usual piece`;
  const inches = pieces.map((piece) => `${Math.round(piece / 0.0254)}`).join(" + ");
  return exact
    ? `${inches} in pieces reach it`
    : `${inches} in pieces leave ${words.length(rest)}: an adjustable end or a cut piece`;
}

function canopyWords({ canopy }: Luminaire, words: HandoverWords): string {
  if (canopy === undefined) return "canopy not stated";
  const cover = canopyCover(canopy.diameter);
  const size = `canopy ${words.length(canopy.diameter)}`;
  return cover < 0
    ? `${size}, smaller than a ${words.length(BOX_WIDTH)} box`
    : `${size}, hides a ${words.length(BOX_WIDTH)} box up to ${words.length(cover)} off`;
}

function weightWords({ weight }: Luminaire): string {
  return weight === undefined
    ? "weight not stated"
    : `weight ${weight} kg (${(weight / 0.45359237).toFixed(1)} lb)`;
}

/** For the rough-in walk: a tick and the measured place of every pendant's box. */
export function asBuilt({ boxes }: SetOut): Block[] {
  const pendants = boxes.filter(({ kind }) => kind === "pendant");
  if (pendants.length === 0) return [];
  const blank = ".".repeat(18);
  return [
    heading("As built, measured from the same faces at rough-in", 9),
    {
      kind: "table",
      size: SMALL,
      depicts: "as built",
      columns: [
        { title: "marked", share: 0.8 },
        { title: "box", share: 0.6 },
        { title: "x", share: 1.6 },
        { title: "y", share: 1.6 },
        { title: "ceiling", share: 1.6 },
        { title: "by, date", share: 1.6 },
      ],
      rows: pendants.map((box) => ["□", box.tag, blank, blank, blank, blank]),
    },
  ];
}

function fixedTable(fixed: readonly SetOutBox[], words: HandoverWords): Block {
  const end = "end" as const;
  return {
    kind: "table",
    size: SMALL,
    depicts: "fixed row",
    columns: [
      { title: "mark", share: 0.7 },
      { title: "type", share: 0.7 },
      { title: "x", share: 1.2, align: end },
      { title: "y", share: 1.2, align: end },
      { title: "light above floor", share: 1.4, align: end },
    ],
    rows: fixed.map((box) => [
      box.tag,
      box.type,
      words.dimension(box.x),
      words.dimension(box.y),
      words.dimension(box.height ?? 0),
    ]),
  };
}

function recessedTable(recessed: readonly SetOutBox[], words: HandoverWords): Block {
  const rows = recessed.map((box) => [
    box.tag,
    box.type,
    words.dimension(box.x),
    words.dimension(box.y),
    words.dimension(box.ceiling),
  ]);
  const columns = [
    { title: "box", share: 0.7 },
    { title: "type", share: 0.7 },
    { title: "x", share: 1.2, align: "end" as const },
    { title: "y", share: 1.2, align: "end" as const },
    { title: "ceiling", share: 1.2, align: "end" as const },
  ];
  // Two lots abreast: recessed grids are long lists of short rows.
  const count = Math.ceil(rows.length / 2);
  if (count < 3) return { kind: "table", size: SMALL, columns, rows, depicts: "recessed row" };
  const blank = ["", "", "", "", ""];
  return {
    kind: "table",
    size: SMALL,
    depicts: "recessed row",
    columns: [...columns, { title: "", share: 0.35 }, ...columns],
    rows: rows.slice(0, count).map((row, i) => [...row, "", ...(rows[count + i] ?? blank)]),
  };
}

function circuitTable(handover: Handover): Block {
  const { layers } = loadReport(chosenOption(handover).scene);
  return {
    kind: "table",
    size: SMALL,
    depicts: "circuit row",
    columns: [
      { title: "circuit", share: 0.9 },
      { title: "layer", share: 1.5 },
      { title: "count", share: 0.7, align: "end" },
      { title: "load, W", share: 0.8, align: "end" },
      { title: "marked, W", share: 1.15, align: "end" },
      { title: "dimmer", share: 3.2 },
    ],
    rows: layers.map(({ circuit, layer, luminaires, fittedWatts, markedWatts, unknown, dimmer }) => [
      circuit === undefined ? "HOLD" : printable(circuit, 20),
      printable(layer, 30),
      `${luminaires}`,
      `${unknown > 0 ? "≥ " : ""}${fittedWatts.toFixed(0)}`,
      `${unknown > 0 ? "≥ " : ""}${markedWatts.toFixed(0)}`,
      dimmer === undefined
        ? "not stated"
        : printable(
            `${dimmer.name === undefined ? "" : `${dimmer.name}: `}${dimmer.outcome === "within" ? "" : "HOLD, "}${dimmer.words}`,
            160,
          ),
    ]),
  };
}

function hold(who: string, words: string): Block {
  return {
    kind: "paragraph",
    words: `HOLD ${who}: ${words}`,
    marker: "□",
    size: SMALL + 0.25,
    depicts: "hold",
  };
}

function notes(handover: Handover, found: SetOut, words: HandoverWords): Block[] {
  const { scene } = chosenOption(handover);
  const { room } = scene;
  const lines: string[] = [];
  if (found.centreline !== undefined) lines.push(found.centreline);
  lines.push(
    "Faces are FINISHED faces (plaster, tile, floor covering on); if they are not on yet, add their thickness before marking.",
    `Datum: the corner of the finished faces of wall 0 (at the foot of the plan) and wall 3 (on its left). Strings run from it to ${words.length(found.length)} and ${words.length(found.width)} at the far faces; every figure is rounded once, so gaps are differences.`,
  );
  if (found.boxes.some((box) => box.kind === "pendant"))
    lines.push(
      "Hang by the bottom edge: set heights from the finished top with a laser line, to within 3 mm (1/8 in) of one another.",
    );
  if (room.slope !== 0)
    lines.push(
      `The ceiling rises ${Number(degrees(room.slope).toFixed(1))}°, from ${words.length(room.ceilingHeight)} at its lowest to ${words.length(highest(room))}: each drop differs. Every suspension needs a hang-straight swivel that allows this angle; many stop at 25 to 30° (common practice, no source).`,
    );
  if (turnedBoxes(found).some(({ orientation }) => orientation.tilt > 0))
    lines.push('Some luminaires are tilted or aimed: see "Turned, tilted, aimed" here or on the schedule.');
  lines.push(
    "Pendants are switched and dimmed on a leg of their own, apart from the ambient light.",
    "Electrical work, boxes, supports, heat above a hob and hanging glass: licensed people and local codes decide.",
  );
  return lines.map((line) => bullet(line, SMALL + 0.25)).concat(gap(2));
}

function highest(room: Scene["room"]): number {
  const corners = [
    [0, 0],
    [room.length, 0],
    [0, room.width],
    [room.length, room.width],
  ] as const;
  return Math.max(...corners.map(([x, y]) => ceilingAt(room, x, y)));
}

/** P1 to P3; P1, P4. */
export function shortTags(tags: readonly string[]): string {
  const runs: string[][] = [];
  for (const tag of tags) {
    const last = runs.at(-1)?.at(-1);
    const follows =
      last !== undefined && last[0] === tag[0] && Number(tag.slice(1)) === Number(last.slice(1)) + 1;
    if (follows) runs.at(-1)?.push(tag);
    else runs.push([tag]);
  }
  return runs.map((run) => (run.length > 2 ? `${run[0]} to ${run.at(-1)}` : run.join(", "))).join(", ");
}

function tagRange(boxes: readonly SetOutBox[]): string {
  return shortTags(boxes.map((box) => box.tag));
}
