import { html, nothing, type PropertyValues, type TemplateResult } from "lit";
import { property, state } from "lit/decorators.js";
import type { BodyShadow } from "../../advice/body-shadow.ts";
import { islandAxes, placeOnTop } from "../../drawing/island-axes.ts";
import type { PlanParts } from "../../drawing/plan-objects.ts";
import type { SeenImage } from "../../drawing/shadow-on-plan.ts";
import { type SheetScale, sheetScale } from "../../drawing/sheet-scale.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type {
  LightReading,
  LuminaireMoveDetail,
  LuminaireSelectDetail,
  ReadingDetail,
} from "../shared/contract.ts";
import { define } from "../shared/define.ts";
import { DrawingElement } from "../shared/drawing-element.ts";
import { tokens } from "../shared/tokens.ts";
import { sheetStyles } from "./sheet.styles.ts";
import { fitSheet, type SheetFit } from "./sheet-fit.ts";
import { sentences } from "./verdict-words.ts";
import "../elevation/elevation.ts";
import "../plan/plan.ts";
import "../profile/profile.ts";
import "../scale/scale.ts";

/** Pixels a metre beyond which an unbounded sheet no longer fits most screens. */
const LARGEST = 280;
/** Sheets narrower than this have their scale of light beneath the plan, wider ones beside it (px). */
const ASIDE_FROM = 560;

/**
 * The aligned sheet: verdict, elevation, plan and profile of one island on one horizontal scale, with one line
 * through all three where the light is read.
 *
 * @tag candlespan-sheet
 * @fires luminaire-move - a luminaire is dragged or moved by key in any drawing ({@link LuminaireMoveDetail})
 * @fires luminaire-select - the selection changed ({@link LuminaireSelectDetail})
 * @fires luminaire-remove - Delete was pressed on luminaires ({@link LuminaireRemoveDetail})
 * @fires reading-move - light is read at a place ({@link ReadingDetail})
 * @slot verdict - stands in place of the verdict sentence
 * @csspart verdict - the sentence
 * @csspart reading - the figures under the pointer line
 * @cssprop --candlespan-paper - ground of the sheet
 * @cssprop --candlespan-ink - lines and words
 * @cssprop --candlespan-luminaire - luminaires, selection, reading
 * @cssprop --candlespan-font - typeface; inherits the page's
 */
export class CandlespanSheet extends DrawingElement {
  static override styles = [tokens, sheetStyles];

  /** Drawn only: nothing can be taken, only read. */
  @property({ type: Boolean, reflect: true }) fixed = false;
  /** Height the sheet may take (px), verdict and all; the width left over then shows more of the room. */
  @property({ type: Number, attribute: "available-height" }) availableHeight?: number;
  /** What the bodies of those who stand there take from the light; drawn as lines of equal loss. */
  @property({ attribute: false }) shadows: readonly BodyShadow[] = [];
  /** Where someone sees the image of a luminaire in a polished top. */
  @property({ attribute: false }) images: readonly SeenImage[] = [];
  /** Exact scale wanted (px a metre), for paper; kept wherever the width allows it. */
  @property({ type: Number, attribute: "per-metre" }) perMetre?: number;
  /** Leaves out parts: a list of `elevation plan profile legend people dimensions hatch zones`. */
  @property() hide = "";

  @state() private said = "";

  @state() private verdictHeight = 80;
  readonly #verdictSize =
    typeof ResizeObserver === "undefined"
      ? undefined
      : new ResizeObserver(([entry]) => {
          this.verdictHeight = Math.ceil(entry.borderBoxSize[0].blockSize);
        });
  #observed: Element | null = null;
  #fitted: { readonly fit: SheetFit; readonly height: number; readonly width: number } | undefined;
  /** Where the luminaire in the hand has been moved to (m, room). */
  #held: Vec3 | undefined;

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#verdictSize?.disconnect();
    this.#observed = null;
  }

  /** The light under the hand is read with the light that belongs to its place, by all drawings at once. */
  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    const scene = this.shownScene;
    if (this.isLightNew(changed) && this.#held !== undefined && scene !== undefined)
      this.reading = placeOnTop(islandAxes(scene), this.#held);
  }

  protected override updated(): void {
    const verdict = this.renderRoot.querySelector(".head");
    if (verdict === this.#observed) return;
    if (this.#observed !== null) this.#verdictSize?.unobserve(this.#observed);
    if (verdict !== null) this.#verdictSize?.observe(verdict);
    this.#observed = verdict;
  }

  /** One scale for all three drawings. */
  get sheetScale(): SheetScale | undefined {
    return this.#fit()?.scale;
  }

  #fit(): SheetFit | undefined {
    const scene = this.shownScene;
    const { width, perMetre } = this;
    if (scene === undefined || width === 0) return undefined;
    if (perMetre !== undefined)
      return { scale: sheetScale(islandAxes(scene), width, { largest: perMetre }), profile: 150, reach: 0.5 };
    const height = (this.availableHeight ?? 1.04 * innerHeight) - this.verdictHeight;
    const room = {
      width,
      height,
      parts: this.#parts,
      hasElevation: !this.#hidden.has("elevation"),
      largest: this.availableHeight === undefined ? LARGEST : Number.POSITIVE_INFINITY,
    };
    const kept = this.#fitted;
    const isSameRoom = kept !== undefined && kept.height === height && kept.width === width;
    // Nothing under the hand changes size while it moves, nor for every step of a key.
    if (isSameRoom && this.#held !== undefined) return kept.fit;
    const fit = fitSheet(scene, room);
    if (isSameRoom && kept.fit.reach === fit.reach) {
      const ratio = kept.fit.scale.perMetre / fit.scale.perMetre;
      if (ratio > 0.95 && ratio < 1.02 && kept.fit.scale.from === kept.fit.scale.along(kept.fit.scale.left))
        return kept.fit;
    }
    this.#fitted = { fit, height, width };
    return fit;
  }

  get #hidden(): ReadonlySet<string> {
    return new Set(this.hide.split(/\s+/));
  }

  get #parts(): PlanParts {
    const hidden = this.#hidden;
    return {
      zones: !hidden.has("zones"),
      people: !hidden.has("people"),
      dimensions: !hidden.has("dimensions"),
      // The elevation above says how long the top is.
      length: hidden.has("elevation") && !hidden.has("length"),
    };
  }

  override render(): TemplateResult | typeof nothing {
    const scene = this.shownScene;
    if (scene === undefined) return html`<slot></slot>`;
    const fit = this.#fit();
    if (fit === undefined) return html`<div class="stack"></div>`;
    const { scale } = fit;
    const hidden = this.#hidden;
    const isAside = this.width >= ASIDE_FROM;
    const shared = { study: this.study, scene, assessment: this.assessment, display: this.display };
    return html`
      <div class="head"><slot name="verdict">${this.#verdict()}</slot></div>
      <div
        class="stack"
        @luminaire-select=${this.#selected}
        @luminaire-move=${this.#moved}
        @reading-move=${this.#read}
      >
        ${
          hidden.has("elevation")
            ? nothing
            : html`<candlespan-elevation
              .study=${shared.study} .scene=${shared.scene} .assessment=${shared.assessment} .display=${shared.display}
              .scale=${scale} .selection=${this.selection} .reading=${this.reading} .fixed=${this.fixed}
            ></candlespan-elevation>`
        }
        <div class="plan">${
          hidden.has("plan")
            ? nothing
            : html`<candlespan-plan
              .study=${shared.study} .scene=${shared.scene} .assessment=${shared.assessment} .display=${shared.display}
              .scale=${scale} .selection=${this.selection} .reading=${this.reading} .fixed=${this.fixed}
              .hide=${this.#parts.length ? this.hide : `${this.hide} length`} .reach=${fit.reach}
              .shadows=${this.shadows} .images=${this.images}
            ></candlespan-plan>`
        }
        ${
          hidden.has("legend")
            ? nothing
            : html`<div class=${isAside ? "legend aside" : "legend"} .style=${isAside ? `left:${scale.right + 14}px` : `padding-left:${scale.left}px`}>
              <candlespan-scale .unit=${this.words.illuminanceUnit} hatch ?upright=${isAside}></candlespan-scale>
              <span class="quality">${this.#quality()}</span>
            </div>`
        }</div>
        ${
          hidden.has("profile")
            ? nothing
            : html`<candlespan-profile
              .study=${shared.study} .scene=${shared.scene} .assessment=${shared.assessment} .display=${shared.display}
              .scale=${scale} .selection=${this.selection} .reading=${this.reading} .fixed=${this.fixed} .height=${fit.profile}
            ></candlespan-profile>`
        }
        ${this.reading === undefined ? nothing : html`<div class="thread" .style=${`left:${scale.x(this.reading.along) - 0.5}px`}></div>`}
      </div>
      <div class="foot" part="reading">${this.#readingWords(scale)}</div>
      <div class="visually-hidden" role="status">${this.said}</div>
    `;
  }

  #verdict(): TemplateResult {
    const { assessment } = this;
    const scene = this.shownScene;
    if (assessment === undefined || scene === undefined)
      return html`<div class="verdict" part="verdict"><h2>No light calculated yet.</h2></div>`;
    const { zones, remark } = sentences(assessment, this.reader(scene)?.top, this.words.illuminanceUnit);
    return html`<div class="verdict" part="verdict">
      <h2>${zones.map(
        ({ clauses: { name, light, evenness, judged }, style, mark }) => html`<span class="zone ${style}"
          ><span class="subject"><span class="sign" aria-hidden="true">${mark}</span>\u00a0${name} </span
          ><span class="light">${light}, </span><span class="evenness">${evenness}: </span
          ><span class="judged">${judged} </span></span>`,
      )}</h2>
      ${remark === "" ? nothing : html`<p>${remark}</p>`}
    </div>`;
  }

  #quality(): string {
    if (this.assessment === undefined) return "";
    return this.assessment.method.quality === "quick" ? "coarse until you let go" : "refined";
  }

  #readingWords(scale: SheetScale): TemplateResult | typeof nothing {
    const place = this.reading;
    const light = this.lightAt(place);
    if (place === undefined || light === undefined) return nothing;
    const x = scale.x(place.along);
    const side =
      x > scale.width * 0.62 ? `right:${Math.round(scale.width - x + 0)}px` : `left:${Math.round(x + 0)}px`;
    return html`<span .style=${side}>${this.readingSentence(light)}</span>`;
  }

  /** `691 lx here: pendants 600, recessed 91` */
  readingSentence(light: LightReading): string {
    const names = { pendant: "pendants", recessed: "recessed", accent: "accents", other: "other" } as const;
    const parts = light.parts.map((p) => `${names[p.role]} ${this.words.lightFigure(p.value)}`).join(", ");
    return `${this.words.light(light.total)} here: ${parts}`;
  }

  readonly #selected = (event: CustomEvent<LuminaireSelectDetail>): void => {
    this.selection = event.detail.selection;
  };

  readonly #read = (event: CustomEvent<ReadingDetail>): void => {
    this.reading = event.detail.place;
  };

  readonly #moved = (event: CustomEvent<LuminaireMoveDetail>): void => {
    const { phase, name, reasons, position } = event.detail;
    this.#held = phase === "drag" ? position : undefined;
    if (phase === "drag") return;
    const scene = this.shownScene;
    const along = scene === undefined ? position[0] : islandAxes(scene).toIsland(position)[0];
    this.said =
      phase === "cancel"
        ? `${name}: taken back`
        : `${name}: ${this.words.length(along)} along, ${this.words.length(position[2])} above the floor${reasons.length > 0 ? `, ${reasons.join(", ")}` : ""}`;
  };
}

define("candlespan-sheet", CandlespanSheet);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-sheet": CandlespanSheet;
  }
}
