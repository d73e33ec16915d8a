import { html, nothing, type PropertyValues, svg, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import type { BodyShadow } from "../../advice/body-shadow.ts";
import type { Clash } from "../../advice/clashes/clash.ts";
import type { clashMarks } from "../../drawing/clash-marks.ts";
import { wordBoxes } from "../../drawing/drawing.ts";
import type { Move } from "../../drawing/luminaire-key.ts";
import { type PlanObjects, type PlanParts, planFrame, planObjects } from "../../drawing/plan-objects.ts";
import type * as ShadowOnPlan from "../../drawing/shadow-on-plan.ts";
import type { SeenImage } from "../../drawing/shadow-on-plan.ts";
import type { SheetScale } from "../../drawing/sheet-scale.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import type { Scene } from "../../scene/scene.ts";
import type { AlsoDrawn } from "../also-drawn/also-drawn.ts";
import { define } from "../shared/define.ts";
import type { Place } from "../shared/drawing-element.ts";
import { judgedTop } from "../shared/illuminance-probe.ts";
import { interactionStyles } from "../shared/interaction.styles.ts";
import { InteractiveDrawing } from "../shared/interactive-drawing.ts";
import { pathOf, renderMarks, round } from "../shared/marks.ts";
import { drawingStyles, tokens } from "../shared/tokens.ts";
import { LightLayer } from "./light-layer.ts";
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
 * @slot - stands in place of the drawing until there is an arrangement
 */
export class CandlespanPlan extends InteractiveDrawing {
  static override styles = [tokens, drawingStyles, interactionStyles, planStyles];

  /** Leaves out parts: a list of `people dimensions length hatch zones`, `length` the one over the top alone. */
  @property() hide = "";

  /** What the bodies of those who stand there take from the light; drawn as lines of equal loss. */
  @property({ attribute: false }) shadows: readonly BodyShadow[] = [];
  /** Where someone sees the image of a luminaire in a polished top. */
  @property({ attribute: false }) images: readonly SeenImage[] = [];
  /** What is drawn over the light beside the usual. */
  @property({ attribute: false }) also?: AlsoDrawn;

  /** How far from the top people are drawn (m); those beyond are named at the drawing's edge. */
  @property({ type: Number }) reach?: number;
  /** What people may take beyond an edge of the top (px); figures are cut there. */
  @property({ type: Number }) cut?: number;
  /** What cannot hang or be built as it is placed. */
  @property({ attribute: false }) clashes: readonly Clash[] = [];

  readonly #light = new LightLayer();

  private get parts(): PlanParts {
    const hidden = new Set(this.hide.split(/\s+/));
    return {
      zones: !hidden.has("zones"),
      people: !hidden.has("people"),
      dimensions: !hidden.has("dimensions"),
      length: !hidden.has("length"),
      reach: this.reach,
      cut: this.cut,
    };
  }

  /** @internal */
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

  /** What draws shadows and images, and clashes; each loaded when there are any. */
  #onPlan: typeof ShadowOnPlan | undefined;
  #clashMarks: typeof clashMarks | undefined;

  get #isWaiting(): boolean {
    const isShadowed = this.shadows.length + this.images.length > 0 && this.#onPlan === undefined;
    return isShadowed || (this.clashes.length > 0 && this.#clashMarks === undefined);
  }

  protected override async getUpdateComplete(): Promise<boolean> {
    const done = await super.getUpdateComplete();
    if (!this.#isWaiting) return done;
    await this.#bring();
    return super.getUpdateComplete();
  }

  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    if (this.#isWaiting) void this.#bring();
  }

  async #bring(): Promise<void> {
    if (this.shadows.length + this.images.length > 0)
      this.#onPlan = await import("../../drawing/shadow-on-plan.ts");
    if (this.clashes.length > 0) this.#clashMarks = (await import("../../drawing/clash-marks.ts")).clashMarks;
    this.requestUpdate();
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
    const top = this.reader(scene)?.top;
    const moving = this.drag.isHolding || this.assessment?.method.quality === "quick";
    const lit =
      top === undefined
        ? undefined
        : this.#light.render({
            scene,
            top,
            targets: this.targets,
            unit: this.words.illuminanceUnit,
            scale,
            frame,
            objects,
            moving,
            hatch: !this.hide.includes("hatch"),
          });
    const outline = pathOf(objects.outline, true);
    const x0 = scale.x(0);
    const head = frame.y(axes.width);
    const reading = this.reading;
    const place = (room: Vec2): Vec2 => {
      const [along, across] = axes.toIsland(room);
      return [scale.x(along), frame.y(across)];
    };
    const handles = this.renderLuminaires(scene, objects.luminaires);
    const summary = `Plan of the top. ${this.summary(scene)}`;
    return this.renderPage(
      { width: scale.width, height: frame.height, summary },
      svg`
        ${lit ?? svg`<path d=${outline} class="f-sheet"></path>`}
        ${this.#shadowLayer(place, objects, outline)}
        <g class=${lit === undefined ? "" : "over-light"} aria-hidden="true">
          ${renderMarks(objects.over)}${renderMarks(this.#onPlan?.imagesOnPlan(this.images, place, objects.taken, objects.luminaires) ?? [])}
          ${renderMarks(this.also?.plan({ scene, assessment: this.assessment, scale, frame, objects, place, words: this.words, clashes: this.clashes }) ?? [])}
        </g>
        <g aria-hidden="true">${renderMarks(objects.around)}</g>
        ${this.renderField(x0, head, scale.x(axes.length) - x0, frame.y(0) - head, "Light on the top")}
        <g class=${lit === undefined ? "" : "over-light"}>${handles}</g>
        <g aria-hidden="true">${renderMarks(this.#clashMarks?.(scene, this.clashes, scale, frame, wordBoxes(objects.over)) ?? [])}</g>
        ${
          reading === undefined
            ? nothing
            : svg`${this.renderPointer(scale.x(reading.along), frame.height, [...wordBoxes([...objects.over, ...objects.around]), ...this.#light.words])}
              <circle class="pointer" cx=${round(scale.x(reading.along))} cy=${round(frame.y(reading.across))} r="4" fill="none"></circle>`
        }
        ${this.#reasonMark(scale)}`,
    );
  }

  #shadowLayer(place: (room: Vec2) => Vec2, objects: PlanObjects, outline: string) {
    if (this.shadows.length === 0 || this.#onPlan === undefined) return nothing;
    const { steps, marks } = this.#onPlan.shadowsOnPlan(this.shadows, place, objects.taken);
    const rings = (all: readonly (readonly Vec2[])[]): string =>
      all.map((ring) => pathOf(ring, true)).join("");
    return svg`<clipPath id="shaded"><path d=${outline}></path></clipPath>
      <g class="over-light shadows" clip-path="url(#shaded)" aria-hidden="true">
        ${steps.map((step) => svg`<path d=${rings(step.rings)} fill="#1b1a16" fill-opacity="0.16" fill-rule="evenodd"></path>`)}
        ${renderMarks(marks)}
      </g>`;
  }

  #reasonMark(scale: SheetScale) {
    if (this.reasons.length === 0) return nothing;
    return svg`<text class="reason f-luminaire strong ground s-paper" x=${scale.right} y="14" font-size="12" text-anchor="end">${this.reasons.join(", ")}</text>`;
  }

  protected summary(scene: Scene): string {
    const top = this.assessment === undefined ? undefined : judgedTop(scene, this.assessment);
    if (top === undefined) return "No light calculated.";
    const { average, minimum, maximum } = top.statistics;
    const { words } = this;
    const said = [
      `Average ${words.light(average)}, from ${words.light(minimum)} to ${words.light(maximum)}.`,
    ];
    for (const { zone, person, lost, usual } of this.shadows)
      if (usual) said.push(`${person} takes ${Math.round(lost * 100)} % of the light at ${zone}.`);
    for (const { person } of this.images)
      said.push(`${person ?? "Someone"} sees the image of a luminaire in the top.`);
    return said.join(" ");
  }
}

define("candlespan-plan", CandlespanPlan);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-plan": CandlespanPlan;
  }
}
