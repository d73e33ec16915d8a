import { html, nothing, svg, type TemplateResult } from "lit";
import { property, state } from "lit/decorators.js";
import type { Clash } from "../../advice/clashes/clash.ts";
import { costReport, isCostStated } from "../../advice/cost.ts";
import { ranked } from "../../app/ranking.ts";
import type { ArrangementAssessment, Check, ZoneAssessment } from "../../assessment/assessment.ts";
import { type DifferenceMap, differenceMap, signed } from "../../drawing/difference-map.ts";
import { islandAxes } from "../../drawing/island-axes.ts";
import { gridToPage } from "../../drawing/island-light.ts";
import { DARK_INK } from "../../drawing/light-scale.ts";
import { planFrame, planObjects } from "../../drawing/plan-objects.ts";
import { type SheetScale, sheetScale } from "../../drawing/sheet-scale.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import { gridMetres } from "../../scene/grid-metres.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { Scene } from "../../scene/scene.ts";
import { powerFigure } from "../../units/power-text.ts";
import { LUX_PER_FOOTCANDLE } from "../../units/quantities.ts";
import { costGapWords, costWords } from "../../words/cost-words.ts";
import { headline, isDark } from "../../words/headline.ts";
import { overHobWords } from "../../words/hob-text.ts";
import { type Display, METRIC, type Wording, wording } from "../../words/wording.ts";
import { evennessText, verdictMark } from "../../words/zone-text.ts";
import { define } from "../shared/define.ts";
import { CandlespanElement } from "../shared/element.ts";
import { ElementWidth } from "../shared/element-width.ts";
import { judgedTop, topLight } from "../shared/illuminance-probe.ts";
import { pathOf, renderMarks, round } from "../shared/marks.ts";
import { comparisonContext, StudyProperties } from "../shared/study-context.ts";
import { drawingStyles, tokens } from "../shared/tokens.ts";
import { isHatched, verdictStyle } from "../sheet/verdict-words.ts";
import { comparisonStyles } from "./comparison.styles.ts";
import { besideWords, firstWords, hungWords, isOneZone, likelyNote, likelyText } from "./comparison-words.ts";
import { settingsTable } from "./settings-table.ts";
import "../plan/plan.ts";
import "../scale/scale.ts";

interface Option {
  readonly index: number;
  readonly letter: string;
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment;
  readonly clashes: readonly Clash[];
}

/** The plans are for looking at side by side: what would lengthen them all stays out. */
const HIDDEN = "people dimensions";
const LARGEST = 260;
/** Narrowest plan that still says something, and the gap between two (px). */
const NARROWEST = 290;
const GAP = 24;
/** Widest map of a difference (px). */
const WIDEST_MAP = 620;
const MARGINS = { left: 4, right: 4 } as const;

/**
 * Options as one sheet: plans side by side on one scale, verdicts under them, what can be built and meets its targets
 * first, then what misses them least, of those that are alike the evenest; then the difference of two as a map on its own scale.
 *
 * @tag candlespan-comparison
 * @fires reading-move - light is read at a place in one of the plans ({@link ReadingDetail})
 * @csspart option - each option with its plan
 * @csspart bands - the row of colours of the scale
 * @csspart luminaire - each luminaire of every plan
 * @csspart pointer - the vertical reading line of every plan
 * @csspart settings - the table of settings of the dimmers against options
 * @csspart difference - the map of the difference
 */
export class CandlespanComparison extends CandlespanElement {
  static override styles = [tokens, drawingStyles, comparisonStyles];

  @property({ attribute: false }) study?: ResolvedStudy;
  /** Light of each of the study's scenes, in its order; missing while it is computed. */
  @property({ attribute: false }) assessments: readonly (ArrangementAssessment | undefined)[] = [];
  /** Options in all, when more are to come than the study has by now: the plans keep their size meanwhile. */
  @property({ type: Number }) expected = 0;
  /** Letter of each option, in the study's order; the study's own unless set. */
  @property({ attribute: false }) letters?: readonly string[];
  /** What cannot be built of each option, in the study's order. */
  @property({ attribute: false }) clashes: readonly (readonly Clash[])[] = [];
  @property({ attribute: false }) display?: Display;

  @state() private first?: number;
  @state() private second?: number;

  readonly #width = new ElementWidth(this);

  constructor() {
    super();
    this.addController(new StudyProperties(this, comparisonContext, ["study", "assessments"]));
  }

  override render(): TemplateResult | typeof nothing {
    const { study } = this;
    if (study === undefined || this.#width.px === 0) return nothing;
    const words = wording(this.display ?? study.display ?? METRIC);
    const options = study.scenes.flatMap((scene, index): Option[] => {
      const assessment = this.assessments[index];
      if (assessment === undefined) return [];
      const letter = this.letters?.[index] ?? scene.letter;
      return [{ index, letter, scene, assessment, clashes: this.clashes[index] ?? [] }];
    });
    const waiting = study.scenes.length - options.length;
    const inOrder = ranked(options);
    const longest = Math.max(...study.scenes.map((scene) => islandAxes(scene).length));
    const fitting = Math.floor((this.#width.px + GAP) / (NARROWEST + GAP));
    const across = Math.max(1, Math.min(3, Math.max(this.expected, study.scenes.length), fitting));
    const each = (this.#width.px - (across - 1) * GAP) / across;
    const scale = sheetScale({ length: longest }, each, { reach: 0, largest: LARGEST, margins: MARGINS });
    const beside = besideWords(inOrder.map(({ scene }) => scene));
    return html`
      ${waiting > 0 || options.length < 2 ? nothing : html`<p class="first">${firstWords(inOrder)}</p>`}
      <div class="options" .style=${`--across:${across}`}>${inOrder.map((option, i) => this.#option(option, beside[i], scale, words))}</div>
      ${likelyNote(options) === "" ? nothing : html`<p class="aside note">${likelyNote(options)}</p>`}
      ${waiting > 0 ? html`<p role="status">${waiting} of ${study.scenes.length} options are still computed.</p>` : nothing}
      ${options.length > 0 ? html`<candlespan-scale exportparts="bands" .unit=${words.illuminanceUnit} .hatch=${options.some(({ assessment }) => isHatched(assessment))}></candlespan-scale>` : nothing}
      ${settingsTable(inOrder, words.illuminanceUnit)}
      ${options.length > 1 ? this.#difference(options, inOrder, words) : nothing}
    `;
  }

  #option(
    { letter, scene, assessment, clashes }: Option,
    beside: string,
    scale: SheetScale,
    words: Wording,
  ): TemplateResult {
    const top = judgedTop(scene, assessment)?.statistics;
    const said = headline(assessment, clashes, words.illuminanceUnit);
    const overHob = overHobWords(scene);
    const likely = (zone: ZoneAssessment, quantity: Check["quantity"]): TemplateResult =>
      html`<span class="likely">${likelyText(zone, quantity)}</span>`;
    return html`<section class="option" part="option" aria-label=${`${letter} ${scene.name}`}>
      <h2 title=${scene.name}><span class="letter">${letter}</span> <span>${scene.name}</span></h2>
      <p class="aside">${hungWords(scene, words)}</p>
      ${beside === "" ? nothing : html`<p class="aside one-line" title=${beside}>${beside}</p>`}
      <candlespan-plan fixed exportparts="luminaire, pointer" hide=${HIDDEN} .study=${this.study} .scene=${scene} .assessment=${assessment} .display=${this.display} .scale=${scale} .clashes=${clashes}></candlespan-plan>
      <p class="said ${said.kind}" title=${said.words}>${said.words}</p>
      <p class="aside">${said.aside}</p>
      ${overHob === undefined ? nothing : html`<p class="aside over-hob">${overHob}</p>`}
      <table>
        <caption class="visually-hidden">Zones of ${letter}</caption>
        <thead><tr><th scope="col">zone</th><th scope="col">${words.illuminanceUnit}</th><th scope="col">evenness</th><th scope="col"><span class="visually-hidden">verdict</span></th></tr></thead>
        <tbody>
          ${assessment.zones.map(
            (zone) => html`<tr class=${verdictStyle(zone.verdict, clashes)}>
              <th scope="row" title=${zone.name}>${zone.name}</th>
              <td>${isDark(zone) ? "no light" : words.lightFigure(zone.statistics.average)}${likely(zone, "illuminance")}</td>
              <td>${isDark(zone) ? "–" : evennessText(zone.statistics.uniformity)}${likely(zone, "uniformity")}</td>
              <td><span class="mark" role="img" aria-label=${zone.verdict}>${verdictMark(zone.verdict, clashes)}</span></td>
            </tr>`,
          )}
          ${
            top === undefined
              ? nothing
              : html`<tr class="total">
                ${
                  isOneZone(assessment, top)
                    ? html`<th scope="row" colspan="3">power</th>`
                    : html`<th scope="row">whole top</th>
                <td>${words.lightFigure(top.average)}</td>
                <td>${top.average > 0 ? evennessText(top.uniformity) : "–"}</td>`
                }
                <td>${powerFigure(assessment.energy.watts, assessment.energy.unknownWatts)} W</td>
              </tr>`
          }
        </tbody>
      </table>
      ${costOf(scene)}
    </section>`;
  }

  #difference(known: readonly Option[], inOrder: readonly Option[], words: Wording): TemplateResult {
    const pick = (wanted: number | undefined, fallback: Option): Option =>
      known.find((o) => o.index === wanted) ?? fallback;
    const first = pick(this.first, known[0]);
    const second = pick(this.second, inOrder.find((o) => o !== first) ?? known[1]);
    const choose = (label: string, chosen: Option, set: (index: number) => void): TemplateResult =>
      html`<label>${label} <select @change=${(e: Event) => set(Number((e.target as HTMLSelectElement).value))}>
        ${known.map((o) => html`<option value=${o.index} ?selected=${o === chosen}>${o.letter} ${o.scene.name}</option>`)}
      </select></label>`;
    return html`<section class="difference" part="difference" aria-label="Difference">
      <h2>Difference</h2>
      <div class="pick">
        ${choose("Light of", second, (index) => {
          this.second = index;
        })}
        ${choose("against", first, (index) => {
          this.first = index;
        })}
      </div>
      ${this.#map(first, second, words)}
    </section>`;
  }

  #map(first: Option, second: Option, words: Wording): TemplateResult {
    const axes = islandAxes(first.scene);
    const scale = sheetScale(axes, Math.min(this.#width.px - (this.#width.px > 480 ? 90 : 0), WIDEST_MAP), {
      reach: 0,
      margins: MARGINS,
    });
    const a = topLight(first.scene, first.assessment);
    const b = topLight(second.scene, second.assessment);
    if (a === undefined || b === undefined) return html`<p>One of the two has no light on a grid.</p>`;
    const parts = { zones: true, people: false, dimensions: false };
    const frame = planFrame(second.scene, scale, parts);
    const objects = planObjects(second.scene, scale, words, parts, frame);
    const toGrid = gridMetres(a.grid);
    const outline = axes.outline.map((p) => toGrid(axes.toRoom(p)));
    const unit = words.illuminanceUnit;
    const map = differenceMap(a, b, outline, gridToPage(first.scene, a.grid, scale, frame), {
      unit,
      taken: objects.taken,
      avoided: objects.luminaires.map((l) => l.handle),
    });
    const figure = (lux: number): string => signed(unit === "fc" ? lux / LUX_PER_FOOTCANDLE : lux);
    const said = `${second.letter} against ${first.letter}: from ${figure(map.least)} to ${figure(map.most)} ${unit}.`;
    return html`<p class="figures">${said}</p>
      <div class="map"><svg width=${scale.width} height=${frame.height} viewBox="0 0 ${scale.width} ${frame.height}" role="img" aria-label=${`Map of the difference. ${said}`}>
        ${drawMap(map)}
        <g class="over">${renderMarks(objects.over)}${objects.luminaires.map((l) => renderMarks(l.marks))}</g>
        ${renderMarks(objects.around)}
      </svg>
      <div class="steps" aria-hidden="true">${[...map.scale]
        .reverse()
        .map(
          ({ words: figures, colour }, k) =>
            html`<i .style=${`background:${colour}`}></i><span>${figures}${k === 0 ? ` ${unit}` : ""}</span>`,
        )}</div></div>`;
  }
}

function drawMap(map: DifferenceMap) {
  const rings = (all: readonly (readonly Vec2[])[]): string => all.map((ring) => pathOf(ring, true)).join("");
  return svg`<defs><clipPath id="top"><path d=${pathOf(map.outline, true)}></path></clipPath></defs>
    <g clip-path="url(#top)">
      ${map.bands.map((band) => svg`<path d=${rings(band.rings)} fill=${band.colour} fill-rule="evenodd"></path>`)}
      ${map.lines.map((l) => svg`<path class="f-none" d=${pathOf(l.points)} stroke=${DARK_INK} stroke-width=${l.level === 0 ? 1.5 : 0.75}></path>`)}
    </g>
    ${map.labels.map(
      (l) =>
        svg`<text class="iso" x=${round(l.at[0])} y=${round(l.at[1] + 4)} font-size="11" text-anchor="middle" fill=${DARK_INK} stroke=${map.colourAt(map.lines[l.line].level)} transform="rotate(${round(l.turn)} ${round(l.at[0])} ${round(l.at[1])})">${l.text}</text>`,
    )}`;
}

/** Price, lamps and energy, where the study says anything of them. */
function costOf(scene: Scene): TemplateResult | typeof nothing {
  const report = costReport(scene);
  if (!isCostStated(report)) return nothing;
  return html`<p class="cost">${costWords(report)} ${costGapWords(report) ?? nothing}</p>`;
}

define("candlespan-comparison", CandlespanComparison);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-comparison": CandlespanComparison;
  }
}
