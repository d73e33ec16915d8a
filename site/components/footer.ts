/** The foot of the page: the state of the light, the last line said, the caution. */

import { html, type TemplateResult } from "lit";
import type { StudySession } from "../session.ts";
import { stateWords } from "./state-words.ts";

export function footer(session: StudySession): TemplateResult {
  const { shown } = session.lighting;
  const { line } = session.screen;
  const state = stateWords(session.lighting);
  return html`<footer>
    <p class="light-state" title=${state} data-quality=${shown?.quality ?? "none"} data-sequence=${shown?.sequence ?? 0}>
      ${line === "" ? state : state.replace(/^(Refined|Coarse): .*/, "$1.")}
    </p>
    <p role="status" aria-live="polite" class="line" title=${line} tabindex="-1">${line}</p>
    <p class="caution">
      Night only; predictions with a band, not a guarantee. Wiring, supports, weight, heat: licensed people and local
      codes.
    </p>
  </footer>`;
}
