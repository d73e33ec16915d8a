import { css, html, nothing, type TemplateResult } from "lit";
import { property, query, state } from "lit/decorators.js";
import { FILE_LIMITS, megabytes } from "../../diagnostics/file-limits.ts";
import { formatIssue, type Outcome } from "../../diagnostics/issue.ts";
import { photometricFormats } from "../../photometry/format-names.ts";
import { PHOTOMETRIC_ENDINGS } from "../../photometry/photometric-formats.ts";
import type { Photometry } from "../../photometry/photometry.ts";
import { fieldStyles } from "../length-field/field.styles.ts";
import type { PhotometryChooseDetail } from "../shared/contract.ts";
import { define } from "../shared/define.ts";
import { CandlespanElement } from "../shared/element.ts";
import { tokens } from "../shared/tokens.ts";
import "../polar/polar.ts";

/** Reads a photometric file; handed in, so that the element carries no reader. */
export type ReadPhotometry = (
  bytes: Uint8Array,
  options: { readonly file: string },
) => Outcome<Photometry> | Promise<Outcome<Photometry>>;

/** Says what was read in one line; handed in like the reader. */
export type SayPhotometry = (file: string, photometry: Photometry) => string;

interface Given {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly outcome: Outcome<Photometry>;
}

/**
 * Takes photometric files dropped on it or chosen, says what each held in one line with its polar diagram, and
 * offers to use it.
 *
 * @tag candlespan-luminaire-picker
 * @fires photometry-choose - a file that was read is to be used ({@link PhotometryChooseDetail})
 * @csspart target - where files are dropped
 * @csspart file - what each file held
 */
export class CandlespanLuminairePicker extends CandlespanElement {
  static override styles = [
    tokens,
    fieldStyles,
    css`
      .target { border: 1px dashed var(--_quiet); border-radius: 3px; padding: 16px; text-align: center; }
      .target.over { border-style: solid; border-color: var(--_luminaire); background: var(--_sheet); }
      .target p { margin: 0 0 8px; }
      button {
        font: inherit; color: inherit; background: transparent; border: 1px solid var(--_quiet); border-radius: 3px;
        min-height: 44px; padding: 8px 16px; cursor: pointer;
      }
      ul { list-style: none; margin: 16px 0 0; padding: 0; }
      li { border-top: 1px solid var(--_hairline); padding: 12px 0; display: grid; gap: 8px; justify-items: start; }
      li p { margin: 0; overflow-wrap: anywhere; }
      .problem { color: var(--_short); }
      candlespan-polar { width: 100%; max-width: 320px; }
      input[type="file"] { display: none; }
    `,
  ];

  @property({ attribute: false }) read?: ReadPhotometry;
  @property({ attribute: false }) say?: SayPhotometry;
  /** Largest file taken (bytes). */
  @property({ type: Number }) largest: number = FILE_LIMITS.photometricText;

  @state() private given: readonly Given[] = [];
  @state() private isOver = false;
  @query("input[type=file]") private readonly chooser!: HTMLInputElement;

  override render(): TemplateResult {
    return html`<div
        class="target ${this.isOver ? "over" : ""}"
        part="target"
        @dragover=${(event: DragEvent) => {
          event.preventDefault();
          this.isOver = true;
        }}
        @dragleave=${() => {
          this.isOver = false;
        }}
        @drop=${(event: DragEvent) => {
          event.preventDefault();
          event.stopPropagation();
          this.isOver = false;
          void this.take([...(event.dataTransfer?.files ?? [])]);
        }}
      >
        <p>Drop a photometric file here: ${photometricFormats("or")}.</p>
        <button type="button" @click=${() => this.chooser.click()}>Choose files</button>
        <input
          type="file" multiple accept=${PHOTOMETRIC_ENDINGS.join()} tabindex="-1" aria-hidden="true"
          @change=${() => {
            void this.take([...(this.chooser.files ?? [])]);
            this.chooser.value = "";
          }}
        />
      </div>
      <div role="status"><ul>${this.given.map((given) => this.#file(given))}</ul></div>`;
  }

  #file({ file, bytes, outcome }: Given): TemplateResult {
    if (!outcome.ok)
      return html`<li part="file"><p class="problem">✕ ${outcome.issues.slice(0, 3).map((issue) => html`${formatIssue(issue)} `)}</p></li>`;
    const photometry = outcome.value;
    const line =
      this.say?.(file, photometry) ?? `It read ${file}: ${photometry.format} ${photometry.edition}.`;
    return html`<li part="file">
      <p>${line}</p>
      ${outcome.warnings.length === 0 ? nothing : html`<p class="note">${outcome.warnings.map((w) => html`${formatIssue(w)} `)}</p>`}
      <candlespan-polar .distribution=${photometry.distribution} .title=${file} .mode=${this.mode}></candlespan-polar>
      <button type="button" @click=${() => this.#choose({ file, bytes, photometry })}>Use ${file}</button>
    </li>`;
  }

  /** Reads files as if they had been dropped. */
  async take(files: readonly File[]): Promise<void> {
    for (const file of files.slice(0, 20)) {
      const outcome = await this.#readFile(file);
      this.given = [outcome, ...this.given.filter((g) => g.file !== outcome.file)].slice(0, 12);
    }
  }

  async #readFile(file: File): Promise<Given> {
    const refused = (message: string, expected: string, received: string): Given => ({
      file: file.name,
      bytes: new Uint8Array(),
      outcome: {
        ok: false,
        issues: [
          {
            code: "file-refused",
            severity: "error",
            message,
            expected,
            received,
            where: { file: file.name },
          },
        ],
      },
    });
    if (this.read === undefined)
      return refused("No reader was handed to this element.", "a read function", "none");
    if (file.size > this.largest)
      return refused(
        "The file is too large for a photometric file.",
        `at most ${megabytes(this.largest)}`,
        `${file.size}`,
      );
    const bytes = new Uint8Array(await file.arrayBuffer());
    return { file: file.name, bytes, outcome: await this.read(bytes, { file: file.name }) };
  }

  #choose(detail: PhotometryChooseDetail): void {
    this.dispatchEvent(new CustomEvent("photometry-choose", { detail, bubbles: true, composed: true }));
  }
}

define("candlespan-luminaire-picker", CandlespanLuminairePicker);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-luminaire-picker": CandlespanLuminairePicker;
  }
}
