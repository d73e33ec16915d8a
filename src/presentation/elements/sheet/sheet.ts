import { html, nothing, type PropertyValues, type TemplateResult } from "lit";
import { property, state } from "lit/decorators.js";
import type { BodyShadow } from "../../../assessment/body-shadow.ts";
import type { Scene } from "../../../scene/scene.ts";
import { islandAxes } from "../../drawing/island-axes.ts";
import type { SeenImage } from "../../drawing/shadow-on-plan.ts";
import { type SheetScale, sheetScale } from "../../drawing/sheet-scale.ts";
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
import { sentences } from "./verdict-words.ts";
import "../elevation/elevation.ts";
import "../plan/plan.ts";
import "../profile/profile.ts";
import "../scale/scale.ts";

/** Pixels a metre beyond which three drawings no longer fit a screen's height, and under which they say little. */
const LARGEST = 280;
const SMALLEST = 165;
/** What of the stack's height does not grow with the scale (px): margins, break, legend, profile, gaps. */
const FIXED = 390;

/** Metres the elevation and the plan show up the page. */
function metresUp(scene: Scene): number {
  const axes = islandAxes(scene);
  const beside = scene.people.map((p) => axes.toIsland(p.eye)[1]);
  const people = (beside.some((c) => c > axes.width) ? 0.35 : 0) + (beside.some((c) => c < 0) ? 0.45 : 0);
  return 1.3 + axes.width + people;
}

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
  /** Height the three drawings may take together (px); the width left over then shows more of the room. */
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

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
  }

  /** One scale for all three drawings. */
  get sheetScale(): SheetScale | undefined {
    const scene = this.shownScene;
    if (scene === undefined || this.width === 0) return undefined;
    const axes = islandAxes(scene);
    const perMetreFor = (height: number): number => (height - FIXED) / metresUp(scene);
    if (this.perMetre !== undefined) return sheetScale(axes, this.width, { largest: this.perMetre });
    // Unasked, the plan with its light should be on screen at once, the profile just below.
    const largest =
      this.availableHeight !== undefined
        ? Math.max(SMALLEST, perMetreFor(this.availableHeight))
        : Math.min(LARGEST, Math.max(190, perMetreFor(1.08 * innerHeight)));
    return sheetScale(axes, this.width, { largest });
  }

  override render(): TemplateResult | typeof nothing {
    const scene = this.shownScene;
    if (scene === undefined) return html`<slot></slot>`;
    const scale = this.sheetScale;
    const hidden = new Set(this.hide.split(/\s+/));
    if (scale === undefined) return html`<div class="stack"></div>`;
    const shared = { study: this.study, scene, assessment: this.assessment, display: this.display };
    return html`
      <slot name="verdict">${this.#verdict()}</slot>
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
        ${
          hidden.has("plan")
            ? nothing
            : html`<candlespan-plan
              .study=${shared.study} .scene=${shared.scene} .assessment=${shared.assessment} .display=${shared.display}
              .scale=${scale} .selection=${this.selection} .reading=${this.reading} .fixed=${this.fixed} .hide=${this.hide}
              .shadows=${this.shadows} .images=${this.images}
            ></candlespan-plan>`
        }
        ${
          hidden.has("legend")
            ? nothing
            : html`<div class="legend" .style=${`padding-left:${scale.left}px`}>
              <candlespan-scale .unit=${this.words.illuminanceUnit} hatch></candlespan-scale>
              <span class="quality">${this.#quality()}</span>
            </div>`
        }
        ${
          hidden.has("profile")
            ? nothing
            : html`<candlespan-profile
              .study=${shared.study} .scene=${shared.scene} .assessment=${shared.assessment} .display=${shared.display}
              .scale=${scale} .selection=${this.selection} .reading=${this.reading} .fixed=${this.fixed} .height=${150}
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
        (zone) =>
          html`<span class=${zone.style}><span class="sign" aria-hidden="true">${zone.mark}</span>\u00a0${zone.words} </span>`,
      )}</h2>
      ${remark === "" ? nothing : html`<p>${remark}</p>`}
    </div>`;
  }

  #quality(): string {
    if (this.assessment === undefined) return "";
    return this.assessment.method.quality === "quick" ? "coarse, refining when you let go" : "refined";
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
