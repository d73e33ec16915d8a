/** Readings as a list, pasted or read from a file. */

import { html, type TemplateResult } from "lit";
import { FILE_LIMITS, megabytes } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { typedValue } from "../../components/typed-value.ts";
import type { Verifying } from "./verifying.ts";

const EXAMPLE = "along,across,lx,lit\n0.3,0.5,420,pendants\n1.2,0.5,510,pendants\n2.1,0.5,430,pendants";

export function readingsList(app: AppView, state: Verifying, compare: () => void): TemplateResult {
  const file = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    void takeFile(app, state, input);
  };
  return html`<details>
    <summary>From a list</summary>
    <p class="hint">
      One reading a line under a line of column names: <code>along</code> and <code>across</code> from the island’s
      corner in metres or with their unit, <code>lx</code> or <code>fc</code>, perhaps <code>lit</code>.
    </p>
    <label class="field">Readings
      <textarea
        rows="6"
        spellcheck="false"
        placeholder=${EXAMPLE}
        .value=${typedValue(state.text)}
        @input=${(event: Event) => {
          state.text = (event.target as HTMLTextAreaElement).value;
        }}
      ></textarea>
    </label>
    <p class="row-of-actions">
      <button type="button" ?disabled=${state.running !== undefined} @click=${compare}>Compare the list</button>
      <label class="file button">
        Take from a file
        <input type="file" class="visually-hidden" accept=".csv,.txt,text/csv,text/plain" @change=${file}>
      </label>
    </p>
  </details>`;
}

async function takeFile(app: AppView, state: Verifying, input: HTMLInputElement): Promise<void> {
  const [file] = input.files ?? [];
  if (file === undefined) return;
  if (file.size > FILE_LIMITS.readings) {
    app.say(
      `That file is too large to be a list of readings: ${megabytes(file.size)}, at most ${megabytes(FILE_LIMITS.readings)}.`,
    );
    return;
  }
  state.text = await file.text();
  app.redraw();
}
