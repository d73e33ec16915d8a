import { html, nothing, svg, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import { wordBoxes } from "../../drawing/drawing.ts";
import { elevation } from "../../drawing/elevation.ts";
import {
  type ElevationExtent,
  type ElevationRoom,
  elevationExtent,
  elevationScale,
} from "../../drawing/elevation-scale.ts";
import type { LuminaireKey, Move } from "../../drawing/luminaire-key.ts";
import type { SheetScale } from "../../drawing/sheet-scale.ts";
import { verticalExtent } from "../../luminaire/vertical-extent.ts";
import type { Scene } from "../../scene/scene.ts";
import { define } from "../shared/define.ts";
import type { Place } from "../shared/drawing-element.ts";
import { interactionStyles } from "../shared/interaction.styles.ts";
import { InteractiveDrawing } from "../shared/interactive-drawing.ts";
import { renderMarks } from "../shared/marks.ts";
import { drawingStyles, tokens } from "../shared/tokens.ts";

/**
 * Elevation of the island's long side: ceiling, drops, pendants in true profile, clearance, eye lines, heads.
 *
 * @tag candlespan-elevation
 * @fires luminaire-move - a luminaire is dragged or moved by key, along and up ({@link LuminaireMoveDetail})
 * @fires luminaire-select - the selection changed ({@link LuminaireSelectDetail})
 * @fires luminaire-remove - Delete was pressed on luminaires ({@link LuminaireRemoveDetail})
 * @fires reading-move - light is read at a place ({@link ReadingDetail})
 * @csspart luminaire - each luminaire with its grip
 * @csspart pointer - the vertical reading line
 * @slot - stands in place of the drawing until there is an arrangement
 */
export class CandlespanElevation extends InteractiveDrawing {
  static override styles = [tokens, drawingStyles, interactionStyles];

  /** Draws from floor to ceiling without a break. */
  @property({ type: Boolean, reflect: true }) whole = false;

  /** Height of the drawing (px), whatever hangs in it; as it needs without. */
  @property({ type: Number }) height?: number;
  /** Shows the distances between pendants. */
  @property({ attribute: false }) spacings = true;

  #held: ElevationExtent | undefined;
  /** Height of the held luminaire's rim when the hand took it (m). */
  #taken: number | undefined;

  /** @internal */
  override moveOf(dx: number, dy: number, held?: LuminaireKey): Move {
    const scene = this.shownScene;
    if (scene === undefined) return { along: 0, across: 0, height: 0 };
    const scale = this.scaleFor(scene);
    const k = this.pageScale();
    return { along: (dx * k) / scale.perMetre, across: 0, height: this.#rise(scene, scale, dy * k, held) };
  }

  /** Metres up that a shift down the page (px of the drawing) means where the held luminaire's rim was taken. */
  #rise(scene: Scene, scale: SheetScale, dy: number, held: LuminaireKey | undefined): number {
    if (dy === 0) return 0;
    if (held !== undefined && this.drag.isHolding && this.#taken === undefined) {
      const { luminaire, frame } = scene.layers[held.layer].luminaires[held.index];
      this.#taken = frame.origin[2] + verticalExtent(luminaire)[0];
    }
    const rim = this.#taken;
    if (rim === undefined) return -dy / scale.perMetre;
    const { y, z } = elevationScale(this.#held ?? elevationExtent(scene, scale, this.room));
    return z(y(rim) + dy) - rim;
  }

  protected override placeAt(x: number): Place | undefined {
    const scene = this.shownScene;
    if (scene === undefined) return undefined;
    const axes = this.axes(scene);
    const along = this.scaleFor(scene).along(x);
    return along < 0 || along > axes.length ? undefined : { along, across: axes.width / 2 };
  }

  private get room(): ElevationRoom {
    return { whole: this.whole, height: this.height };
  }

  /** Heights keep their place on the page while a pendant is in the hand. @internal */
  override holding(held: boolean): void {
    super.holding(held);
    this.#taken = undefined;
    const scene = this.shownScene;
    this.#held =
      held && scene !== undefined ? elevationExtent(scene, this.scaleFor(scene), this.room) : undefined;
  }

  override render(): TemplateResult | typeof nothing {
    const scene = this.shownScene;
    if (scene === undefined) return html`<slot></slot>`;
    if (this.scale === undefined && this.width === 0) return nothing;
    const scale = this.scaleFor(scene);
    const drawing = elevation(
      scene,
      scale,
      this.words,
      this.#held ?? elevationExtent(scene, scale, this.room),
      { withSpacings: this.spacings },
    );
    const axes = this.axes(scene);
    const x0 = scale.x(0);
    const handles = this.renderLuminaires(scene, drawing.luminaires);
    return this.renderPage(
      drawing,
      svg`
        <g aria-hidden="true">${renderMarks(drawing.marks)}</g>
        ${this.renderField(x0, drawing.height - 40, scale.x(axes.length) - x0, 36, "Light along the top")}
        ${handles}
        ${this.reading === undefined ? nothing : this.renderPointer(scale.x(this.reading.along), drawing.height, wordBoxes(drawing.marks))}
        ${
          this.reasons.length === 0
            ? nothing
            : svg`<text class="reason f-luminaire strong ground s-paper" x=${scale.right} y="14" font-size="12" text-anchor="end">${this.reasons.join(", ")}</text>`
        }`,
    );
  }
}

define("candlespan-elevation", CandlespanElevation);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-elevation": CandlespanElevation;
  }
}
