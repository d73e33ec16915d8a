import { css, html, nothing, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import { rectangle } from "../../geometry/polygon.ts";
import { define } from "../shared/define.ts";
import { CandlespanElement } from "../shared/element.ts";
import { renderHatch } from "../shared/marks.ts";
import { tokens } from "../shared/tokens.ts";
import { BAND, bandsOf } from "./scale-bands.ts";

/** Height of a figure (px). */
const FIGURE = 12;

/**
 * The steps of the one scale light is drawn on, with their figures.
 *
 * @tag candlespan-scale
 * @csspart bands - the row of colours
 */
export class CandlespanScale extends CandlespanElement {
  static override styles = [
    tokens,
    css`
      :host { container-type: inline-size; font-size: 11.5px; color: var(--_quiet); }
      .row { display: flex; align-items: flex-start; gap: 16px; }
      .bands { display: flex; flex: 1; max-width: 460px; padding-bottom: 19px; forced-color-adjust: none; }
      .band { flex: 1; height: 10px; position: relative; }
      .band + .band::before {
        content: ""; position: absolute; left: 0; top: 10px; height: 4px; border-left: 0.75px solid var(--_quiet);
      }
      .band span { position: absolute; left: 0; top: 13px; translate: -50% 0; line-height: 1.3; white-space: nowrap; }
      .band:last-child span { translate: -1.1em 0; white-space: nowrap; }
      .upright .bands { flex-direction: column-reverse; flex: none; padding: 0; width: 12px; }
      .upright .band { flex: none; }
      .upright.low .band:nth-child(odd) span { display: none; }
      .band i { display: none; font-style: normal; }
      .upright.low .band i { display: inline; }
      .upright .band + .band::before { left: 12px; top: auto; bottom: 0; height: 0; width: 4px; border: 0; border-bottom: 0.75px solid var(--_quiet); }
      .upright .band span, .upright .band:last-child span { left: 20px; top: auto; bottom: 0; translate: 0 50%; white-space: nowrap; }
      .row.upright { flex-direction: column; gap: 10px; }
      .upright .key { display: grid; gap: 4px; line-height: 1.2; white-space: normal; width: 70px; }
      .key { display: inline-flex; align-items: center; gap: 6px; white-space: nowrap; line-height: 10px; }
      svg { display: block; }
      @container (max-width: 560px) {
        .row:not(.upright) .band:nth-child(odd) span { display: none; }
        .row:not(.upright) .band i { display: inline; }
        /* The figure before the one with the unit: 1000 ran into "2000 lx". */
        .row:not(.upright) .band:nth-last-child(4) span { display: none; }
        .row:not(.upright) .key { white-space: normal; line-height: 1.2; width: 94px; }
        .key svg { flex: none; }
      }
      @media print {
        .band { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
      }
    `,
  ];

  @property() unit: "lx" | "fc" = "lx";
  /** Shows the hatch that marks what lies below target. */
  @property({ type: Boolean }) hatch = false;
  /** Stands upright, the brightest on top. */
  @property({ type: Boolean, reflect: true }) upright = false;
  /** Height of an upright colour (px); low ones have every second figure. */
  @property({ type: Number }) band: number = BAND.most;

  override render(): TemplateResult {
    const { steps, bands } = bandsOf(this.unit);
    const isLow = this.upright && this.band < FIGURE;
    // Where every second figure is left out, and with them the highest, the one before it has the unit.
    const next = bands.length % 2 === 1 ? bands.length - 2 : -1;
    const label = `Scale of the light in ${this.unit}, steps at ${steps.map((s) => s.label).join(", ")}`;
    return html`<div class=${`row${this.upright ? " upright" : ""}${isLow ? " low" : ""}`}>
      <div class="bands" part="bands" role="img" aria-label=${label}>
        ${bands.map(
          (
            band,
            i,
          ) => html`<div class="band" .style=${`background:${band.colour}${this.upright ? `;height:${this.band}px` : ""}`}>
            ${i === 0 ? nothing : html`<span>${steps[i - 1].label}${i === bands.length - 1 ? ` ${this.unit}` : i === next ? html`<i> ${this.unit}</i>` : nothing}</span>`}
          </div>`,
        )}
      </div>
      ${
        this.hatch
          ? html`<span class="key"><svg width="22" height="10" aria-hidden="true">
              <rect width="22" height="10" fill=${bands[Math.floor(bands.length / 2)].colour}></rect>
              ${renderHatch([[rectangle(0, 0, 22, 10)]])}</svg>spots below the target for the average</span>`
          : nothing
      }
    </div>`;
  }
}

define("candlespan-scale", CandlespanScale);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-scale": CandlespanScale;
  }
}
