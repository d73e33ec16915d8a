/**
 * The drawing underneath the floor plan, and the hand on it: it lies still and out of the way until a tool is chosen, then it is moved, or
 * two points of it are put, by pointer and by key.
 */

import { nothing, type SVGTemplateResult, svg } from "lit";
import type { FloorPlan } from "../../drawing/floor-plan.ts";
import { type UnderlayImage, underlayMatrix } from "../../drawing/underlay.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import type { Wording } from "../../words/wording.ts";
import type { UnderlayMoveDetail, UnderlayPointsDetail } from "../shared/contract.ts";
import { ARROWS } from "../shared/drag-controller.ts";
import { round } from "../shared/marks.ts";

/** What the hand needs of the drawing. */
export interface UnderlayHost extends EventTarget {
  readonly underlay?: UnderlayImage;
  readonly underlayTool?: "move" | "points";
  underlayPoints?: readonly [Vec2, Vec2];
  readonly words: Wording;
  /** A shift on the page as metres of the room. */
  metres(dx: number, dy: number): Vec2;
  /** A place of the window as one of the room (m). */
  roomAt(clientX: number, clientY: number): Vec2;
  step(fine: boolean): number;
  requestUpdate(): void;
}

/** A point's ring, and of what can be taken hold of around it (px). */
const RING = 7;
const TAKE = 22;
/** What an arrow key moves a point by, and with Shift (px): a line of a drawing is one wide. */
const COARSE = 10;
const FINE = 1;

interface Hold {
  readonly pointer: number;
  readonly x: number;
  readonly y: number;
  /** The point held; without one the whole drawing is. */
  readonly point?: 0 | 1;
  readonly points?: readonly [Vec2, Vec2];
}

export class UnderlayDrag {
  readonly #host: UnderlayHost;
  #hold: Hold | undefined;
  /** How far the drawing is moved so far (m). */
  #by: Vec2 = [0, 0];
  /** The point that a press beside both puts. */
  #next: 0 | 1 = 0;

  constructor(host: UnderlayHost) {
    this.#host = host;
  }

  /** Beneath everything. */
  picture({ at, perMetre }: FloorPlan): SVGTemplateResult | typeof nothing {
    const { underlay } = this.#host;
    if (underlay === undefined) return nothing;
    const { href, width, height, origin, opacity } = underlay;
    const corner = at([origin[0] + this.#by[0], origin[1] + this.#by[1]]);
    return svg`<image
      class="underlay"
      aria-hidden="true"
      href=${href}
      width=${width}
      height=${height}
      preserveAspectRatio="none"
      opacity=${opacity}
      transform="matrix(${underlayMatrix(underlay, corner, perMetre).join(" ")})"
    ></image>`;
  }

  /** Over everything while a tool is in the hand. */
  tool(plan: FloorPlan): SVGTemplateResult | typeof nothing {
    const { underlay, underlayTool, underlayPoints } = this.#host;
    if (underlay === undefined || underlayTool === undefined) return nothing;
    if (underlayTool === "move")
      return svg`<rect class="sheet-over move" width=${plan.width} height=${plan.height} tabindex="0" role="button"
        aria-label="Drawing underneath: arrow keys move it, with Shift finely" @keyup=${this.#rest} @blur=${this.#rest}></rect>`;
    if (underlayPoints === undefined) return nothing;
    const [a, b] = underlayPoints.map(plan.at);
    return svg`<rect class="sheet-over" width=${plan.width} height=${plan.height}></rect>
      <line class="known" x1=${round(a[0])} y1=${round(a[1])} x2=${round(b[0])} y2=${round(b[1])}></line>
      ${[a, b].map((at, i) => this.#point(at, i, underlayPoints[i]))}`;
  }

  #point([x, y]: Vec2, index: number, [right, up]: Vec2): SVGTemplateResult {
    const { words } = this.#host;
    return svg`<g class="point" data-point=${index} tabindex="0" role="button" transform="translate(${round(x)} ${round(y)})"
      aria-label="Point ${index + 1}, ${words.length(right)} from wall 3, ${words.length(up)} from wall 0: arrow keys move it, with Shift by a pixel">
      <circle class="take" r=${TAKE}></circle>
      <circle class="ring" r=${RING}></circle>
      <path class="cross" d="M-${TAKE / 2} 0H${TAKE / 2}M0-${TAKE / 2}V${TAKE / 2}"></path>
      <text x=${RING + 3} y=${-RING - 1} aria-hidden="true">${index + 1}</text>
    </g>`;
  }

  down(event: PointerEvent): void {
    const { underlayTool, underlayPoints } = this.#host;
    if (event.button !== 0) return;
    (event.currentTarget as Element).setPointerCapture?.(event.pointerId);
    const start = { pointer: event.pointerId, x: event.clientX, y: event.clientY };
    if (underlayTool === "move") this.#hold = start;
    if (underlayTool !== "points" || underlayPoints === undefined) return;
    const taken = (event.target as Element).closest("[data-point]")?.getAttribute("data-point");
    const point = taken === undefined || taken === null ? this.#next : (Number(taken) as 0 | 1);
    this.#next = point === 0 ? 1 : 0;
    let points = underlayPoints;
    if (taken === undefined || taken === null) {
      points = withPoint(points, point, this.#host.roomAt(event.clientX, event.clientY));
      this.#emitPoints(points);
    }
    this.#hold = { ...start, point, points };
  }

  move(event: PointerEvent): void {
    const hold = this.#hold;
    if (hold === undefined || hold.pointer !== event.pointerId) return;
    const by = this.#host.metres(event.clientX - hold.x, event.clientY - hold.y);
    if (hold.point === undefined || hold.points === undefined) {
      this.#by = by;
      this.#host.requestUpdate();
    } else this.#emitPoints(moved(hold.points, hold.point, by));
  }

  up(event: PointerEvent): void {
    const hold = this.#hold;
    if (hold === undefined || hold.pointer !== event.pointerId) return;
    this.#hold = undefined;
    this.#rest();
  }

  /** A movement ends, however many steps it took. */
  readonly #rest = (): void => {
    const by = this.#by;
    this.#by = [0, 0];
    if (by[0] !== 0 || by[1] !== 0) this.#emit<UnderlayMoveDetail>("underlay-move", { by });
  };

  /** Escape, or the pointer was taken away: back to where the hand found it. */
  cancel(): void {
    const hold = this.#hold;
    this.#hold = undefined;
    this.#by = [0, 0];
    if (hold?.points !== undefined) this.#emitPoints(hold.points);
    this.#host.requestUpdate();
  }

  /** Whether the key was meant for the drawing underneath. */
  key(event: KeyboardEvent): boolean {
    if (event.key === "Escape" && (this.#hold !== undefined || this.#by.some((each) => each !== 0))) {
      event.stopPropagation();
      this.cancel();
      return true;
    }
    const arrow = ARROWS[event.key];
    const target = event.target as Element;
    if (arrow === undefined || target.closest(".sheet-over, .point") === null) return false;
    event.preventDefault();
    const { underlayPoints, underlayTool } = this.#host;
    if (underlayTool === "move") {
      const step = this.#host.step(event.shiftKey);
      this.#by = [this.#by[0] + arrow[0] * step, this.#by[1] + arrow[1] * step];
      this.#host.requestUpdate();
    } else if (underlayPoints !== undefined) {
      const pixels = event.shiftKey ? FINE : COARSE;
      const point = Number(target.getAttribute("data-point")) as 0 | 1;
      this.#emitPoints(
        moved(underlayPoints, point, this.#host.metres(arrow[0] * pixels, -arrow[1] * pixels)),
      );
    }
    return true;
  }

  #emitPoints(points: readonly [Vec2, Vec2]): void {
    this.#host.underlayPoints = points;
    this.#emit<UnderlayPointsDetail>("underlay-points", { points });
  }

  #emit<T>(type: string, detail: T): void {
    this.#host.dispatchEvent(new CustomEvent(type, { detail, bubbles: true, composed: true }));
  }
}

function withPoint(points: readonly [Vec2, Vec2], index: 0 | 1, at: Vec2): readonly [Vec2, Vec2] {
  return index === 0 ? [at, points[1]] : [points[0], at];
}

function moved(points: readonly [Vec2, Vec2], index: 0 | 1, [dx, dy]: Vec2): readonly [Vec2, Vec2] {
  const [x, y] = points[index];
  return withPoint(points, index, [x + dx, y + dy]);
}
