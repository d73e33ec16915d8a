import { html, nothing, svg, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import type { Box, LuminaireMarks } from "../../drawing/drawing.ts";
import { line, wordBoxes } from "../../drawing/drawing.ts";
import { placeOf } from "../../drawing/island-axes.ts";
import type { Move } from "../../drawing/luminaire-key.ts";
import { highestOf, profileAlong, targetLines } from "../../drawing/profile.ts";
import { profileDrawing } from "../../drawing/profile-drawing.ts";
import { profileFrame } from "../../drawing/profile-frame.ts";
import { suspended } from "../../scene/suspended.ts";
import type { AlsoDrawn } from "../also-drawn/also-drawn.ts";
import { define } from "../shared/define.ts";
import type { Place } from "../shared/drawing-element.ts";
import { interactionStyles } from "../shared/interaction.styles.ts";
import { InteractiveDrawing } from "../shared/interactive-drawing.ts";
import { renderMarks, round } from "../shared/marks.ts";
import { drawingStyles, tokens } from "../shared/tokens.ts";

/**
 * Illuminance along the island: total, pendants and recessed, target lines by zone, minimum and maximum.
 *
 * @tag candlespan-profile
 * @fires luminaire-move - a luminaire is dragged or moved by key, along the island ({@link LuminaireMoveDetail})
 * @fires luminaire-select - the selection changed ({@link LuminaireSelectDetail})
 * @fires luminaire-remove - Delete was pressed on luminaires ({@link LuminaireRemoveDetail})
 * @fires reading-move - light is read at a place ({@link ReadingDetail})
 * @csspart luminaire - each pendant's mark on the base line
 * @csspart pointer - the vertical reading line
 * @slot - stands in place of the drawing until there is an arrangement
 */
export class CandlespanProfile extends InteractiveDrawing {
  static override styles = [tokens, drawingStyles, interactionStyles];

  /** Height of the drawing (px). */
  @property({ type: Number }) height = 170;
  /** Where the profile runs, in metres across the island; its centre line unless set. */
  @property({ type: Number }) across?: number;

  /** What is drawn beside the usual. */
  @property({ attribute: false }) also?: AlsoDrawn;

  #axis = 0;
  #holding = false;
  /** The light the axis was chosen for. */
  #axisOf: ArrangementAssessment | undefined;

  /** @internal */
  override moveOf(dx: number): Move {
    const scene = this.shownScene;
    const k = scene === undefined ? 0 : this.pageScale() / this.scaleFor(scene).perMetre;
    return { along: dx * k, across: 0, height: 0 };
  }

  /** @internal */
  override holding(held: boolean): void {
    super.holding(held);
    this.#holding = held;
  }

  protected override placeAt(x: number): Place | undefined {
    const scene = this.shownScene;
    if (scene === undefined) return undefined;
    const axes = this.axes(scene);
    const along = this.scaleFor(scene).along(x);
    return along < 0 || along > axes.length ? undefined : { along, across: this.across ?? axes.width / 2 };
  }

  override render(): TemplateResult | typeof nothing {
    const scene = this.shownScene;
    if (scene === undefined) return html`<slot></slot>`;
    if (this.scale === undefined && this.width === 0) return nothing;
    const scale = this.scaleFor(scene);
    const axes = this.axes(scene);
    const top = this.reader(scene)?.top;
    const profile = top === undefined ? undefined : profileAlong(top.grid, top.fine, axes, this.across);
    if (profile === undefined) return html`<p class="none">No light calculated yet.</p>`;
    const targets = targetLines(scene.zones, this.targets);
    // The axis keeps still while a hand moves the light and while that is refined; any other light has its own.
    const highest = highestOf(profile, targets);
    const { assessment } = this;
    const keep = this.#holding || assessment === this.#axisOf || stageOf(assessment) > stageOf(this.#axisOf);
    this.#axisOf = assessment;
    const frame = profileFrame(
      highest,
      this.words.illuminanceUnit,
      this.height,
      keep && this.#axis > 0 ? this.#axis : undefined,
    );
    this.#axis = frame.top;
    const drawing = profileDrawing(profile, targets, scale, this.words, frame);
    const base = frame.y(0);
    const pendants = suspended(scene).map(({ layer, l, i, placed }): LuminaireMarks => {
      const x = scale.x(placeOf(axes, placed.frame.origin).along);
      const marks = [
        line(
          [
            [x, base - 7],
            [x + 5, base],
            [x - 5, base],
          ],
          "pendant",
          "luminaire",
          1,
          { closed: true, fill: "sheet" },
        ),
      ];
      return {
        layer: l,
        index: i,
        label: `${layer.name} ${i + 1}`,
        marks,
        handle: { x: x - 9, y: base - 16, width: 18, height: 13 },
      };
    });
    const x0 = scale.x(0);
    const handles = this.renderLuminaires(scene, pendants);
    return this.renderPage(
      { ...drawing, height: drawing.height + 6 },
      svg`
        <g aria-hidden="true">${renderMarks(drawing.marks)}${renderMarks(this.also?.profile({ scene, assessment: this.assessment, scale, frame, words: this.words, drawn: drawing.marks }) ?? [])}</g>
        ${this.renderField(x0, frame.y(frame.top), scale.x(axes.length) - x0, base - frame.y(frame.top) - 18, "Light along the top")}
        ${handles}
        ${this.#reading(scale, frame, wordBoxes(drawing.marks))}`,
    );
  }

  #reading(
    scale: ReturnType<InteractiveDrawing["scaleFor"]>,
    frame: ReturnType<typeof profileFrame>,
    words: readonly Box[],
  ) {
    const place = this.reading;
    const light = this.lightAt(place);
    if (place === undefined) return nothing;
    return svg`${this.renderPointer(scale.x(place.along), frame.height, words)}
      ${light === undefined ? nothing : svg`<circle class="pointer f-paper" cx=${round(scale.x(place.along))} cy=${round(frame.y(light.total))} r="3.5"></circle>`}`;
  }
}

/** How far the light of a study is calculated: coarse, refined, judged. */
function stageOf(assessment: ArrangementAssessment | undefined): number {
  if (assessment === undefined) return 0;
  return assessment.method.quality === "quick" ? 1 : assessment.verdict === "not judged" ? 2 : 3;
}

define("candlespan-profile", CandlespanProfile);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-profile": CandlespanProfile;
  }
}
