import { css, html, nothing, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import type { DefaultUsed } from "../../diagnostics/ledger.ts";
import { metresOf } from "../../units/read-length.ts";
import { type Display, METRIC } from "../../words/wording.ts";
import { fieldStyles } from "../length-field/field.styles.ts";
import type { FieldChangeDetail, StudyEditDetail } from "../shared/contract.ts";
import { define } from "../shared/define.ts";
import { CandlespanElement } from "../shared/element.ts";
import { tokens } from "../shared/tokens.ts";
import { valueAt } from "./edit-path.ts";
import { editName, type FieldGroup, fieldsOf, type StudyField, type StudyPart } from "./field-list.ts";
import "../length-field/length-field.ts";

/**
 * Fields of one part of a study: room, island, people or zones. Typed in any unit; every default that stands in
 * is marked as one.
 *
 * @tag candlespan-study-fields
 * @fires study-edit - one value of the study document changes ({@link StudyEditDetail})
 * @csspart group - the fields of one room, person or zone
 * @csspart input - the text field of a length or number
 * @csspart note - the interpretation or the problem of what is typed
 */
export class CandlespanStudyFields extends CandlespanElement {
  static override styles = [
    tokens,
    fieldStyles,
    css`
      fieldset { border: 0; margin: 0 0 16px; padding: 0; min-width: 0; }
      legend { font-weight: 600; padding: 0; margin-bottom: 8px; }
      .grid { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 200px), 1fr)); gap: 8px 16px; }
    `,
  ];

  @property() about: StudyPart = "room";
  /** The study document as written, before defaults. */
  @property({ attribute: false }) document: unknown;
  /** Defaults that stood in when it was resolved. */
  @property({ attribute: false }) defaults: readonly DefaultUsed[] = [];
  /** Identifiers of targets a zone may ask for. */
  @property({ attribute: false }) targets: readonly string[] = [];
  @property({ attribute: false }) display: Display = METRIC;

  override render(): TemplateResult {
    const groups = fieldsOf(this.about, this.document, this.targets);
    if (groups.length === 0) return html`<p class="note">None yet.</p>`;
    return html`${groups.map(
      (group) => html`<fieldset part="group">
        <legend>${group.name}</legend>
        <div class="grid">${group.fields.map((field) => this.#field(group, field))}</div>
      </fieldset>`,
    )}`;
  }

  #field(group: FieldGroup, field: StudyField): TemplateResult {
    const written = valueAt(this.document, field.path);
    const stoodIn = this.defaults.find((d) => d.path === field.path);
    const value = written ?? stoodIn?.value;
    const why = written === undefined && stoodIn !== undefined ? `default: ${stoodIn.why}` : "";
    if (field.kind === "choice" || field.kind === "text") return this.#words(group, field, value, why);
    return html`<candlespan-length-field exportparts="input, note"
      .label=${field.label}
      .kind=${field.kind}
      .value=${metresOf(value)}
      .least=${field.limits?.least}
      .most=${field.limits?.most}
      .display=${this.display}
      .why=${Array.isArray(value) ? "one value each; a single one replaces them" : why}
      .mode=${this.mode}
      @field-change=${(event: CustomEvent<FieldChangeDetail>) => {
        event.stopPropagation();
        this.#edit(group, field, event.detail.value, event.detail.words);
      }}
    ></candlespan-length-field>`;
  }

  #words(group: FieldGroup, field: StudyField, value: unknown, why: string): TemplateResult {
    const id = field.path.replaceAll("/", "-");
    const change = (event: Event): void => {
      const { value: text } = event.target as HTMLInputElement | HTMLSelectElement;
      this.#edit(group, field, text === "" ? undefined : text, text);
    };
    const choices = field.choices ?? [];
    const offered = typeof value !== "string" || choices.includes(value) ? choices : [value, ...choices];
    return html`<div>
      <label for=${id}>${field.label}</label>
      ${
        field.kind === "choice"
          ? html`<select id=${id} @change=${change} aria-describedby=${why === "" ? nothing : `${id}-why`}>
              ${value === undefined ? html`<option value="" selected>not said</option>` : nothing}
              ${offered.map((choice) => html`<option value=${choice} ?selected=${choice === value}>${choice}</option>`)}
            </select>`
          : html`<input id=${id} type="text" maxlength="80" .value=${typeof value === "string" ? value : ""} @change=${change} />`
      }
      <p class="note" id=${`${id}-why`}>${why}</p>
    </div>`;
  }

  #edit(group: FieldGroup, field: StudyField, value: unknown, words: string): void {
    const detail: StudyEditDetail = { path: field.path, value, name: editName(group, field, words) };
    this.dispatchEvent(new CustomEvent("study-edit", { detail, bubbles: true, composed: true }));
  }
}

define("candlespan-study-fields", CandlespanStudyFields);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-study-fields": CandlespanStudyFields;
  }
}
