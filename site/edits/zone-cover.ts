/**
 * Zones grown until every point of the top belongs to one. All sides of top and zones, which run along the island's axes, cut it into
 * cells; a cell belongs to a zone that covers its middle. Whole strips beside a rectangle join it first, the largest one first, so
 * that it stays a rectangle; a cell that is left joins the neighbour it shares most of its edge with, which becomes a polygon.
 *
 * Known limit: a top with oblique sides counts as the box around it; the study's check cuts zones to it.
 */

import { isInside } from "../../src/app.ts";

export type Corner = readonly [number, number];
export type Outline = readonly Corner[];

/** Nearer are the same (m). */
const SAME = 1e-6;

interface Cells {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  /** Cells of the top by their number, row by row. */
  readonly top: ReadonlySet<number>;
  readonly zones: readonly Set<number>[];
}

/** Whether all sides run along the axes. */
export function isSquare(outline: Outline): boolean {
  return outline.every(([x, y], i) => {
    const [px, py] = outline[(i + outline.length - 1) % outline.length];
    return Math.abs(x - px) < SAME || Math.abs(y - py) < SAME;
  });
}

export function boxOf(outline: Outline): readonly [low: Corner, high: Corner] {
  const of = (axis: 0 | 1): number[] => outline.map((corner) => corner[axis]);
  return [
    [Math.min(...of(0)), Math.min(...of(1))],
    [Math.max(...of(0)), Math.max(...of(1))],
  ];
}

/** Box around what no zone covers (m), parts narrower than `least` left out; undefined where there is nothing. */
export function uncovered(
  top: Outline,
  zones: readonly Outline[],
  least: number,
): readonly [low: Corner, high: Corner] | undefined {
  const cells = cellsOf(top, zones);
  const corners = openCells(cells)
    .map((cell) => boxOfCell(cells, cell))
    .filter(([low, high]) => high[0] - low[0] > least && high[1] - low[1] > least)
    .flat();
  return corners.length === 0 ? undefined : boxOf(corners);
}

/** Outlines of the zones, grown; more of them than were given where a cell could join none: each `of` the zone it lies beside. */
export function coveringZones(
  top: Outline,
  zones: readonly Outline[],
): readonly { readonly outline: Outline; readonly of: number }[] {
  const whole = cellsOf(top, zones);
  const cells = { ...whole, zones: whole.zones.map((zone) => onTop(whole, zone)) };
  const given = cells.zones.map(({ size }) => size);
  const sources = zones.map((_, of) => of);
  growRectangles(cells);
  for (let open = openCells(cells); open.length > 0; open = openCells(cells)) {
    const joins = open.flatMap((cell) =>
      cells.zones.map((zone, of) => ({ cell, of, edge: sharedEdge(cells, zone, cell) })),
    );
    const touching = joins.filter(({ edge }) => edge > 0).sort((a, b) => b.edge - a.edge);
    const simple = touching.find(({ cell, of }) => canJoin(cells, cells.zones[of], cell));
    if (simple !== undefined) cells.zones[simple.of].add(simple.cell);
    else {
      cells.zones.push(new Set([open[0]]));
      sources.push(sources[touching[0]?.of ?? 0]);
    }
  }
  return cells.zones.map((zone, i) => ({
    outline: zone.size === given[i] || zone.size === 0 ? zones[i] : outlineOf(cells, zone),
    of: sources[i],
  }));
}

/** What of a zone lies on the top, where it hangs together; the zone as it is otherwise. */
function onTop(cells: Cells, zone: ReadonlySet<number>): Set<number> {
  const cut = new Set([...zone].filter((cell) => cells.top.has(cell)));
  const joined = new Set([...cut].slice(0, 1));
  for (const cell of joined)
    for (const [di, dj] of SIDES) {
      const beside = neighbour(cells, cell, di, dj);
      if (beside !== undefined && cut.has(beside)) joined.add(beside);
    }
  return joined.size === cut.size && cut.size > 0 ? cut : new Set(zone);
}

function cellsOf(top: Outline, zones: readonly Outline[]): Cells {
  const [low, high] = boxOf(top);
  const places = (axis: 0 | 1): number[] => {
    const all = [top, ...zones].flatMap((outline) => outline.map((corner) => corner[axis]));
    const inside = all.filter((place) => place > low[axis] + SAME && place < high[axis] - SAME);
    const sorted = [low[axis], ...inside.sort((a, b) => a - b), high[axis]];
    return sorted.filter((place, i) => i === 0 || place - sorted[i - 1] > SAME);
  };
  const [xs, ys] = [places(0), places(1)];
  const within = (outline: Outline): Set<number> => {
    const numbers = Array.from({ length: (xs.length - 1) * (ys.length - 1) }, (_, cell) => cell);
    return new Set(
      numbers.filter((cell) => {
        const [i, j] = [cell % (xs.length - 1), Math.floor(cell / (xs.length - 1))];
        return isInside([(xs[i] + xs[i + 1]) / 2, (ys[j] + ys[j + 1]) / 2], outline);
      }),
    );
  };
  const box: Outline = [low, [high[0], low[1]], high, [low[0], high[1]]];
  return { xs, ys, top: within(isSquare(top) ? top : box), zones: zones.map(within) };
}

function openCells({ top, zones }: Cells): number[] {
  return [...top].filter((cell) => !zones.some((zone) => zone.has(cell)));
}

function boxOfCell({ xs, ys }: Cells, cell: number): readonly [low: Corner, high: Corner] {
  const [i, j] = [cell % (xs.length - 1), Math.floor(cell / (xs.length - 1))];
  return [
    [xs[i], ys[j]],
    [xs[i + 1], ys[j + 1]],
  ];
}

/** The cell so many columns and rows on; undefined beyond the top's box. */
function neighbour({ xs, ys }: Cells, cell: number, di: number, dj: number): number | undefined {
  const columns = xs.length - 1;
  const [i, j] = [(cell % columns) + di, Math.floor(cell / columns) + dj];
  return i < 0 || j < 0 || i >= columns || j >= ys.length - 1 ? undefined : j * columns + i;
}

const SIDES = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

function growRectangles(cells: Cells): void {
  for (;;) {
    const open = new Set(openCells(cells));
    let best:
      | { readonly zone: Set<number>; readonly strip: readonly number[]; readonly area: number }
      | undefined;
    for (const zone of cells.zones) {
      if (zone.size === 0 || outlineOf(cells, zone).length !== 4) continue;
      for (const [di, dj] of SIDES) {
        const beside = [...zone].map((cell) => neighbour(cells, cell, di, dj));
        const strip = beside.filter((cell) => cell === undefined || !zone.has(cell));
        if (!strip.every((cell): cell is number => cell !== undefined && open.has(cell))) continue;
        const area = strip.reduce((sum, cell) => sum + areaOf(cells, cell), 0);
        if (area > (best?.area ?? 0)) best = { zone, strip, area };
      }
    }
    if (best === undefined) return;
    for (const cell of best.strip) best.zone.add(cell);
  }
}

function areaOf(cells: Cells, cell: number): number {
  const [low, high] = boxOfCell(cells, cell);
  return (high[0] - low[0]) * (high[1] - low[1]);
}

/** Length of a cell's edge that lies on a zone (m). */
function sharedEdge(cells: Cells, zone: ReadonlySet<number>, cell: number): number {
  const [low, high] = boxOfCell(cells, cell);
  return SIDES.reduce((sum, [di, dj]) => {
    const beside = neighbour(cells, cell, di, dj);
    if (beside === undefined || !zone.has(beside)) return sum;
    return sum + (di === 0 ? high[0] - low[0] : high[1] - low[1]);
  }, 0);
}

/** Whether a zone that takes in a cell lies on the top, which cannot cut a concave one, and does not touch itself at a mere corner. */
function canJoin(cells: Cells, zone: ReadonlySet<number>, cell: number): boolean {
  if (![...zone].every((each) => cells.top.has(each))) return false;
  const has = (di: number, dj: number): boolean => {
    const beside = neighbour(cells, cell, di, dj);
    return beside !== undefined && zone.has(beside);
  };
  return [1, -1].every((di) => [1, -1].every((dj) => !has(di, dj) || has(di, 0) || has(0, dj)));
}

/** The outer edge of cells that hang together, counter-clockwise from its first corner, corners alone. */
function outlineOf(cells: Cells, zone: ReadonlySet<number>): Outline {
  const next = new Map<string, Corner>();
  for (const cell of zone) {
    const [[x0, y0], [x1, y1]] = boxOfCell(cells, cell);
    const edges: readonly [number, number, Corner, Corner][] = [
      [0, -1, [x0, y0], [x1, y0]],
      [1, 0, [x1, y0], [x1, y1]],
      [0, 1, [x1, y1], [x0, y1]],
      [-1, 0, [x0, y1], [x0, y0]],
    ];
    for (const [di, dj, from, to] of edges) {
      const beside = neighbour(cells, cell, di, dj);
      if (beside === undefined || !zone.has(beside)) next.set(from.join(), to);
    }
  }
  let outer: Corner[] = [];
  while (next.size > 0) {
    const ring: Corner[] = [];
    for (let [key] = next.keys(), at = next.get(key as string); at !== undefined; at = next.get(key)) {
      next.delete(key as string);
      ring.push(at);
      key = at.join();
    }
    if (turned(ring) > turned(outer)) outer = ring;
  }
  return outer.filter(([x, y], i) => {
    const [px, py] = outer[(i + outer.length - 1) % outer.length];
    const [nx, ny] = outer[(i + 1) % outer.length];
    return (x - px) * (ny - y) !== (nx - x) * (y - py);
  });
}

/** Twice the area within a ring, counter-clockwise positive. */
function turned(ring: Outline): number {
  return ring.reduce((sum, [x, y], i) => {
    const [px, py] = ring[(i + ring.length - 1) % ring.length];
    return sum + px * y - x * py;
  }, 0);
}
