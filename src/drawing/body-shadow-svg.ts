/**
 * The map of a body's shadow over a zone, as SVG: darkness for the share of light lost, and the figure itself written
 * where there is room, so that nothing rests on shade alone. x to the right, y up the page.
 */

import type { BodyShadow } from "../advice/body-shadow.ts";
import { escapeText, short } from "./svg-text.ts";

const SCALE = 400;
const MARGIN = 24;
/** Drawing units between written figures, and of a letter. */
const FIGURES = 44;
const LETTER = 6.6;

/** The map as a group of `width` × `height` units with its corner at the origin, `scale` units a metre. */
export function bodyShadowMap(
  shadow: BodyShadow,
  scale = SCALE,
): { readonly svg: string; readonly width: number; readonly height: number; readonly title: string } {
  const { plane, lost, within } = shadow.map;
  const { points, grid } = plane;
  const count = lost.length;
  let x0 = Infinity;
  let y0 = Infinity;
  let x1 = -Infinity;
  let y1 = -Infinity;
  for (let i = 0; i < count; i++) {
    x0 = Math.min(x0, points[3 * i]);
    x1 = Math.max(x1, points[3 * i]);
    y0 = Math.min(y0, points[3 * i + 1]);
    y1 = Math.max(y1, points[3 * i + 1]);
  }
  const u = grid?.u ?? [1, 0, 0];
  const v = grid?.v ?? [0, 1, 0];
  const cellX = grid === undefined ? 0.05 : Math.hypot(u[0], u[1]) / grid.columns;
  const cellY = grid === undefined ? 0.05 : Math.hypot(v[0], v[1]) / grid.rows;
  const turn = (-Math.atan2(u[1], u[0]) * 180) / Math.PI;
  const pad = Math.hypot(cellX, cellY) / 2;
  const plan = (x1 - x0 + 2 * pad) * scale + 2 * MARGIN;
  const height = (y1 - y0 + 2 * pad) * scale + 2 * MARGIN + 22;
  const px = (x: number) => (x - x0 + pad) * scale + MARGIN;
  const py = (y: number) => (y1 + pad - y) * scale + MARGIN + 22;
  const title =
    `${shadow.zone}, ${shadow.person} ${shadow.posture}: ${Math.round(100 * shadow.lost)} % of the light lost within reach,` +
    ` ${Math.round(100 * shadow.worst.lost)} % at the worst place (ring). Figures: % lost, bold within reach`;
  const cells: string[] = [];
  const figures: string[] = [];
  const stepX = Math.max(1, Math.round(FIGURES / (cellX * scale)));
  const stepY = Math.max(1, Math.round(FIGURES / (cellY * scale)));
  for (let i = 0; i < count; i++) {
    const x = px(points[3 * i]);
    const y = py(points[3 * i + 1]);
    const w = cellX * scale;
    const h = cellY * scale;
    cells.push(
      `<rect x="${short(x - w / 2)}" y="${short(y - h / 2)}" width="${short(w)}" height="${short(h)}" fill="#222" fill-opacity="${short(0.06 + 0.8 * lost[i])}"` +
        `${turn === 0 ? "" : ` transform="rotate(${short(turn)} ${short(x)} ${short(y)})"`}/>`,
    );
    const cell = grid?.cells[i] ?? i;
    const column = grid === undefined ? i : cell % grid.columns;
    const row = grid === undefined ? 0 : Math.floor(cell / grid.columns);
    if (column % stepX === stepX >> 1 && row % stepY === stepY >> 1)
      figures.push(
        `<text x="${short(x)}" y="${short(y + 4)}" fill="${lost[i] > 0.45 ? "#fff" : "#222"}"${within[i] === 1 ? ' font-weight="bold"' : ""}>${Math.round(100 * lost[i])}</text>`,
      );
  }
  const hand = `<circle cx="${short(px(shadow.worst.position[0]))}" cy="${short(py(shadow.worst.position[1]))}" r="9" fill="none" stroke="#222" stroke-width="1.5"/>`;
  const svg =
    `<text x="${MARGIN}" y="20" font-size="13" fill="#222">${escapeText(title)}</text>` +
    `<g shape-rendering="crispEdges">${cells.join("")}</g>` +
    `<g font-size="11" text-anchor="middle">${figures.join("")}</g>${hand}`;
  return { svg, width: Math.max(plan, title.length * LETTER + 2 * MARGIN), height, title };
}
