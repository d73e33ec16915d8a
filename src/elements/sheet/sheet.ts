import { adoptStyles, html, nothing, type PropertyValues, type TemplateResult } from "lit";
import { property, state } from "lit/decorators.js";
import type { BodyShadow } from "../../advice/body-shadow.ts";
import type { Clash } from "../../advice/clashes/clash.ts";
import { islandAxes, placeOnTop } from "../../drawing/island-axes.ts";
import { type PlanParts, planFrame } from "../../drawing/plan-objects.ts";
import type { PlanFrame } from "../../drawing/plan-page.ts";
import type { SeenImage } from "../../drawing/shadow-on-plan.ts";
import { type SheetScale, sheetScale } from "../../drawing/sheet-scale.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { Scene } from "../../scene/scene.ts";
import type { AlsoDrawn } from "../also-drawn/also-drawn.ts";
import type {
  LightReading,
  LuminaireMoveDetail,
  LuminaireSelectDetail,
  ReadingDetail,
  ZoneOpenDetail,
} from "../shared/contract.ts";
import { define } from "../shared/define.ts";
import { DrawingElement } from "../shared/drawing-element.ts";
import { tokens } from "../shared/tokens.ts";
import { sheetStyles } from "./sheet.styles.ts";
import { fitSheet, type SheetFit } from "./sheet-fit.ts";
import type * as Verdict from "./verdict-part.ts";
import { LARGE_ROWS, NARROW, verdictRoom } from "./verdict-room.ts";
import "../elevation/elevation.ts";
import "../plan/plan.ts";
import "../profile/profile.ts";
import { bandWithin } from "../scale/scale-bands.ts";

/** Pixels a metre beyond which an unbounded sheet no longer fits most screens. */
const LARGEST = 280;
/** What stands over and under the scale beside the plan (px): where it is darkest, and how good the light is. */
const QUALITY = 82;

/**
 * The aligned sheet: verdict, elevation, plan and profile of one island on one horizontal scale, with one line
 * through all three where the light is read.
 *
 * @tag candlespan-sheet
 * @fires luminaire-move - a luminaire is dragged or moved by key in any drawing ({@link LuminaireMoveDetail})
 * @fires luminaire-select - the selection changed ({@link LuminaireSelectDetail})
 * @fires luminaire-remove - Delete was pressed on luminaires ({@link LuminaireRemoveDetail})
 * @fires reading-move - light is read at a place ({@link ReadingDetail})
 * @fires zone-open - a zone of the verdict is pressed, where zones open ({@link ZoneOpenDetail})
 * @slot next - what a page offers to do about the verdict: beside the headline, on a narrow sheet after the zones
 * @slot verdict - stands in place of the verdict sentence
 * @csspart verdict - headline and zones
 * @csspart summary - the headline with what belongs to it
 * @csspart headline - what one reads first
 * @csspart zone - a zone's name in the verdict, where zones open
 * @csspart reading - the figures under the pointer line
 * @csspart luminaire - each luminaire of every drawing with its grip
 * @csspart pointer - the vertical reading line of every drawing
 * @csspart bands - the row of colours of the scale
 * @slot - stands in place of the drawing until there is an arrangement
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
  /** What plan and profile draw beside the usual. */
  @property({ attribute: false }) also?: AlsoDrawn;
  /** What cannot hang or be built as it is placed: said in the verdict, marked on the plan. */
  @property({ attribute: false }) clashes: readonly Clash[] = [];
  /** Exact scale wanted (px a metre), for paper; kept wherever the width allows it. */
  @property({ type: Number, attribute: "per-metre" }) perMetre?: number;
  /** The light shown is of before the last change, which has none: said where its quality is. */
  @property({ type: Boolean, reflect: true }) stale = false;
  /** Leaves out parts: a list of `elevation plan profile legend people dimensions hatch zones`. */
  @property() hide = "";

  /** Each zone of the verdict can be pressed: the page then shows where it is set. */
  @property({ type: Boolean, attribute: "zones-open" }) zonesOpen = false;

  @state() private said = "";
  /** Loads with the first verdict there is to be said, and the scale with it: the plan is lit before. */
  @state() private verdict: typeof Verdict | undefined;

  /** The light is read by a hand on the plan, not in another drawing. */
  #isReadOnPlan = false;

  /** Where the luminaire in the hand has been moved to (m, room). */
  #held: Vec3 | undefined;

  /** The light under the hand is read with the light that belongs to its place, by all drawings at once. */
  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    const scene = this.shownScene;
    if (this.isLightNew(changed) && this.#held !== undefined && scene !== undefined)
      this.reading = placeOnTop(islandAxes(scene), this.#held);
  }

  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    if (this.assessment !== undefined && this.verdict === undefined) void this.#loadWords();
    this.#fitVerdict();
  }

  /** What the verdict was fitted for. */
  #fitted = "";

  /** Sets the verdict as large as it fits its room, anew where words, width or font are others. */
  readonly #fitVerdict = (): void => {
    const verdict = this.renderRoot.querySelector<HTMLElement>("div.verdict");
    const scene = this.shownScene;
    if (this.verdict === undefined || verdict === null || scene === undefined) return;
    const height = this.width < NARROW ? undefined : this.#verdictRoom(scene);
    const offered = this.querySelector("[slot=next]")?.textContent;
    const fitted = `${this.width} ${height} ${document.fonts.status} ${offered} ${verdict.textContent}`;
    if (fitted === this.#fitted) return;
    this.#fitted = fitted;
    this.verdict.fitVerdict(verdict, height);
  };

  /** After the drawings are on the screen, whose light is waited for; on a page nobody sees a little later. */
  async #loadWords(): Promise<void> {
    await new Promise((drawn) => {
      // The second frame begins when the first has been painted.
      requestAnimationFrame(() => requestAnimationFrame(drawn));
      setTimeout(drawn, 1000);
    });
    const [verdict] = await Promise.all([import("./verdict-part.ts"), import("../scale/scale.ts")]);
    adoptStyles(this.renderRoot as ShadowRoot, [...CandlespanSheet.elementStyles, verdict.verdictStyles]);
    this.verdict = verdict;
  }

  /** One scale for all three drawings. */
  get sheetScale(): SheetScale | undefined {
    return this.#fit()?.scale;
  }

  #fit(): SheetFit | undefined {
    const scene = this.shownScene;
    const { width, perMetre } = this;
    if (scene === undefined || width === 0) return undefined;
    const hasElevation = !this.#hidden.has("elevation");
    if (perMetre !== undefined) {
      const scale = sheetScale(islandAxes(scene), width, { largest: perMetre });
      return { scale, profile: 150, elevation: 220, reach: 0.5, cut: undefined };
    }
    return fitSheet(scene, {
      width,
      height: (this.availableHeight ?? 1.04 * innerHeight) - this.#verdictRoom(scene),
      parts: this.#parts,
      hasElevation,
      largest: this.availableHeight === undefined ? LARGEST : Number.POSITIVE_INFINITY,
    });
  }

  #verdictRoom({ zones }: Scene): number {
    return verdictRoom(zones, this.targets, this.width);
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
    const isAside = this.width >= NARROW;
    const said =
      this.assessment === undefined
        ? undefined
        : this.verdict?.verdictInWords(
            this.assessment,
            this.clashes,
            this.reader(scene)?.top,
            { illuminance: this.words.illuminanceUnit, length: this.words.lengthUnit },
            { scene, targets: this.study?.targets, isNarrow: !isAside },
          );
    // A narrow sheet is seen in part: what is read stands at the hand.
    const isReadThere = !isAside && this.#isReadOnPlan;
    const shared = { study: this.study, scene, assessment: this.assessment, display: this.display };
    return html`
      <div class="head" .style=${`min-height:${this.#verdictRoom(scene)}px`}>
        <slot name="verdict">${
          said === undefined
            ? html`<div class="verdict" part="verdict">
              <h2>${this.assessment === undefined ? "No light calculated yet" : nothing}</h2>
            </div>`
            : this.verdict?.verdictPart(
                said,
                this.zonesOpen ? this.#openZone : undefined,
                this.#fitVerdict,
                isAside && this.width < LARGE_ROWS,
              )
        }</slot>
      </div>
      <div
        class="stack"
        @luminaire-select=${this.#selected}
        @luminaire-move=${this.#moved}
        @reading-move=${this.#read}
      >
        ${
          hidden.has("elevation")
            ? nothing
            : html`<candlespan-elevation exportparts="luminaire, pointer"
              .study=${shared.study} .scene=${shared.scene} .assessment=${shared.assessment} .display=${shared.display}
              .scale=${scale} .selection=${this.selection} .reading=${this.reading} .fixed=${this.fixed}
              .height=${fit.elevation} .spacings=${hidden.has("plan") || hidden.has("dimensions")}
            ></candlespan-elevation>`
        }
        <div class="plan">${
          hidden.has("plan")
            ? nothing
            : html`<candlespan-plan exportparts="luminaire, pointer"
              .study=${shared.study} .scene=${shared.scene} .assessment=${shared.assessment} .display=${shared.display}
              .scale=${scale} .selection=${this.selection} .reading=${this.reading} .fixed=${this.fixed}
              .hide=${this.#parts.length ? this.hide : `${this.hide} length`} .reach=${fit.reach} .cut=${fit.cut} .clashes=${this.clashes}
              .shadows=${this.shadows} .images=${this.images} .also=${this.also}
            ></candlespan-plan>`
        }
        ${isReadThere ? this.#readingWords(scale, planFrame(scene, scale, { ...this.#parts, reach: fit.reach, cut: fit.cut })) : nothing}
        ${
          hidden.has("legend")
            ? nothing
            : html`<div class=${isAside ? "legend aside" : "legend"} .style=${isAside ? `left:${scale.right + 14}px` : `padding-left:${scale.left}px`}>
              <candlespan-scale exportparts="bands" .unit=${this.words.illuminanceUnit} ?hatch=${said?.isHatched} ?upright=${isAside}
                .band=${bandWithin(planFrame(scene, scale, { ...this.#parts, reach: fit.reach, cut: fit.cut }).height - QUALITY, this.words.illuminanceUnit)}></candlespan-scale>
              <span class="quality">${said?.dark ? html`${said.dark}<br>` : nothing}${this.#quality()}</span>
            </div>`
        }</div>
        ${
          hidden.has("profile")
            ? nothing
            : html`<candlespan-profile exportparts="luminaire, pointer"
              .study=${shared.study} .scene=${shared.scene} .assessment=${shared.assessment} .display=${shared.display}
              .scale=${scale} .selection=${this.selection} .reading=${this.reading} .fixed=${this.fixed} .height=${fit.profile}
              .also=${this.also}
            ></candlespan-profile>`
        }
      </div>
      <div class="foot">${isReadThere ? nothing : this.#readingWords(scale)}</div>
      <div class="visually-hidden" role="status">${this.said}</div>
    `;
  }

  readonly #openZone = (name: string, index: number, isTarget = false): void => {
    const detail: ZoneOpenDetail = { name, index, isTarget };
    this.dispatchEvent(new CustomEvent("zone-open", { detail, bubbles: true, composed: true }));
  };

  #quality(): string {
    if (this.assessment === undefined) return "";
    if (this.stale) return "Before the last change.";
    const { method, verdict } = this.assessment;
    if (method.quality === "quick") return "Coarse light.";
    return verdict === "not judged" ? "Refined light." : "Calculated in full.";
  }

  /** What is read, at its place along the sheet; over its place in `frame` if that is given. */
  #readingWords(scale: SheetScale, frame?: PlanFrame): TemplateResult | undefined {
    const place = this.reading;
    const light = this.lightAt(place);
    if (place === undefined || light === undefined) return undefined;
    const share = scale.x(place.along) / scale.width;
    return this.verdict?.readingPart(this.readingSentence(light), share, frame?.y(place.across));
  }

  /** `691 lx here: pendants 600, ambient 91` */
  readingSentence(light: LightReading): string {
    const parts = light.parts.map((p) => `${p.name} ${this.words.lightFigure(p.value)}`).join(", ");
    return `${this.words.light(light.total)} here: ${parts}`;
  }

  readonly #selected = (event: CustomEvent<LuminaireSelectDetail>): void => {
    this.selection = event.detail.selection;
  };

  readonly #read = (event: CustomEvent<ReadingDetail>): void => {
    this.#isReadOnPlan = (event.target as Element).localName === "candlespan-plan";
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
