import { css, html, LitElement, svg, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import { scaleBands, scaleSteps } from "../../scale.ts";
import { define } from "../shared/define.ts";
import { tokens } from "../shared/tokens.ts";

/**
 * The steps of the one scale light is drawn on, with their figures.
 *
 * @tag candlespan-scale
 */
export class CandlespanScale extends LitElement {
  static override styles = [
    tokens,
    css`
      svg { display: block; width: 100%; height: auto; overflow: visible; forced-color-adjust: none; }
      text { font-size: 11px; fill: var(--_quiet); font-family: inherit; font-variant-numeric: tabular-nums; }
    `,
  ];

  @property() unit: "lx" | "fc" = "lx";
  /** Shows the hatch that marks what lies below target. */
  @property({ type: Boolean }) hatch = false;
  /** `day` or `evening`; follows the page's color-scheme when absent. */
  @property({ reflect: true }) mode?: "day" | "evening";

  override render(): TemplateResult {
    const steps = scaleSteps(this.unit).filter((s) => s.level <= (this.unit === "fc" ? 1090 : 1000));
    const bands = scaleBands(this.unit).slice(0, steps.length + 1);
    const cell = 30;
    const width = cell * bands.length;
    const label = `Scale of the light, ${this.unit}: steps at ${steps.map((s) => s.label).join(", ")}${this.hatch ? "; hatched where it lies below target" : ""}.`;
    return html`<svg viewBox="0 0 ${width + (this.hatch ? 128 : 24)} 30" role="img" aria-label=${label}>
      <defs><pattern id="h" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path d="M0 0V7" stroke="#1b1a16" stroke-width="1.6" opacity="0.75"></path>
        <path d="M1.3 0V7" stroke="#fdf8ec" stroke-width="0.8" opacity="0.65"></path></pattern></defs>
      ${bands.map((band, i) => svg`<rect x=${i * cell} y="1" width=${cell + 0.5} height="10" fill=${band.colour}></rect>`)}
      ${steps.map((step, i) => svg`<path d="M${(i + 1) * cell} 11v4" stroke="var(--_quiet)" stroke-width="0.75"></path><text x=${(i + 1) * cell} y="26" text-anchor="middle">${step.label}</text>`)}
      <text x=${width + 2} y="26">${this.unit}</text>
      ${
        this.hatch
          ? svg`<rect x=${width + 26} y="1" width="24" height="10" fill=${bands[Math.floor(bands.length / 2)].colour}></rect><rect x=${width + 26} y="1" width="24" height="10" fill="url(#h)"></rect><text x=${width + 56} y="10">below target</text>`
          : ""
      }
    </svg>`;
  }
}

define("candlespan-scale", CandlespanScale);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-scale": CandlespanScale;
  }
}
