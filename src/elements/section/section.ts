import { html, nothing, svg, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import type { Move } from "../../drawing/luminaire-key.ts";
import { type SectionScale, section, sectionScale } from "../../drawing/section.ts";
import { define } from "../shared/define.ts";
import type { Place } from "../shared/drawing-element.ts";
import { interactionStyles } from "../shared/interaction.styles.ts";
import { InteractiveDrawing } from "../shared/interactive-drawing.ts";
import { renderMarks } from "../shared/marks.ts";
import { drawingStyles, tokens } from "../shared/tokens.ts";

/**
 * Cross-section of the island: clearances, overhang, who stands and sits at it, their lines of sight to the rims.
 *
 * @tag candlespan-section
 * @fires luminaire-move - a luminaire is dragged or moved by key, across and up ({@link LuminaireMoveDetail})
 * @fires luminaire-select - the selection changed ({@link LuminaireSelectDetail})
 * @fires luminaire-remove - Delete was pressed on luminaires ({@link LuminaireRemoveDetail})
 * @fires reading-move - a luminaire in the hand takes the reading with it ({@link ReadingDetail})
 * @csspart luminaire - each luminaire with its grip
 * @slot - stands in place of the drawing until there is an arrangement
 */
export class CandlespanSection extends InteractiveDrawing {
  static override styles = [tokens, drawingStyles, interactionStyles];

  /** Widest the drawing grows (px). */
  @property({ type: Number, attribute: "largest-width" }) largestWidth = 560;

  #held: SectionScale | undefined;

  /** @internal */
  override moveOf(dx: number, dy: number): Move {
    const scene = this.shownScene;
    const k = scene === undefined ? 0 : 1 / this.#scaleOf().perMetre;
    return { along: 0, across: dx * k, height: -dy * k };
  }

  /** @internal */
  override get snapReach(): number {
    return this.shownScene === undefined ? 0 : 7 / this.#scaleOf().perMetre;
  }

  protected override placeAt(): Place | undefined {
    return undefined;
  }

  /** @internal */
  override holding(held: boolean): void {
    super.holding(held);
    this.#held = held ? this.#scaleOf() : undefined;
  }

  #scaleOf(): SectionScale {
    if (this.#held !== undefined) return this.#held;
    const scene = this.shownScene;
    if (scene === undefined) throw new TypeError("A cross-section needs a scene to have a scale.");
    return sectionScale(scene, Math.min(this.largestWidth, Math.max(160, this.width)));
  }

  override render(): TemplateResult | typeof nothing {
    const scene = this.shownScene;
    if (scene === undefined) return html`<slot></slot>`;
    if (this.width === 0) return nothing;
    const drawing = section(scene, this.#scaleOf(), this.words);
    return this.renderPage(
      drawing,
      svg`
        <g aria-hidden="true">${renderMarks(drawing.marks)}</g>
        ${this.renderLuminaires(scene, drawing.luminaires)}`,
    );
  }
}

define("candlespan-section", CandlespanSection);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-section": CandlespanSection;
  }
}
