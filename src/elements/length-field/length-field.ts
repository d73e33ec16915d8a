import { html, LitElement, type PropertyValues, type TemplateResult } from "lit";
import { property, query, state } from "lit/decorators.js";
import { formatIlluminance } from "../../units/illuminance-text.ts";
import { formatLength } from "../../units/length-text.ts";
import { type Display, METRIC } from "../../words/wording.ts";
import type { FieldChangeDetail } from "../shared/contract.ts";
import { define } from "../shared/define.ts";
import { CandlespanElement } from "../shared/element.ts";
import { tokens } from "../shared/tokens.ts";
import { fieldStyles } from "./field.styles.ts";
import { type FieldReading, illuminanceFromText, lengthFromText, numberFromText } from "./number-text.ts";

/**
 * A field for a length, an illuminance or a number, typed in any unit; says how it was read, or what was expected
 * and found, and changes nothing until what was typed can be read.
 *
 * @tag candlespan-length-field
 * @fires field-change - a value was entered ({@link FieldChangeDetail}); SI, lx, or the plain number
 * @csspart input - the text field
 * @csspart note - the interpretation or the problem
 */
export class CandlespanLengthField extends CandlespanElement {
  static override styles = [tokens, fieldStyles];
  static override shadowRootOptions: ShadowRootInit = {
    ...LitElement.shadowRootOptions,
    delegatesFocus: true,
  };

  @property() label = "";
  @property() kind: "length" | "illuminance" | "number" | "fraction" | "count" = "length";
  /** The value: metres, lux, or the plain number. */
  @property({ type: Number }) value?: number;
  @property({ type: Number }) least?: number;
  @property({ type: Number }) most?: number;
  @property({ attribute: false }) display: Display = METRIC;
  /** Says that the value was not given and stands in by default. */
  @property() why = "";

  @state() private draft?: string;
  /** What stood there when the focus came: nothing is replaced under it until it is entered or left. */
  @state() private held?: string;
  @query("input") private readonly input!: HTMLInputElement;

  protected override willUpdate(changed: PropertyValues<this>): void {
    // A value from outside replaces what could not be read, never what is being typed.
    if (changed.has("value") && this.input !== null && this.renderRoot.querySelector(":focus") === null)
      this.draft = undefined;
  }

  override render(): TemplateResult {
    const reading = this.draft === undefined ? undefined : this.#read(this.draft);
    const isWrong = reading !== undefined && !reading.ok;
    const note = isWrong ? reading.problem : reading?.ok ? reading.said : this.why;
    return html`<label for="field">${this.label}</label>
      <input
        id="field" part="input" type="text" inputmode=${this.kind === "length" ? "text" : "decimal"} autocomplete="off" spellcheck="false"
        .value=${this.draft ?? this.held ?? this.#written()}
        aria-invalid=${isWrong ? "true" : "false"}
        aria-describedby="note"
        @input=${() => {
          this.draft = this.input.value;
        }}
        @change=${this.#commit}
        @focus=${() => {
          this.held = this.#written();
        }}
        @blur=${() => {
          this.held = undefined;
        }}
        @keydown=${this.#key}
      />
      <p id="note" part="note" class="note ${isWrong ? "problem" : ""}" aria-live="polite">${isWrong ? "✕ " : ""}${note}</p>`;
  }

  #written(): string {
    const { value } = this;
    if (value === undefined || Number.isNaN(value)) return "";
    if (this.kind === "length") return formatLength(value, this.display.length);
    if (this.kind === "illuminance") return formatIlluminance(value, this.display.illuminance);
    return this.kind === "fraction" ? `${Math.round(value * 1000) / 10} %` : `${value}`;
  }

  #read(text: string): FieldReading {
    const limits = { least: this.least, most: this.most };
    if (this.kind === "length") return lengthFromText(text, this.display.length, limits, this.value);
    if (this.kind === "illuminance") return illuminanceFromText(text, this.display.illuminance, limits);
    return numberFromText(text, this.kind, limits);
  }

  readonly #commit = (): void => {
    // What stands there is rounded for reading; leaving it alone must not round the value behind it.
    if (this.input.value === (this.held ?? this.#written())) {
      this.draft = undefined;
      return;
    }
    const reading = this.#read(this.input.value);
    if (!reading.ok) {
      this.draft = this.input.value;
      return;
    }
    this.draft = undefined;
    this.held = undefined;
    if (reading.value === this.value) return;
    this.value = reading.value;
    this.dispatchEvent(
      new CustomEvent<FieldChangeDetail>("field-change", {
        detail: { value: reading.value, words: this.#written() },
        bubbles: true,
        composed: true,
      }),
    );
  };

  readonly #key = (event: KeyboardEvent): void => {
    if (event.key === "Enter") this.#commit();
    if (event.key !== "Escape" || this.draft === undefined) return;
    // Escape undoes what the hand is doing here, and nothing around it.
    event.stopPropagation();
    this.draft = undefined;
    this.held = undefined;
    this.input.value = this.#written();
  };
}

define("candlespan-length-field", CandlespanLengthField);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-length-field": CandlespanLengthField;
  }
}
