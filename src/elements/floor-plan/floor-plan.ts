import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from "lit";
import { property, query, state } from "lit/decorators.js";
import { type Box, textBox } from "../../drawing/drawing.ts";
import { type FloorPlan, floorPlan } from "../../drawing/floor-plan.ts";
import type { FloorPlanItem, FloorPlanSide } from "../../drawing/floor-plan-items.ts";
import type { PlanFrame } from "../../drawing/plan-page.ts";
import type { SheetScale } from "../../drawing/sheet-scale.ts";
import type { UnderlayImage } from "../../drawing/underlay.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import type { Scene } from "../../scene/scene.ts";
import { degrees } from "../../units/quantities.ts";
import { LightLayer } from "../plan/light-layer.ts";
import { planStyles } from "../plan/plan.styles.ts";
import type { FloorPlanKey } from "../shared/contract.ts";
import { define } from "../shared/define.ts";
import { keyStep } from "../shared/drag-controller.ts";
import { DrawingElement } from "../shared/drawing-element.ts";
import { goByKey } from "../shared/go-by-key.ts";
import { pathOf, renderMarks, round } from "../shared/marks.ts";
import { drawingStyles, tokens } from "../shared/tokens.ts";
import { floorPlanStyles } from "./floor-plan.styles.ts";
import { ItemDrag, type ItemDragHost, sameItem } from "./item-drag.ts";
import { UnderlayDrag } from "./underlay-drag.ts";

/** Half of a side's dot, and of what can be taken hold of around it (px): 24 is the least a pointer is asked to hit. */
const DOT = 5;
const TAKE = 12;

/**
 * The whole room in plan: walls by number, cupboards, windows, people, island and zones, each to be taken, moved and sized, the light on
 * the top, and the luminaires with their switches.
 *
 * @tag candlespan-floor-plan
 * @fires item-move - a thing or one of its sides is dragged or moved by key ({@link ItemMoveDetail})
 * @fires item-select - another thing is selected, or none ({@link ItemSelectDetail})
 * @fires item-remove - Delete was pressed on a thing ({@link ItemRemoveDetail})
 * @fires underlay-move - the drawing underneath was moved ({@link UnderlayMoveDetail})
 * @fires underlay-points - one of the two points of a known length was moved ({@link UnderlayPointsDetail})
 * @csspart item - each thing with what takes hold of it
 * @csspart side - each grip of the selected thing's sides
 * @slot - stands in place of the drawing until there is an arrangement
 */
export class CandlespanFloorPlan extends DrawingElement implements ItemDragHost {
  static override styles = [tokens, drawingStyles, planStyles, floorPlanStyles];

  /** Drawn only: nothing can be taken. */
  @property({ type: Boolean, reflect: true }) fixed = false;
  /** Height the drawing may take (px). */
  @property({ type: Number, attribute: "largest-height" }) largestHeight?: number;
  /** What is selected. */
  @property({ attribute: false }) item: FloorPlanKey | undefined;

  /** A drawing of the house that lies beneath everything, out of the hand's way. */
  @property({ attribute: false }) underlay?: UnderlayImage;
  /** What the hand does to that drawing instead of taking things: moves it, or puts the two points of a known length. */
  @property({ attribute: false }) underlayTool?: "move" | "points";
  /** Those points in the room (m). */
  @property({ attribute: false }) underlayPoints?: readonly [Vec2, Vec2];

  @state() private tabStop = 0;
  @query("svg") private readonly page!: SVGSVGElement;

  readonly #drag = new ItemDrag(this);
  readonly #underlay = new UnderlayDrag(this);
  readonly #light = new LightLayer();
  #plan: FloorPlan | undefined;

  constructor() {
    super();
    // Heard here: an `svg` that listens for focus would be a stop of Tab itself.
    this.addEventListener("focusin", (event) => this.#focused(event));
  }

  /** @internal */
  takenAt(target: EventTarget | null) {
    const element = (target as Element | null)?.closest?.("[data-item]");
    const [number, side] = (element?.getAttribute("data-item") ?? "").split(" ").map(Number);
    const item = element === null || element === undefined ? undefined : this.#plan?.items[number];
    if (item === undefined) return undefined;
    return {
      item: { kind: item.kind, index: item.index },
      side: item.sides.find((each) => each.index === side),
    };
  }

  /** @internal */
  metres(dx: number, dy: number): Vec2 {
    const plan = this.#plan;
    if (plan === undefined) return [0, 0];
    const width = this.page?.getBoundingClientRect().width || plan.width;
    const k = plan.width / width / plan.perMetre;
    return [dx * k, -dy * k];
  }

  /** @internal */
  roomAt(clientX: number, clientY: number): Vec2 {
    const { left, top } = this.page.getBoundingClientRect();
    const [x, y] = this.metres(clientX - left, clientY - top);
    const plan = this.#plan;
    if (plan === undefined) return [0, 0];
    const [originX, originY] = plan.at([0, 0]);
    return [x - originX / plan.perMetre, y + originY / plan.perMetre];
  }

  /** @internal */
  ownAxes({ kind }: FloorPlanKey, [x, y]: Vec2): Vec2 {
    const turn = kind === "zone" ? (this.shownScene?.island?.turn ?? 0) : 0;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    return [c * x + s * y, c * y - s * x];
  }

  /** @internal */
  step(fine: boolean): number {
    return keyStep(this.words, fine);
  }

  override render(): TemplateResult | typeof nothing {
    const scene = this.shownScene;
    if (scene === undefined) return html`<slot></slot>`;
    if (this.width === 0) return nothing;
    const plan = floorPlan(scene, this.width, this.words, this.largestHeight);
    this.#plan = plan;
    const selected = this.fixed ? undefined : plan.items.findIndex((each) => sameItem(each, this.item));
    // The light lies on the island, under everything that stands on it.
    const first = plan.items.findIndex(({ kind }) => kind === "zone");
    const under = first < 0 ? plan.items.length : first;
    return html`<svg
        width=${plan.width}
        height=${plan.height}
        viewBox="0 0 ${plan.width} ${plan.height}"
        class=${this.underlay === undefined ? "" : "traced"}
        role="group"
        aria-label=${plan.summary}
        @pointerdown=${this.#down}
        @pointermove=${(event: PointerEvent) => this.#currentDrag.move(event)}
        @pointerup=${(event: PointerEvent) => this.#currentDrag.up(event)}
        @pointercancel=${() => this.#currentDrag.cancel()}
        @keydown=${this.#key}
      >
        ${this.#underlay.picture(plan)}
        <g aria-hidden="true">${renderMarks(plan.walls)}</g>
        ${plan.items.slice(0, under).map((item, i) => this.#item(item, i, scene))}
        ${this.#lightOf(scene, plan)}
        <g class="over-light"><g aria-hidden="true">${renderMarks(plan.fittings)}</g>${plan.items.slice(under).map((item, i) => this.#item(item, under + i, scene))}</g>
        <g class="hung" aria-hidden="true">${renderMarks(plan.luminaires)}${renderMarks(plan.switches)}</g>
        <g class="names" aria-hidden="true">${renderMarks(plan.names)}</g>
        ${selected === undefined || selected < 0 ? nothing : plan.items[selected].sides.map((side) => this.#side(side, selected))}
        ${this.fixed ? nothing : this.#underlay.tool(plan)}
      </svg>
      <p class="visually-hidden" id="hand-help">
        Arrow keys move it; with Shift, finely. Page Up and Page Down go to its neighbours and, of what is selected, to its sides, which
        arrow keys draw. Enter selects, Delete removes, Escape lets go.
      </p>`;
  }

  #item(item: FloorPlanItem, number: number, scene: Scene): SVGTemplateResult {
    if (this.fixed) return svg`<g>${renderMarks(item.marks)}</g>`;
    const isSelected = sameItem(item, this.item);
    const last = (this.#plan?.items.length ?? 1) - 1;
    return svg`<g
      class="item"
      part="item"
      data-item=${number}
      data-kind=${item.kind}
      tabindex=${number === Math.min(this.tabStop, last) ? "0" : "-1"}
      role="button"
      aria-pressed=${isSelected ? "true" : "false"}
      aria-label=${this.#describe(item, scene)}
      aria-describedby="hand-help"
    >
      <g aria-hidden="true">${renderMarks(item.marks)}</g>
      <path class="take" d=${pathOf(item.kind === "zone" ? inset(item.outline) : item.outline, true)}></path>
      <title>${item.name}</title>
    </g>`;
  }

  #side(side: FloorPlanSide, number: number): SVGTemplateResult {
    const [x, y] = side.at;
    const isUpright = Math.abs(side.normal[1]) > Math.abs(side.normal[0]);
    return svg`<g
      class=${`side ${isUpright ? "upright" : "level"}`}
      part="side"
      data-item="${number} ${side.index}"
      tabindex="-1"
      role="button"
      aria-label=${side.label}
      aria-describedby="hand-help"
    >
      <rect class="dot" x=${round(x - DOT)} y=${round(y - DOT)} width=${2 * DOT} height=${2 * DOT}></rect>
      <rect class="take" x=${round(x - TAKE)} y=${round(y - TAKE)} width=${2 * TAKE} height=${2 * TAKE}></rect>
    </g>`;
  }

  /** Name, and the place of its middle in the room. */
  #describe({ name, outline }: FloorPlanItem, scene: Scene): string {
    const plan = this.#plan;
    if (plan === undefined) return name;
    const [left, foot] = plan.at([0, 0]);
    const mean = (axis: 0 | 1): number => outline.reduce((sum, p) => sum + p[axis], 0) / outline.length;
    const clamp = (value: number, most: number): number => Math.max(0, Math.min(most, value));
    const x = clamp((mean(0) - left) / plan.perMetre, scene.room.length);
    const y = clamp((foot - mean(1)) / plan.perMetre, scene.room.width);
    return `${name}, ${this.words.length(x)} from wall 3, ${this.words.length(y)} from wall 0`;
  }

  /** The light as it lies on the unturned top, turned with it. */
  #lightOf(scene: Scene, plan: FloorPlan): SVGTemplateResult | typeof nothing {
    const top = this.reader(scene)?.top;
    const { island } = scene;
    if (top === undefined || island === undefined) return nothing;
    const [cx, cy] = plan.at(island.centre);
    const m = plan.perMetre;
    const x = (along: number): number => cx + m * (along - island.length / 2);
    const y = (across: number): number => cy - m * (across - island.width / 2);
    const scale: SheetScale = {
      width: plan.width,
      perMetre: m,
      left: 0,
      right: plan.width,
      from: (0 - cx) / m,
      to: (plan.width - cx) / m,
      x,
      along: (at) => (at - cx) / m + island.length / 2,
    };
    const frame: PlanFrame = {
      // What the light is drawn anew for: where the island stands, too.
      height: plan.height + cx * 1e-3 + cy * 1e-6,
      chain: 0,
      y,
      across: (at) => (cy - at) / m + island.width / 2,
    };
    return svg`<g transform="rotate(${round(-degrees(island.turn))} ${round(cx)} ${round(cy)})" class="light">${this.#light.render(
      {
        scene,
        top,
        targets: this.targets,
        unit: this.words.illuminanceUnit,
        scale,
        frame,
        objects: {
          over: [],
          around: [],
          luminaires: [],
          outline: [],
          taken: namesOnTop(plan, island.turn, [cx, cy]),
        },
        moving: this.#drag.isHolding || this.assessment?.method.quality === "quick",
        hatch: false,
      },
    )}</g>`;
  }

  readonly #down = (event: PointerEvent): void => {
    if (!this.fixed) this.#currentDrag.down(event);
  };

  get #currentDrag(): ItemDrag | UnderlayDrag {
    return this.underlayTool === undefined ? this.#drag : this.#underlay;
  }

  readonly #focused = (event: FocusEvent): void => {
    const number = Number((event.composedPath()[0] as Element).getAttribute("data-item")?.split(" ")[0]);
    if (Number.isInteger(number)) this.tabStop = number;
  };

  readonly #key = (event: KeyboardEvent): void => {
    if (this.fixed || (this.underlayTool !== undefined && this.#underlay.key(event)) || this.#goByKey(event))
      return;
    this.#drag.key(event);
  };

  /** Page Up and Down, Home and End go from thing to thing, through the sides of the selected one. */
  #goByKey(event: KeyboardEvent): boolean {
    const all = [...this.renderRoot.querySelectorAll<SVGElement>("[data-item]")];
    const order = (element: SVGElement): number => {
      const [number, side] = (element.getAttribute("data-item") ?? "").split(" ").map(Number);
      return number + (side === undefined || Number.isNaN(side) ? 0 : 0.5 + side / 100);
    };
    const stops = all.sort((a, b) => order(a) - order(b));
    return goByKey(event, stops, "[data-item]");
  }
}

/** Boxes of the names, as they lie on the unturned top: what the light's own words keep clear of. */
function namesOnTop({ names }: FloorPlan, turn: number, [cx, cy]: Vec2): Box[] {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return names.flatMap((mark) => {
    if (mark.kind !== "text" || mark.turn) return [];
    const { x, y, width, height } = textBox(mark);
    const [dx, dy] = [x + width / 2 - cx, y + height / 2 - cy];
    const [w, h] = [Math.abs(c) * width + Math.abs(s) * height, Math.abs(s) * width + Math.abs(c) * height];
    return [{ x: cx + c * dx - s * dy - w / 2, y: cy + s * dx + c * dy - h / 2, width: w, height: h }];
  });
}

/** A zone is taken inside its border, so that the island's edge is left to the island. */
function inset(outline: readonly Vec2[]): Vec2[] {
  const mean = [0, 1].map((axis) => outline.reduce((sum, p) => sum + p[axis], 0) / outline.length);
  return outline.map(([x, y]) => {
    const [dx, dy] = [mean[0] - x, mean[1] - y];
    const k = Math.min(0.3, 12 / Math.max(1, Math.hypot(dx, dy)));
    return [x + k * dx, y + k * dy];
  });
}

define("candlespan-floor-plan", CandlespanFloorPlan);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-floor-plan": CandlespanFloorPlan;
  }
}
