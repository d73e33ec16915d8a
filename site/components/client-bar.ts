/** Over the sheet that a client looks at: the kitchen, its options by letter, and the way back. */

import { html, type TemplateResult } from "lit";
import { arrangementLetters } from "../../src/app.ts";
import type { StudySession } from "../session.ts";

export function clientBar(session: StudySession): TemplateResult {
  const { arrangements, title } = session.study;
  const letters = arrangementLetters(arrangements);
  return html`<header class="client-bar">
    <h1>${title ?? "Untitled kitchen"}</h1>
    <div class="row-of-actions" role="group" aria-label="Option on screen">
      ${arrangements.map(
        ({ name }, index) => html`<button
          type="button"
          aria-pressed=${index === session.arrangement ? "true" : "false"}
          @click=${() => session.showArrangement(index)}
        >${letters[index]} ${name}</button>`,
      )}
    </div>
    <button type="button" class="text" @click=${() => session.showClient(false)}>End<span class="by-key"> (Esc)</span></button>
  </header>`;
}
