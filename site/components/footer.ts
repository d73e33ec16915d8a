/** The foot of the page: the state of the light, the last line said, the caution. */

import { html, type TemplateResult } from "lit";
import type { StudySession } from "../session.ts";
import { stateWords } from "./state-words.ts";

export function footer(desk: StudySession): TemplateResult {
  const { shown } = desk.lighting;
  return html`<footer>
    <p class="light-state" data-quality=${shown?.quality ?? "none"} data-sequence=${shown?.sequence ?? 0}>
      ${stateWords(desk.lighting)}
    </p>
    <p role="status" aria-live="polite" class="line">${desk.screen.line}</p>
    <p class="caution">
      Predictions with a band, not a guarantee; night only. Wiring, box support, weight, heat and hanging glass:
      licensed people and local codes decide.
    </p>
  </footer>`;
}
