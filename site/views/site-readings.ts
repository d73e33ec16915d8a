/** Readings on site: a list typed, pasted or chosen, held against the option on screen. */

import { html, nothing, type TemplateResult } from "lit";
import type { Issue } from "../../src/app.ts";
import type { Running, VerifyAnswer } from "../../src/workers/browser.ts";
import type { AppView } from "../app-view.ts";
import { lightText } from "../components/words.ts";

interface Verifying {
  text: string;
  meter: string;
  running?: Running<VerifyAnswer>;
  /** The study and the option the answer is about. */
  about?: { readonly document: unknown; readonly arrangement: number };
  answer?: VerifyAnswer;
  issues?: readonly Issue[];
}

const METERS: readonly (readonly [value: string, words: string])[] = [
  ["3", "within 3 %"],
  ["5", "within 5 %"],
  ["10", "within 10 %"],
  ["phone", "a phone: ratios alone"],
];

const EXAMPLE = "along,across,lx,lit\n0.3,0.5,420,pendants\n1.2,0.5,510,pendants\n2.1,0.5,430,pendants";

const states = new WeakMap<AppView["lighting"], Verifying>();

export function siteReadings(app: AppView): TemplateResult {
  const state = states.get(app.lighting) ?? { text: "", meter: "5" };
  states.set(app.lighting, state);
  const busy = state.running !== undefined;
  const current =
    state.about?.document === app.history.document && state.about.arrangement === app.arrangement;
  return html`<section class="part" aria-labelledby="readings-heading">
    <h2 id="readings-heading">Readings on site</h2>
    <details>
      <summary>Hold a meter’s readings against the prediction</summary>
      <p class="hint">
        One reading a line under a line of column names: <code>along</code> and <code>across</code> from the
        island’s corner, <code>lx</code> or <code>fc</code>, perhaps <code>lit</code>. Read at night; one layer lit
        at a time tells most.
      </p>
      <label>Readings
        <textarea
          rows="6"
          spellcheck="false"
          placeholder=${EXAMPLE}
          .value=${state.text}
          @input=${(event: Event) => {
            state.text = (event.target as HTMLTextAreaElement).value;
          }}
        ></textarea>
      </label>
      <p class="row-of-actions">
        <label>Meter
          <select
            @change=${(event: Event) => {
              state.meter = (event.target as HTMLSelectElement).value;
            }}
          >
            ${METERS.map(
              ([value, words]) =>
                html`<option value=${value} ?selected=${value === state.meter}>${words}</option>`,
            )}
          </select>
        </label>
        <label class="file">From a file
          <input
            type="file"
            accept=".csv,.txt,text/csv,text/plain"
            @change=${(event: Event) => void takeFile(app, state, event.target as HTMLInputElement)}
          />
        </label>
      </p>
      <p class="row-of-actions">
        <button type="button" ?disabled=${busy} @click=${() => start(app, state)}>Compare</button>
      </p>
      <p role="status">${stateWords(state, current)}</p>
      ${state.answer === undefined || !current ? nothing : found(app, state.answer)}
    </details>
  </section>`;
}

async function takeFile(app: AppView, state: Verifying, input: HTMLInputElement): Promise<void> {
  const [file] = input.files ?? [];
  if (file === undefined) return;
  if (file.size > 1_000_000) {
    app.say("That file is too large to be a list of readings.");
    return;
  }
  state.text = await file.text();
  app.redraw();
}

function start(app: AppView, state: Verifying): void {
  const { document } = app.history;
  const { arrangement } = app;
  const meter = state.meter === "phone" ? "phone" : Number(state.meter) / 100;
  const running = app.lighting.connection.call("verify", {
    document,
    arrangement,
    readings: state.text,
    meter,
  });
  state.running = running;
  state.about = { document, arrangement };
  state.answer = undefined;
  state.issues = undefined;
  app.redraw();
  running.outcome
    .then(
      (outcome) => {
        if (outcome.ok) state.answer = outcome.value;
        else state.issues = outcome.issues;
      },
      () => undefined,
    )
    .finally(() => {
      state.running = undefined;
      app.redraw();
    });
}

function stateWords({ running, issues, answer }: Verifying, current: boolean): string {
  if (running !== undefined) return "Comparing.";
  if (issues !== undefined)
    return issues
      .slice(0, 5)
      .map(({ message, expected, where }) => {
        const line = where.line === undefined ? "" : `Line ${where.line}: `;
        return `${line}${message}${expected === undefined ? "" : ` Expected ${expected}.`}`;
      })
      .join(" ");
  if (answer === undefined) return "";
  if (!current) return "The study has changed since; compare again.";
  return answer.agree === answer.compared.length
    ? `All ${answer.compared.length} readings agree with the prediction within what each may be off.`
    : `${answer.agree} of ${answer.compared.length} readings agree with the prediction within what each may be off.`;
}

function found(app: AppView, { compared, wrong, open, zones }: VerifyAnswer): TemplateResult {
  return html`
    <h3>What is wrong</h3>
    ${wrong.length === 0 ? html`<p>Nothing the readings point to.</p>` : wrong.map((words) => html`<p>${words}</p>`)}
    <h3>Zones, with what was learnt</h3>
    ${zones.map(
      ({ name, average, band, predicted, verdict }) => html`<p>
        ${name}: ${lightText(app, average)} (${lightText(app, band[0])} to ${lightText(app, band[1])}), predicted
        ${lightText(app, predicted)}; ${verdict}
      </p>`,
    )}
    ${open.length === 0 ? nothing : html`<h3>What stays open</h3>${open.map((words) => html`<p>${words}</p>`)}`}
    <details>
      <summary>Reading by reading</summary>
      <table>
        <thead>
          <tr><th scope="col">Line</th><th scope="col">Read</th><th scope="col">Predicted</th><th scope="col">May show</th><th scope="col"></th></tr>
        </thead>
        <tbody>
          ${compared.map(
            ({ line, read, predicted, band, agrees }) => html`<tr>
              <th scope="row">${line}</th>
              <td>${lightText(app, read)}</td>
              <td>${lightText(app, predicted)}</td>
              <td>${lightText(app, band[0])} to ${lightText(app, band[1])}</td>
              <td>${agrees ? "agrees" : "differs"}</td>
            </tr>`,
          )}
        </tbody>
      </table>
    </details>
  `;
}
