import { css, html, nothing, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import { type ShadeShape, shadeSilhouette } from "../../drawing/shade-silhouette.ts";
import { EVIDENCE } from "../../luminaire/evidence.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import { FINISH_NAMES } from "../../luminaire/shade/finishes.ts";
import { LAMP_FINISHES } from "../../luminaire/shade/lamp-finishes.ts";
import { LOWER_ENDS } from "../../luminaire/shade/shade-document.ts";
import { SHADE_FORMS, SHADE_PROFILES } from "../../luminaire/shade/shade-forms.ts";
import { metresOf } from "../../units/read-length.ts";
import { type Display, METRIC, wording } from "../../words/wording.ts";
import { fieldStyles } from "../length-field/field.styles.ts";
import type { Limits } from "../length-field/number-text.ts";
import type { FieldChangeDetail, StudyEditDetail } from "../shared/contract.ts";
import { define } from "../shared/define.ts";
import { CandlespanElement } from "../shared/element.ts";
import { renderMarks } from "../shared/marks.ts";
import { drawingStyles, tokens } from "../shared/tokens.ts";
import { valueAt } from "../study-fields/edit-path.ts";
import "../length-field/length-field.ts";
import "../polar/polar.ts";

/**
 * A luminaire from lamp and shade: its fields, its silhouette at once, and its polar diagram when the light has
 * been traced by the page.
 *
 * @tag candlespan-shade
 * @fires study-edit - one value of the luminaire changes ({@link StudyEditDetail})
 * @csspart silhouette - the shade from the side
 * @csspart input - the text field of a length or number
 * @csspart note - the interpretation or the problem of what is typed
 */
export class CandlespanShade extends CandlespanElement {
  static override styles = [
    tokens,
    drawingStyles,
    fieldStyles,
    css`
      .grid { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 180px), 1fr)); gap: 8px 16px; }
      .look { display: flex; flex-wrap: wrap; gap: 16px; align-items: flex-start; margin-bottom: 16px; }
      .look > * { flex: 1 1 220px; max-width: 340px; }
      p { margin: 4px 0 0; font-size: 13px; color: var(--_quiet); }
    `,
  ];

  /** The luminaire as the study writes it: `{ lamp, shade }`. */
  @property({ attribute: false }) document: unknown;
  /** Where it stands in the study, e.g. `/luminaires/globe`. */
  @property() path = "";
  /** The luminaire traced from it; the last one stays until the next is there. */
  @property({ attribute: false }) luminaire?: Luminaire;
  /** Fraction of a tracing under way. */
  @property({ type: Number }) progress?: number;
  @property({ attribute: false }) display: Display = METRIC;

  override render(): TemplateResult {
    const drawing = shadeSilhouette(this.#shape(), 300, wording(this.display));
    const { luminaire } = this;
    return html`<div class="look">
        <svg part="silhouette" viewBox="0 0 ${drawing.width} ${drawing.height}" role="img" aria-label=${drawing.summary}>
          ${renderMarks(drawing.marks)}
        </svg>
        <div role="status">
          ${
            luminaire === undefined
              ? html`<p>Its light is not traced yet.</p>`
              : html`<candlespan-polar .luminaire=${luminaire} .mode=${this.mode}></candlespan-polar>
                <p>${Math.round(luminaire.flux)} lm leave it; ${EVIDENCE[luminaire.evidence].words}.</p>`
          }
          ${this.progress === undefined ? nothing : html`<p>Tracing, ${Math.round(this.progress * 100)} %.</p>`}
        </div>
      </div>
      <div class="grid">
        ${this.#choice("/shade/profile", "Shade", SHADE_PROFILES)}
        ${this.#number("/shade/diameter", "Diameter", "length", { least: 0.02, most: 3 })}
        ${this.#number("/shade/height", "Height", "length", { least: 0.01, most: 2 })}
        ${this.#choice("/shade/finish", "Finish", FINISH_NAMES)}
        ${this.#choice("/shade/bottom", "Lower end", LOWER_ENDS)}
        ${this.#number("/lamp/flux", "Lamp flux (lm)", "number", { least: 1, most: 100_000 })}
        ${this.#number("/lamp/watts", "Lamp power (W)", "number", { least: 0.1, most: 2000 })}
        ${this.#choice("/lamp/finish", "Lamp", LAMP_FINISHES)}
        ${this.#number("/lamp/height", "Lamp above the lower rim", "length", { least: -1, most: 2 })}
      </div>`;
  }

  #shape(): ShadeShape {
    const at = (path: string): number | undefined => metresOf(valueAt(this.document, path));
    const profile = valueAt(this.document, "/shade/profile");
    const points = Array.isArray(profile)
      ? profile.flatMap((p): [number, number][] => {
          const [r, z] = Array.isArray(p) ? p.map(metresOf) : [];
          return r === undefined || z === undefined ? [] : [[r, z]];
        })
      : undefined;
    const isLinear = profile === "linear";
    const diameter = (isLinear ? at("/shade/length") : at("/shade/diameter")) ?? (isLinear ? 1.2 : 0.3);
    const form = Object.entries(SHADE_FORMS).find(([name]) => name === profile)?.[1];
    const height = at("/shade/height") ?? (isLinear ? 0.06 : diameter * (form?.heightShare ?? 0.6));
    const lamp =
      valueAt(this.document, "/lamp") === undefined || isLinear
        ? undefined
        : { height: at("/lamp/height") ?? height / 2, diameter: at("/lamp/diameter") ?? 0.06 };
    const topDiameter = at("/shade/topDiameter");
    return {
      profile: points ?? (typeof profile === "string" ? profile : "dome"),
      diameter,
      ...(topDiameter === undefined ? {} : { topDiameter }),
      height,
      lamp,
    };
  }

  #number(path: string, label: string, kind: "length" | "number", limits: Limits): TemplateResult {
    return html`<candlespan-length-field exportparts="input, note"
      .label=${label} .kind=${kind} .value=${metresOf(valueAt(this.document, path))}
      .least=${limits.least} .most=${limits.most} .display=${this.display} .mode=${this.mode}
      @field-change=${(event: CustomEvent<FieldChangeDetail>) => {
        event.stopPropagation();
        this.#edit(path, label, event.detail.value, event.detail.words);
      }}
    ></candlespan-length-field>`;
  }

  #choice(path: string, label: string, choices: readonly string[]): TemplateResult {
    const value = valueAt(this.document, path);
    const id = path.replaceAll("/", "-");
    return html`<div>
      <label for=${id}>${label}</label>
      <select id=${id} @change=${(event: Event) => {
        const chosen = (event.target as HTMLSelectElement).value;
        this.#edit(path, label, chosen === "" ? undefined : chosen, chosen);
      }}>
        <option value="" ?selected=${typeof value !== "string"}>${Array.isArray(value) ? "drawn by points" : "not said"}</option>
        ${choices.map((choice) => html`<option value=${choice} ?selected=${choice === value}>${choice}</option>`)}
      </select>
    </div>`;
  }

  #edit(path: string, label: string, value: unknown, words: string): void {
    const detail: StudyEditDetail = {
      path: this.path + path,
      value,
      name: `${label.replace(/ \(.*\)$/, "").toLowerCase()} ${words}`.trim(),
    };
    this.dispatchEvent(new CustomEvent("study-edit", { detail, bubbles: true, composed: true }));
  }
}

define("candlespan-shade", CandlespanShade);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-shade": CandlespanShade;
  }
}
