/**
 * The set-out sheet, for the electrician: set-out plan, the table of boxes, how each pendant hangs, loads, what is on hold, and
 * the notes that keep people out of trouble. One page where it fits; tables go on to a second where it does not.
 */

import { type SetOut, setOut } from "../../app/set-out/set-out.ts";
import { heldTags } from "../../drawing/clash-marks.ts";
import type { Box } from "../../drawing/drawing.ts";
import { type Block, flow, flowHeight, wholePages } from "../../drawing/paper/flow.ts";
import {
  type DrawingScale,
  drawingScale,
  PRINT_CHECK_HEIGHT,
  printCheck,
} from "../../drawing/paper/frame.ts";
import { moved, type PaperMark, type ScaledView } from "../../drawing/paper/paper.ts";
import { planMargins, setOutPlan } from "../../drawing/set-out-plan.ts";
import { toleranceRingMarks } from "../../drawing/tolerance-marks.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import { chosenOption, type Handover, type HandoverWords, handoverWords } from "../handover.ts";
import { lengthUnits, type Page, page, pageField } from "../page.ts";
import { asBuilt } from "./as-built-table.ts";
import { setOutHolds } from "./holds.ts";
import { type IslandDetail, islandDetail } from "./island-detail.ts";
import { planKey } from "./plan-key.ts";
import { tables } from "./tables.ts";
import { aboutBoxes } from "./tolerance-table.ts";

export interface SetOutSheets {
  readonly sheets: readonly Page[];
  /** The plan alone at its true places and sizes, for CAD. */
  readonly view: ScaledView;
  readonly setOut: SetOut;
}

/** Paper the print check takes across (points). */
const PRINT_CHECK_WIDTH = 190;
/** Between the plan and what stands under it (points). */
const UNDER_PLAN = 12;
/** Least width of the column of tables (points). */
const COLUMN = 318;
/** A detail so much larger than the plan stands beside it; another has a sheet to itself, and tables its place. */
const BESIDE = 1.6;

export function setOutSheets(handover: Handover): SetOutSheets {
  const { scene } = chosenOption(handover);
  const words = handoverWords(handover);
  const layout = setOut(scene, handover.unit, words.length);
  const { field } = pageField(handover, true);
  const tallest = field.height - PRINT_CHECK_HEIGHT - UNDER_PLAN;
  // Tables beside the plan on one sheet; where they do not fit, the plan has a sheet to itself.
  const whole = { width: field.width, height: tallest };
  const plan = placedPlan(handover, layout, words, { ...whole, width: field.width - COLUMN - 14 }, whole);
  const blocks = besideThePlan(handover, layout, words, plan, field);
  if (blocks !== undefined) {
    const key = underThePlan(field, plan.size.width, plan.size.height);
    const first = planMarks(handover, layout, plan, field, { left: 0, key });
    const sheets = [
      setOutPage(handover, layout, [...first, ...blocks], plan.scale.words),
      ...detailPages(handover, layout, plan.detail, field),
    ];
    return { sheets, view: fullSizeView(handover, layout, plan.scale), setOut: layout };
  }
  const alone = placedPlan(handover, layout, words, whole, whole);
  const right = field.width - alone.size.width - GAP;
  const small = islandDetail(handover, layout, alone.scale.perMetre, { width: right, height: tallest });
  const isLarge = small !== undefined && small.scale.perMetre >= BESIDE * alone.scale.perMetre;
  const fits = isLarge || right < COLUMN ? small : undefined;
  const besides = fits === undefined && right >= COLUMN;
  const left = fits === undefined && !besides ? (field.width - alone.size.width) / 2 : 0;
  const covered = Math.max(alone.size.height, fits?.height ?? 0);
  const key = underThePlan(field, besides ? alone.size.width : field.width, covered);
  const first = planMarks(handover, layout, alone, field, { left, key });
  if (fits !== undefined) first.push(...moved(fits.marks, [field.x + alone.size.width + GAP, field.y]));
  const scales = fits === undefined ? alone.scale.words : `${alone.scale.words}, ${fits.scale.words}`;
  // Where the plan leaves it no place, the key stands at the foot of the tables beside it.
  const legends = planKey(handover, layout, alone.view);
  const isKeyed = keyIn(legends, key) !== undefined;
  const keyHeight = isKeyed || !besides ? 0 : flowHeight(legends, right) + UNDER_PLAN;
  const column: Box = {
    x: field.x + field.width - right,
    y: field.y,
    width: right,
    height: field.height - keyHeight,
  };
  if (keyHeight > 0) {
    const place: Box = { ...column, y: column.y + column.height + UNDER_PLAN, height: keyHeight };
    first.push(...flow(legends, () => place)[0]);
  }
  const rest = [
    ...tables(handover, layout, words, Math.min(half(field, 0).width, besides ? right : field.width)),
    ...asBuilt(layout, heldTags(chosenOption(handover).clashes), true),
    ...(isKeyed || besides ? [] : legends),
  ];
  const pages = columnPages(rest, besides ? column : undefined, field);
  const sheets = [
    setOutPage(handover, layout, [...first, ...(besides ? (pages.shift() ?? []) : [])], scales),
  ];
  if (fits === undefined) sheets.push(...detailPages(handover, layout, alone.detail, field));
  sheets.push(...pages.map((marks) => setOutPage(handover, layout, marks)));
  return { sheets, view: fullSizeView(handover, layout, alone.scale), setOut: layout };
}

/** @param scale of the plan on paper, from which lettering and symbols without a size of their own take theirs */
function fullSizeView(handover: Handover, layout: SetOut, { perMetre }: DrawingScale): ScaledView {
  const { scene, clashes } = chosenOption(handover);
  return setOutPlan(scene, layout, perMetre, handoverWords(handover), {
    held: heldTags(clashes),
    isFullSize: true,
  });
}

/** Less of a sheet than this is none of its own: sections of the sheet before go over to it. */
const LEAST_FILLED = 0.4;

/** Blocks in two columns a sheet, the first sheet with one beside the plan where that is given; rows are set a little closer where
 * that spares a sheet. */
function columnPages(blocks: readonly Block[], beside: Box | undefined, field: Box): PaperMark[][] {
  const paged = (all: readonly Block[], spacing: number): PaperMark[][] => {
    const taken = beside === undefined ? 0 : 1;
    const boxOf = (i: number): Box =>
      beside !== undefined && i === 0 ? beside : half(field, (i - taken) % 2);
    const columns = flow(all, boxOf, spacing);
    const pages = columns.slice(0, taken);
    for (let i = taken; i < columns.length; i += 2) pages.push([...columns[i], ...(columns[i + 1] ?? [])]);
    return pages;
  };
  return wholePages(blocks, field, paged, { least: LEAST_FILLED, spacings: [0.95, 0.9] });
}

/** Between the plan and its detail (points). */
const GAP = 22;

function setOutPage(handover: Handover, layout: SetOut, marks: readonly PaperMark[], scale?: string): Page {
  const head = {
    title: "Set-out sheet",
    option: chosenOption(handover).scene.name,
    units: lengthUnits(handover),
    ...(scale === undefined ? {} : { scale }),
    held: setOutHolds(handover, layout, handoverWords(handover)).length,
  };
  return page(handover, pageField(handover, true), head, {
    name: "set-out",
    marks,
    summary: summary(layout, handoverWords(handover)),
  });
}

function detailPages(
  handover: Handover,
  layout: SetOut,
  detail: IslandDetail | undefined,
  field: Box,
): Page[] {
  if (detail === undefined) return [];
  const marks = moved(detail.marks, [field.x + (field.width - detail.width) / 2, field.y]);
  return [setOutPage(handover, layout, marks, detail.scale.words)];
}

/** The tables in one column beside the plan, with what else it has room for; undefined where they do not fit. */
function besideThePlan(
  handover: Handover,
  layout: SetOut,
  words: HandoverWords,
  { size, view }: PlacedPlan,
  field: Box,
): PaperMark[] | undefined {
  const column: Box = {
    x: field.x + size.width + 14,
    y: field.y,
    width: field.width - size.width - 14,
    height: field.height,
  };
  const key = planKey(handover, layout, view);
  const place = underThePlan(field, size.width, size.height);
  const held = heldTags(chosenOption(handover).clashes);
  const blocks = [
    ...tables(handover, layout, words, column.width),
    ...(keyIn(key, place) === undefined ? key : []),
  ];
  // One sheet is worth rows set a little closer, and what is recessed written where its figures are.
  for (const isWhole of [true, false])
    for (const spacing of [1, 0.95, 0.9, 0.88]) {
      const filled = flow([...blocks, ...asBuilt(layout, held, isWhole)], () => column, spacing);
      if (filled.length === 1) return filled[0];
    }
  return undefined;
}

/** Where the key may stand: under what is drawn, beside the print check. @param covered paper the drawing takes from above (points) */
function underThePlan(field: Box, width: number, covered: number): Box {
  const y = field.y + Math.min(covered + UNDER_PLAN, field.height - PRINT_CHECK_HEIGHT);
  return {
    x: field.x + PRINT_CHECK_WIDTH,
    y,
    width: width - PRINT_CHECK_WIDTH,
    height: field.y + field.height + 4 - y,
  };
}

/** Least width of a column of the key (points). */
const KEY_COLUMN = 190;

/** The key in its place, in as many columns as that is wide; undefined where it does not fit: it is left to the tables. */
function keyIn(key: readonly Block[], place: Box): PaperMark[] | undefined {
  if (place.width < 90) return undefined;
  const count = Math.max(1, Math.floor(place.width / KEY_COLUMN));
  for (let columns = 1; columns <= count; columns++) {
    const width = (place.width - (columns - 1) * UNDER_PLAN) / columns;
    const set = flow(key, (i) => ({ ...place, x: place.x + i * (width + UNDER_PLAN), width }));
    if (set.length <= columns) return set.flat();
  }
  return undefined;
}

function planMarks(
  handover: Handover,
  layout: SetOut,
  { scale, view, size }: PlacedPlan,
  field: Box,
  more: { readonly left: number; readonly key: Box },
): PaperMark[] {
  const origin: Vec2 = [field.x + more.left + size.left, field.y + size.above];
  const onPaper = ([x, y]: Vec2): Vec2 => [origin[0] + x * scale.perMetre, origin[1] - y * scale.perMetre];
  const { tolerances = [] } = chosenOption(handover);
  return [
    ...toleranceRingMarks(aboutBoxes(tolerances, layout.boxes), onPaper, scale.perMetre),
    ...moved(view.marks, origin),
    ...printCheck(field.x, field.y + field.height - PRINT_CHECK_HEIGHT, handover.unit, scale.perMetre),
    ...(keyIn(planKey(handover, layout, view), more.key) ?? []),
  ];
}

function half(field: Box, side: number): Box {
  const width = (field.width - 18) / 2;
  return { ...field, x: field.x + side * (width + 18), width };
}

interface PlanSize {
  readonly left: number;
  readonly above: number;
  readonly width: number;
  readonly height: number;
}

interface PlacedPlan {
  readonly scale: DrawingScale;
  readonly view: ScaledView;
  readonly size: PlanSize;
  /** The part of it that is drawn larger, as large as the sheet allows. */
  readonly detail: IslandDetail | undefined;
}

function placedPlan(
  handover: Handover,
  layout: SetOut,
  words: HandoverWords,
  room: { readonly width: number; readonly height: number },
  sheet: { readonly width: number; readonly height: number },
): PlacedPlan {
  const { scene, clashes } = chosenOption(handover);
  const { length, width, doors = [] } = scene.room;
  // What a leaf takes outside the right wall.
  const leaf = Math.max(
    0,
    ...doors.map((door) => (door.wall === 1 && door.swing.startsWith("out") ? door.width : 0)),
  );
  // Names of strings stand above the far wall.
  const beyond = { x: 6, y: 44 };
  const fixed = planMargins(layout, words, 0);
  const scale = drawingScale(handover.unit, [
    [length + 0.2 + leaf, room.width - fixed.left - beyond.x],
    [width + 0.2, room.height - fixed.below - beyond.y],
  ]);
  const margins = planMargins(layout, words, scale.perMetre);
  const above = margins.edge + beyond.y + width * scale.perMetre;
  const detail = islandDetail(handover, layout, scale.perMetre, sheet);
  return {
    scale,
    detail,
    view: setOutPlan(scene, layout, scale.perMetre, words, {
      held: heldTags(clashes),
      framed: detail?.window,
    }),
    size: {
      left: margins.left,
      above,
      width: margins.left + (length + leaf) * scale.perMetre + margins.edge + beyond.x,
      height: above + margins.below,
    },
  };
}

function summary(layout: SetOut, words: HandoverWords): string {
  const places = layout.boxes
    .filter((box) => box.kind === "pendant")
    .map((box) => `${box.tag} at ${words.length(box.x)} from wall 3 and ${words.length(box.y)} from wall 0`)
    .join("; ");
  return `Set-out plan of ${layout.boxes.length} ceiling boxes. ${places}`;
}
