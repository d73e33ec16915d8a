/**
 * What stands on, over and beside the island in plan: outline, base under the overhang, zones, luminaires,
 * people and the chain of dimensions. The light itself is drawn beneath by whoever shows the plan.
 */

import { printable } from "../diagnostics/printable.ts";
import { planPlacement } from "../geometry/plan-placement.ts";
import { bounds, ellipse } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { canopySize } from "../luminaire/product-facts.ts";
import { ceilingPoints, suspensionPoints } from "../luminaire/suspension-points.ts";
import { sideAxes } from "../scene/island-side.ts";
import type { Scene } from "../scene/scene.ts";
import { hangs, hungPendants } from "../scene/suspended.ts";
import { runningDimensions } from "../units/length-text.ts";
import type { Wording } from "../words/wording.ts";
import { horizontalDimension, verticalDimension } from "./dimension.ts";
import {
  type Box,
  boxAround,
  type LuminaireMarks,
  line,
  type Mark,
  overlaps,
  segment,
  text,
  textBox,
  textWidth,
} from "./drawing.ts";
import { islandAxes, placeOf } from "./island-axes.ts";
import { fittingNames, fittings } from "./island-fittings.ts";
import { withoutCollisions } from "./label-layout.ts";
import { NO_ROOM, peopleOnPlan, roomForPeople } from "./people-on-plan.ts";
import type { PlanFrame, PlanPage } from "./plan-page.ts";
import { zones } from "./plan-zones.ts";
import type { SheetScale } from "./sheet-scale.ts";
import { halfWidth, outlineOnPlan } from "./silhouette.ts";

/** Between the name of a hob or sink and a line's figure (px). */
const APART = 6;

export interface PlanParts {
  readonly zones: boolean;
  readonly people: boolean;
  readonly dimensions: boolean;
  /** The length of the top over the plan; shown with the other dimensions unless left out. */
  readonly length?: boolean;
  /** Places of pendants along the top (m), a chain of dimensions each: the first under the plan, the second over it. All in one unless told. */
  readonly rows?: readonly (readonly number[])[];
  /** How far from the top people are drawn (m); those beyond are named at the edge of the drawing. */
  readonly reach?: number;
  /** What people may take beyond an edge of the top (drawing units); figures are cut there. */
  readonly cut?: number;
}

/** Distance of the chain of dimensions from the near edge where nobody stands in it (drawing units). */
const CHAIN = 21;

/** Drawing units; smaller is not read on paper. */
const LEAST_LETTERING = 11;
/** Height of figures over the size of their lettering. */
const CAPITALS = 0.75;

function hasLength({ dimensions, length = true }: PlanParts): boolean {
  return dimensions && length;
}

export interface PlanObjects {
  /** On the light, in whatever ink reads there: zones, levels, the edge of the base, who leans over the top. */
  readonly over: readonly Mark[];
  /** Around it, in the sheet's ink: outline, people, dimensions. */
  readonly around: readonly Mark[];
  readonly luminaires: readonly LuminaireMarks[];
  readonly outline: readonly Vec2[];
  /** Boxes of words already placed, for those who place more. */
  readonly taken: readonly Box[];
}

/** Room on the sheet above and below the top: people who stand there, else only the dimensions. */
export function planFrame(scene: Scene, scale: SheetScale, parts: PlanParts): PlanFrame {
  const axes = islandAxes(scene);
  const room = parts.people ? roomForPeople({ scene, axes, scale }, parts.reach, parts.cut) : NO_ROOM;
  const head = Math.max((hasLength(parts) ? 30 : 8) + room.above, 8) + (parts.rows?.[1] ? CHAIN : 0);
  // The chain of dimensions runs between the top and those who stand clear of it, else behind them.
  const chain = room.clear > CHAIN + 6 ? CHAIN : room.below + 14;
  const under = room.names > 0 ? 6 : 9;
  const foot = Math.max(parts.dimensions ? chain + under : 8, room.below) + room.names;
  const near = head + axes.width * scale.perMetre;
  return {
    height: Math.ceil(near + foot),
    chain: near + chain,
    y: (across) => head + (axes.width - across) * scale.perMetre,
    across: (y) => axes.width - (y - head) / scale.perMetre,
  };
}

export function planObjects(
  scene: Scene,
  scale: SheetScale,
  words: Wording,
  parts: PlanParts = { zones: true, people: true, dimensions: true },
  frame: PlanFrame = planFrame(scene, scale, parts),
): PlanObjects {
  const axes = islandAxes(scene);
  const at = ([along, across]: Vec2): Vec2 => [scale.x(along), frame.y(across)];
  const plan: PlanPage = { scene, axes, scale, frame, words, at };
  const outline = axes.outline.map(at);
  const taken: Box[] = [];
  const placed = luminaires(plan);
  const hung = placed.map(({ marks }) => lineBox(marks));
  const figures = parts.people ? peopleOnPlan(plan, parts.reach) : { over: [], beside: [], taken: [] };
  taken.push(...figures.taken);
  const page = { width: scale.width, height: frame.height };
  const around = withoutCollisions(
    [
      ...figures.beside,
      line(outline, "island outline", "ink", 1.5, { closed: true }),
      ...(parts.dimensions ? dimensions(plan, parts, hung) : []),
    ],
    page,
  );
  const beside = around.flatMap((mark) => (mark.kind === "text" && !mark.turn ? [textBox(mark)] : []));
  const names = (): Mark[] => {
    const free = fittingNames(scene, at, [...hung, ...taken, ...beside]);
    // A line's figure beside a name would read as part of it.
    for (const { x, width, ...box } of free.map(textBox))
      taken.push({ ...box, x: x - APART, width: width + 2 * APART });
    return free;
  };
  return {
    over: withoutCollisions(
      [
        ...figures.over,
        ...overhang(plan),
        ...levels(plan),
        ...fittings(scene.island, at),
        ...bodiesOver(plan),
        ...(parts.zones ? zones(scene, at, hung, taken, page) : []),
        ...names(),
      ],
      page,
      beside,
    ),
    around,
    luminaires: placed,
    outline,
    taken,
  };
}

/** The edge of the base under an overhang, hidden by the top: dashed. */
function overhang({ scene, axes, at }: PlanPage): Mark[] {
  const over = scene.island?.overhang;
  if (over === undefined || over.depth <= 0) return [];
  const side = sideAxes(axes, over.side);
  const edge = [side.at(0, over.depth), side.at(side.along, over.depth)];
  return [line(edge.map(at), "base under the overhang", "ink", 0.75, { dash: "dotted" })];
}

function levels({ scene, at }: PlanPage): Mark[] {
  return (scene.island?.levels ?? []).map((level) =>
    line(level.outline.map(at), "raised level", "ink", 1, { closed: true }),
  );
}

/** Bodies that hang over the top, such as a hood: dashed, as above the plane of the cut. */
function bodiesOver({ scene, axes, at }: PlanPage): Mark[] {
  return (scene.bodies ?? []).flatMap(({ name, outline, bottom }): Mark[] => {
    const points = outline.map((p) => axes.toIsland(p));
    const [left, near, right, far] = bounds(points);
    const isOver = bottom >= axes.height && right > 0 && left < axes.length && far > 0 && near < axes.width;
    if (!isOver) return [];
    const [x, y] = at([(right + left) / 2, Math.max(0, Math.min(axes.width, far))]);
    return [
      line(points.map(at), "body", "ink", 1, { closed: true, dash: "dashed" }),
      text([x, y + 14], printable(name, 28), "cabinet name", { ink: "ink", anchor: "middle" }),
    ];
  });
}

/** The box of the lines among some marks. */
function lineBox(marks: readonly Mark[]): Box {
  return boxAround(marks.flatMap((mark) => (mark.kind === "line" ? mark.points : [])));
}

/** @param hung boxes of the luminaires, which may reach over the ends of the top */
function dimensions(plan: PlanPage, parts: PlanParts, hung: readonly Box[]): Mark[] {
  const { scene, axes, scale, frame, words } = plan;
  const marks: Mark[] = [];
  const { x } = scale;
  if (hasLength(parts))
    marks.push(
      ...horizontalDimension(x(0), x(axes.length), 18, words.length(axes.length), {
        extension: [4, Math.max(5, frame.y(axes.width) - 18 - 3)],
        ground: "paper",
      }),
    );
  if (x(0) - scale.left > 20 || scale.left > 44) {
    const label = words.length(axes.width);
    const half = textWidth(label, 11.5) / 2;
    const near = frame.y(0);
    const at = [1 / 2, 1 / 4, 3 / 4, 1 / 8, 7 / 8]
      .map((share) => near - share * axes.width * scale.perMetre)
      .find(
        (y) =>
          !hung.some((box) => overlaps(box, { x: x(0) - 30, y: y - half, width: 14, height: 2 * half }, 1)),
      );
    marks.push(
      ...verticalDimension(x(0) - 14, frame.y(axes.width), near, "", "left"),
      text([x(0) - 20, at ?? frame.y(axes.width / 2)], label, "dimension", {
        anchor: "middle",
        turn: -90,
        ground: "paper",
      }),
    );
  }
  // Ends and centres of the pendants, in one chain under the plan.
  const alongs = hungPendants(scene)
    .map(({ placed }) => placeOf(axes, placed.frame.origin).along)
    .filter((a) => a > 0 && a < axes.length)
    .sort((a, b) => a - b)
    .filter((a, i, all) => i === 0 || a - all[i - 1] > 0.01);
  (parts.rows ?? [alongs]).forEach((places, row) => {
    if (places.length === 0) return;
    const stops = [0, ...places, axes.length];
    // Over the plan it lies close under the dimension of the whole.
    const y = row === 0 ? frame.chain : 18 + CHAIN;
    const above = row === 0 ? y - frame.y(0) - 1 : CHAIN - 4;
    // Rounded as places, so that the pieces sum to the whole; with their unit where all have room for it.
    const gapTexts = runningDimensions(stops, words.lengthUnit).gaps.map(words.length);
    const roomOf = (i: number): number => x(stops[i]) - x(stops[i - 1]);
    const united = gapTexts.every((text, i) => textWidth(text, 11.5) + 6 < roomOf(i + 1));
    for (let i = 1; i < stops.length; i++) {
      const room = roomOf(i);
      // A short piece keeps its figure: in one unit, as small as lettering may be.
      const bare = gapTexts[i - 1].split(" · ")[0].replace(/ m?m$/, "");
      const label = united ? gapTexts[i - 1] : bare;
      const middle = (x(stops[i - 1]) + x(stops[i])) / 2;
      const short = [11.5, LEAST_LETTERING].find((size) => textWidth(bare, size) + 2 < room);
      const fits = textWidth(label, 11.5) + 6 < room;
      marks.push(
        ...horizontalDimension(x(stops[i - 1]), x(stops[i]), y, fits ? label : "", { ground: "paper" }),
      );
      if (!fits && short !== undefined)
        marks.push(
          text([middle, y - 5], bare, "dimension", { anchor: "middle", ground: "paper", size: short }),
        );
      // Shorter still it stands upright between the top and the chain.
      else if (!fits && room > CAPITALS * LEAST_LETTERING && textWidth(bare, LEAST_LETTERING) <= above)
        marks.push(
          text([middle + 4, y - 1], bare, "dimension", { turn: -90, ground: "paper", size: LEAST_LETTERING }),
        );
    }
  });
  return marks;
}

function luminaires({ scene, axes, scale, frame, at }: PlanPage): LuminaireMarks[] {
  const found: LuminaireMarks[] = [];
  scene.layers.forEach((layer, l) => {
    layer.luminaires.forEach((placed, i) => {
      const { along, across } = placeOf(axes, placed.frame.origin);
      const [x, y] = at([along, across]);
      // Beside the top the sheet's dimensions have their places; what would stand in them is left out.
      const beside = across < 0 || across > axes.width;
      const [top, foot] = beside ? [34, frame.height - 34] : [4, frame.height - 4];
      if (x < scale.left - 8 || x > scale.right + 8 || y < top || y > foot) return;
      const m = scale.perMetre;
      const turn = -(Math.atan2(placed.frame.rotation[1], placed.frame.rotation[0]) - axes.turn);
      const rim = outlineOnPlan(placed.luminaire, m, 8).map(planPlacement([x, y], turn));
      const isHung = hangs(scene, layer, placed);
      const marks: Mark[] = [
        line(rim, isHung ? "pendant" : "recessed", "ink", isHung ? 1.5 : 1, {
          closed: true,
          dash: isHung ? "solid" : "dotted",
        }),
        segment(x - 5, y, x + 5, y, "centre", "ink", 0.75),
        segment(x, y - 5, x, y + 5, "centre", "ink", 0.75),
        ...(isHung ? ceilingMarks(placed, (point) => at(axes.toIsland(point)), m) : []),
      ];
      const w = Math.max(12, ...(["x", "y"] as const).map((axis) => halfWidth(placed.luminaire, axis) * m));
      found.push({
        layer: l,
        index: i,
        label: `${layer.name} ${i + 1}`,
        marks,
        handle: { x: x - w, y: y - w, width: 2 * w, height: 2 * w },
      });
    });
  });
  return found;
}

/** The canopy over the box of what is not hung by its middle, and the points it hangs on. */
function ceilingMarks(placed: PlacedLuminaire, at: (point: Vec2) => Vec2, perMetre: number): Mark[] {
  if (suspensionPoints(placed.luminaire) === undefined) return [];
  return ceilingPoints(placed).map((point, k): Mark => {
    const [x, y] = at(point);
    const r = k > 0 ? 2 : Math.max(4, (canopySize(placed.luminaire).diameter / 2) * perMetre);
    return line(ellipse(x, y, r, r), k > 0 ? "suspension point" : "canopy", "ink", 1, {
      closed: true,
      fill: k > 0 ? "ink" : "none",
    });
  });
}
