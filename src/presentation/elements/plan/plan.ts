import { html, nothing, svg, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import type { Vec2 } from "../../../geometry/vector.ts";
import type { Scene } from "../../../scene/scene.ts";
import type { cellCoordinates } from "../../drawing/field-sampler.ts";
import {
  belowLevel,
  drawnField,
  type Fineness,
  type GridToPage,
  type LightOnPlan,
  lightOnPlan,
} from "../../drawing/light-on-plan.ts";
import {
  type PlanFrame,
  type PlanObjects,
  type PlanParts,
  planFrame,
  planObjects,
} from "../../drawing/plan-objects.ts";
import { targetLines } from "../../drawing/profile.ts";
import type { SheetScale } from "../../drawing/sheet-scale.ts";
import type { Move } from "../../drawing/snap.ts";
import { darkInkOver } from "../../scale.ts";
import { define } from "../shared/define.ts";
import type { Place } from "../shared/drawing-element.ts";
import { interactionStyles } from "../shared/interaction.styles.ts";
import { InteractiveDrawing } from "../shared/interactive-drawing.ts";
import { pathOf, renderMarks, round } from "../shared/marks.ts";
import { drawingStyles, tokens } from "../shared/tokens.ts";
import { planStyles } from "./plan.styles.ts";

/**
 * The island top with its light: filled steps, labelled isolux lines, hatch below target, zones, luminaires over
 * it, people beside it.
 *
 * @tag candlespan-plan
 * @fires luminaire-move - a luminaire is dragged or moved by key ({@link LuminaireMoveDetail})
 * @fires luminaire-select - the selection changed ({@link LuminaireSelectDetail})
 * @fires luminaire-remove - Delete was pressed on luminaires ({@link LuminaireRemoveDetail})
 * @fires reading-move - light is read at a place ({@link ReadingDetail})
 * @csspart luminaire - each luminaire with its grip
 * @csspart pointer - the vertical reading line
 * @cssprop --candlespan-ink - lines and words
 * @cssprop --candlespan-luminaire - selection and reading
 */
export class CandlespanPlan extends InteractiveDrawing {
  static override styles = [tokens, drawingStyles, interactionStyles, planStyles];

  /** Leave out people, the dimensions, the hatch or the zones: a list of `people dimensions hatch zones`. */
  @property() hide = "";

  #fineness: Fineness = "coarse";
  #light:
    | {
        key: readonly unknown[];
        light: LightOnPlan;
        hatch: readonly { zone: string; target: number; path: string }[];
      }
    | undefined;

  private get parts(): PlanParts {
    const hidden = new Set(this.hide.split(/\s+/));
    return {
      zones: !hidden.has("zones"),
      people: !hidden.has("people"),
      dimensions: !hidden.has("dimensions"),
    };
  }

  override moveOf(dx: number, dy: number): Move {
    const scene = this.shownScene;
    const k = scene === undefined ? 0 : this.pageScale() / this.scaleFor(scene).perMetre;
    return { along: dx * k, across: -dy * k, height: 0 };
  }

  protected override acrossByKey(up: number): number {
    return up;
  }

  protected override placeAt(x: number, y: number): Place | undefined {
    const scene = this.shownScene;
    if (scene === undefined) return undefined;
    const axes = this.axes(scene);
    const along = this.scaleFor(scene).along(x);
    const across = planFrame(scene, this.scaleFor(scene), this.parts).across(y);
    return along < 0 || along > axes.length || across < 0 || across > axes.width
      ? undefined
      : { along, across };
  }

  override holding(held: boolean): void {
    super.holding(held);
    this.#fineness = held ? "coarse" : "refined";
  }

  override render(): TemplateResult | typeof nothing {
    const scene = this.shownScene;
    if (scene === undefined) return html`<slot></slot>`;
    if (this.scale === undefined && this.width === 0) return nothing;
    const scale = this.scaleFor(scene);
    const { parts } = this;
    const frame = planFrame(scene, scale, parts);
    const objects = planObjects(scene, scale, this.words, parts, frame);
    const axes = this.axes(scene);
    const lit = this.#lightFor(scene, scale, frame, objects);
    const outline = pathOf(objects.outline, true);
    const x0 = scale.x(0);
    const top = frame.y(axes.width);
    const reading = this.reading;
    return html`<svg
        width=${scale.width}
        height=${frame.height}
        viewBox="0 0 ${scale.width} ${frame.height}"
        role="group"
        aria-label=${`Plan of the top. ${this.summary(scene)}`}
        @pointerdown=${this.pointerDown}
        @pointermove=${this.pointerMove}
        @pointerup=${this.pointerUp}
        @pointercancel=${this.hand.cancel}
        @pointerleave=${this.pointerLeave}
        @keydown=${this.keyDown}
      >
        <defs>
          <clipPath id="top"><path d=${outline}></path></clipPath>
          <pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <path d="M0 0V7" stroke="#1b1a16" stroke-width="1.6" opacity="0.75"></path>
            <path d="M1.3 0V7" stroke="#fdf8ec" stroke-width="0.8" opacity="0.65"></path>
          </pattern>
          ${lit === undefined ? nothing : this.#zoneClips(scene, scale, frame)}
        </defs>
        <g aria-hidden="true">${renderMarks(objects.under)}</g>
        ${
          lit === undefined
            ? svg`<path d=${outline} class="f-sheet"></path>`
            : svg`<g clip-path="url(#top)" aria-hidden="true">
              <path d=${outline} fill=${lit.light.ground}></path>
              ${lit.light.bands.map((band) => svg`<path d=${band.path} fill=${band.colour} fill-rule="evenodd"></path>`)}
              ${lit.hatch.map(({ zone, path }) => svg`<g clip-path="url(#zone-${zone})"><path d=${path} fill="url(#hatch)" fill-rule="evenodd"></path></g>`)}
              ${lit.light.lines.map(
                (l) =>
                  svg`<path class="line ${darkInkOver(l.level) ? "dark" : "light"}" d=${l.path} stroke-width="0.75" opacity=${l.isBetween ? 0.6 : 1}></path>`,
              )}
${lit.hatch.map(({ zone, target }) => {
  const line = lit.light.lines.find((l) => Math.abs(l.level - target) < 0.5);
  if (line === undefined) return nothing;
  return svg`<g clip-path="url(#zone-${zone})"><path class="line ${darkInkOver(target) ? "dark" : "light"}" d=${line.path} stroke-width="1.5"></path></g>`;
})}
              ${lit.light.labels.map(
                (l) =>
                  svg`<text class="iso ${darkInkOver(l.level) ? "dark" : "light"}" x=${round(l.at[0])} y=${round(l.at[1] + 3.8)} font-size="11" text-anchor="middle" stroke=${colourAround(lit.light, l.level)} transform="rotate(${l.turn} ${round(l.at[0])} ${round(l.at[1])})">${l.text}</text>`,
              )}
            </g>`
        }
        <g class=${lit === undefined ? "" : "over-light"} aria-hidden="true">${renderMarks(objects.over)}</g>
        <g aria-hidden="true">${renderMarks(objects.around)}</g>
        ${this.renderField(x0, top, scale.x(axes.length) - x0, frame.y(0) - top, "Light on the top")}
        <g class=${lit === undefined ? "" : "over-light"}>${this.renderLuminaires(scene, objects.luminaires)}</g>
        ${
          reading === undefined
            ? nothing
            : svg`${this.renderPointer(scale.x(reading.along), frame.height)}
              <circle class="pointer" cx=${round(scale.x(reading.along))} cy=${round(frame.y(reading.across))} r="4" fill="none"></circle>`
        }
        ${this.#reasonMark(scale)}
      </svg>
      ${this.renderReasons()}`;
  }

  /** Paths of the light, kept while plane, values, scale and fineness stay the same. */
  #lightFor(scene: Scene, scale: SheetScale, frame: PlanFrame, objects: PlanObjects) {
    const top = this.reader(scene)?.top;
    if (top === undefined) return undefined;
    const fineness: Fineness =
      this.hand.isHolding || this.assessment?.method.quality === "quick"
        ? "coarse"
        : this.#fineness === "coarse" && this.hand.isHolding
          ? "coarse"
          : "refined";
    const unit = this.words.illuminanceUnit;
    const key = [
      top.plane,
      top.light.illuminance,
      scale.perMetre,
      scale.width,
      frame.height,
      fineness,
      unit,
      this.targets,
      this.hide,
    ];
    if (this.#light?.key.every((k, i) => k === key[i])) return this.#light;
    const field = drawnField(top.plane, top.light.illuminance, fineness);
    const { grid } = top.plane;
    if (field === undefined || grid === undefined) return undefined;
    const axes = this.axes(scene);
    const toPage = gridToPage(grid, axes, scale, frame);
    const targets = targetLines(scene.zones, this.targets);
    const taken = [...objects.taken, ...objects.luminaires.map((l) => l.handle)];
    const within = {
      x: scale.x(0) + 4,
      y: frame.y(axes.width) + 4,
      width: axes.length * scale.perMetre - 8,
      height: axes.width * scale.perMetre - 8,
    };
    const light = lightOnPlan(field, toPage, { unit, targets: targets.map((t) => t.value), taken, within });
    const hatched = !this.hide.includes("hatch");
    const hatch = scene.zones.flatMap((zone, z) => {
      const target = targets.find((t) => t.zone === zone.name);
      if (target === undefined) return [];
      return [
        {
          zone: String(z),
          target: target.value,
          path: hatched ? belowLevel(field, target.value, toPage) : "",
        },
      ];
    });
    this.#light = { key, light, hatch };
    return this.#light;
  }

  #zoneClips(scene: Scene, scale: SheetScale, frame: PlanFrame) {
    return scene.zones.map(
      (zone, z) =>
        svg`<clipPath id="zone-${z}"><path d=${pathOf(
          zone.outline.map(([a, c]) => [scale.x(a), frame.y(c)] as const),
          true,
        )}></path></clipPath>`,
    );
  }

  #reasonMark(scale: SheetScale) {
    if (this.reasons.length === 0) return nothing;
    return svg`<text class="reason f-luminaire strong ground s-paper" x=${scale.right} y="14" font-size="12" text-anchor="end">${this.reasons.join(", ")}</text>`;
  }

  protected summary(scene: Scene): string {
    const top = this.reader(scene)?.top;
    if (top === undefined) return "No light calculated.";
    const { average, minimum, maximum } = top.light.statistics;
    const { words } = this;
    return `Average ${words.light(average)}, from ${words.light(minimum)} to ${words.light(maximum)}.`;
  }
}

/** From a grid's own sides through room and island to the page; an affine map, taken from three points. */
function gridToPage(
  grid: NonNullable<Parameters<typeof cellCoordinates>[0]>,
  axes: ReturnType<InteractiveDrawing["axes"]>,
  scale: SheetScale,
  frame: PlanFrame,
): GridToPage {
  const page = (x: number, y: number): Vec2 => {
    const [along, across] = axes.toIsland([x, y]);
    return [scale.x(along), frame.y(across)];
  };
  const u = Math.hypot(...grid.u);
  const v = Math.hypot(...grid.v);
  const o = page(grid.corner[0], grid.corner[1]);
  const pu = page(grid.corner[0] + grid.u[0] / u, grid.corner[1] + grid.u[1] / u);
  const pv = page(grid.corner[0] + grid.v[0] / v, grid.corner[1] + grid.v[1] / v);
  const [ux, uy, vx, vy] = [pu[0] - o[0], pu[1] - o[1], pv[0] - o[0], pv[1] - o[1]];
  return ([s, t]) => [o[0] + s * ux + t * vx, o[1] + s * uy + t * vy];
}

/** Ground of the label: the band just under its line. */
function colourAround(light: LightOnPlan, level: number): string {
  const under = light.bands.filter((b) => b.from <= level + 1e-6).at(-1);
  return under?.colour ?? light.ground;
}

define("candlespan-plan", CandlespanPlan);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-plan": CandlespanPlan;
  }
}
