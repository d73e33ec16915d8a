import { html, LitElement, nothing, svg, type TemplateResult } from "lit";
import { property, state } from "lit/decorators.js";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import { colourAt, type DifferenceMap, differenceMap, percent } from "../../drawing/difference-map.ts";
import { gridMetres } from "../../drawing/grid-metres.ts";
import { islandAxes } from "../../drawing/island-axes.ts";
import { planFrame, planObjects } from "../../drawing/plan-objects.ts";
import { type SheetScale, sheetScale } from "../../drawing/sheet-scale.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { Scene } from "../../scene/scene.ts";
import { rankedByUniformity, VERDICT_MARK } from "../../words/text.ts";
import { type Display, METRIC, type Wording, wording } from "../../words/wording.ts";
import { gridToPage } from "../plan/light-layer.ts";
import { define } from "../shared/define.ts";
import { judgedTop, topPlane } from "../shared/illuminance-probe.ts";
import { pathOf, renderMarks, round } from "../shared/marks.ts";
import { comparisonContext, StudyProperties } from "../shared/study-context.ts";
import { drawingStyles, tokens } from "../shared/tokens.ts";
import { VERDICT_STYLE } from "../sheet/verdict-words.ts";
import { comparisonStyles } from "./comparison.styles.ts";
import "../plan/plan.ts";
import "../scale/scale.ts";

interface Option {
  readonly index: number;
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment;
  readonly evenness: number;
}

/** The plans are for looking at one under the other: what would lengthen them all stays out. */
const HIDDEN = "people dimensions";
const LARGEST = 260;

/**
 * Options under each other on one scale, the evenest first, then the difference of two as a map.
 *
 * @tag candlespan-comparison
 * @fires reading-move - light is read at a place in one of the plans ({@link ReadingDetail})
 * @csspart option - each option with its plan
 * @csspart difference - the map of the difference
 */
export class CandlespanComparison extends LitElement {
  static override styles = [tokens, drawingStyles, comparisonStyles];

  @property({ attribute: false }) study?: ResolvedStudy;
  /** Light of each of the study's scenes, in its order; missing while it is computed. */
  @property({ attribute: false }) assessments: readonly (ArrangementAssessment | undefined)[] = [];
  @property({ attribute: false }) display?: Display;
  /** `day` or `evening`; follows the page's color-scheme when absent. */
  @property({ reflect: true }) mode?: "day" | "evening";

  @state() private width = 0;
  @state() private first?: number;
  @state() private second?: number;

  #observer?: ResizeObserver;

  constructor() {
    super();
    this.addController(new StudyProperties(this, comparisonContext, ["study", "assessments"]));
  }

  override connectedCallback(): void {
    super.connectedCallback();
    if (typeof ResizeObserver === "undefined") return;
    this.#observer = new ResizeObserver((entries) => {
      const width = Math.round(entries[entries.length - 1].contentRect.width);
      if (width > 0) this.width = width;
    });
    this.#observer.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#observer?.disconnect();
  }

  override render(): TemplateResult | typeof nothing {
    const { study } = this;
    if (study === undefined || this.width === 0) return nothing;
    const words = wording(this.display ?? study.display ?? METRIC);
    const known = study.scenes.flatMap((scene, index): Option[] => {
      const assessment = this.assessments[index];
      if (assessment === undefined) return [];
      const evenness = judgedTop(scene, assessment)?.statistics.uniformity ?? 0;
      return [{ index, scene, assessment, evenness }];
    });
    const waiting = study.scenes.length - known.length;
    const ranked = rankedByUniformity(known);
    const longest = Math.max(...study.scenes.map((scene) => islandAxes(scene).length));
    const scale = sheetScale({ length: longest }, this.width, { largest: LARGEST });
    return html`
      ${ranked.map((option, rank) => this.#option(option, rank, scale, words))}
      ${waiting > 0 ? html`<p role="status">${waiting} of ${study.scenes.length} options are still computed.</p>` : nothing}
      ${known.length > 0 ? html`<candlespan-scale .unit=${words.illuminanceUnit} hatch></candlespan-scale>` : nothing}
      ${known.length > 1 ? this.#difference(known, ranked, scale) : nothing}
    `;
  }

  #option(
    { scene, assessment, evenness }: Option,
    rank: number,
    scale: SheetScale,
    words: Wording,
  ): TemplateResult {
    const top = judgedTop(scene, assessment)?.statistics;
    const figures =
      top === undefined
        ? ""
        : `whole top ${words.light(top.average)}, ${words.lightFigure(top.minimum)} to ${words.lightFigure(top.maximum)}; ${assessment.energy.watts.toFixed(0)} W`;
    return html`<section class="option" part="option" aria-label=${scene.name}>
      <h2>
        <span><span class="rank">${rank + 1}.</span> ${scene.name}</span>
        <span>evenness ${evenness.toFixed(2)}</span>
        <span class=${VERDICT_STYLE[assessment.verdict]}><span class="mark" aria-hidden="true">${VERDICT_MARK[assessment.verdict]}</span> ${assessment.verdict}</span>
      </h2>
      <p class="figures">${figures}</p>
      <candlespan-plan fixed hide=${HIDDEN} .study=${this.study} .scene=${scene} .assessment=${assessment} .display=${this.display} .scale=${scale}></candlespan-plan>
    </section>`;
  }

  #difference(known: readonly Option[], ranked: readonly Option[], scale: SheetScale): TemplateResult {
    const pick = (wanted: number | undefined, fallback: Option): Option =>
      known.find((o) => o.index === wanted) ?? fallback;
    const first = pick(this.first, known[0]);
    const second = pick(this.second, ranked.find((o) => o !== first) ?? known[1]);
    const choose = (label: string, chosen: Option, set: (index: number) => void): TemplateResult =>
      html`<label>${label} <select @change=${(e: Event) => set(Number((e.target as HTMLSelectElement).value))}>
        ${known.map((o) => html`<option value=${o.index} ?selected=${o === chosen}>${o.scene.name}</option>`)}
      </select></label>`;
    return html`<section part="difference" aria-label="Difference">
      <h2>Difference</h2>
      <div class="pick">
        ${choose("Light of", second, (index) => {
          this.second = index;
        })}
        ${choose("against", first, (index) => {
          this.first = index;
        })}
      </div>
      ${this.#map(first, second, scale)}
    </section>`;
  }

  #map(first: Option, second: Option, scale: SheetScale): TemplateResult {
    const a = topPlane(first.scene, first.assessment);
    const b = topPlane(second.scene, second.assessment);
    if (a === undefined || b === undefined) return html`<p>One of the two has no light on a grid.</p>`;
    const parts = { zones: true, people: false, dimensions: false };
    const frame = planFrame(second.scene, scale, parts);
    const words = wording(this.display ?? this.study?.display ?? METRIC);
    const objects = planObjects(second.scene, scale, words, parts, frame);
    const axes = islandAxes(first.scene);
    const toGrid = gridMetres(a.grid);
    const outline = (
      first.scene.island?.outline ?? [
        [0, 0],
        [axes.length, 0],
        [axes.length, axes.width],
        [0, axes.width],
      ]
    ).map((p) => toGrid(axes.toRoom(p as Vec2)));
    const map = differenceMap(a, b, outline, gridToPage(a, axes, scale, frame), [
      ...objects.taken,
      ...objects.luminaires.map((l) => l.handle),
    ]);
    const said = `${second.scene.name} against ${first.scene.name}: from ${percent(map.least)} to ${percent(map.most)}.`;
    return html`<p class="figures">${said}</p>
      <svg width=${scale.width} height=${frame.height} viewBox="0 0 ${scale.width} ${frame.height}" role="img" aria-label=${`Map of the difference. ${said}`}>
        ${drawMap(map)}
        <g class="over">${renderMarks(objects.over)}${objects.luminaires.map((l) => renderMarks(l.marks))}</g>
        ${renderMarks(objects.around)}
      </svg>`;
  }
}

function drawMap(map: DifferenceMap) {
  const rings = (all: readonly (readonly Vec2[])[]): string => all.map((ring) => pathOf(ring, true)).join("");
  return svg`<defs><clipPath id="top"><path d=${pathOf(map.outline, true)}></path></clipPath></defs>
    <g clip-path="url(#top)">
      ${map.bands.map((band) => svg`<path d=${rings(band.rings)} fill=${band.colour} fill-rule="evenodd"></path>`)}
      ${map.lines.map((l) => svg`<path class="f-none" d=${pathOf(l.points)} stroke="#24211c" stroke-width="0.75" stroke-dasharray=${l.level < 0 ? "4 3" : nothing}></path>`)}
    </g>
    ${map.labels.map(
      (l) =>
        svg`<text class="iso" x=${round(l.at[0])} y=${round(l.at[1] + 4)} font-size="11" text-anchor="middle" fill="#24211c" stroke=${colourAt(map.lines[l.line].level)} transform="rotate(${round(l.turn)} ${round(l.at[0])} ${round(l.at[1])})">${l.text}</text>`,
    )}`;
}

define("candlespan-comparison", CandlespanComparison);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-comparison": CandlespanComparison;
  }
}
