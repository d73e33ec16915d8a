/** What readings say: whether they agree, what is wrong, what was learnt of each zone. */

import { html, nothing, type TemplateResult } from "lit";
import { ref } from "lit/directives/ref.js";
import type { VerifyAnswer } from "../../../src/workers/browser.ts";
import type { AppView } from "../../app-view.ts";
import { reveal } from "../../components/reveal.ts";
import { lightText } from "../../components/words.ts";
import type { Verifying } from "./verifying.ts";

export function verifiedPart(app: AppView, state: Verifying): TemplateResult {
  const { about, answer } = state;
  const isCurrent =
    about?.document === app.history.document &&
    about?.arrangement === app.arrangement &&
    about?.age === state.readings.age;
  return html`
    <p role="status">${stateWords(state, isCurrent)}</p>
    ${answer === undefined || !isCurrent ? nothing : html`<div ${ref(reveal)}>${found(app, answer)}</div>`}
  `;
}

function stateWords({ running, issues, answer }: Verifying, isCurrent: boolean): string {
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
  if (!isCurrent) return "Something has changed since; compare again.";
  return answer.agreement;
}

function found(app: AppView, { compared, wrong, open, zones }: VerifyAnswer): TemplateResult {
  return html`
    <h3>What is wrong</h3>
    ${wrong.length === 0 ? html`<p>Nothing the readings point to.</p>` : wrong.map((words) => html`<p>${words}</p>`)}
    <h3>Zones once aged, with what was learnt</h3>
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
          <tr><th scope="col">No.</th><th scope="col">Read</th><th scope="col">Predicted</th><th scope="col">May show</th><th scope="col"></th></tr>
        </thead>
        <tbody>
          ${compared.map(
            ({ line, read, predicted, band, agrees }) => html`<tr>
              <th scope="row">${line - 1}</th>
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
