/** The foot of the page: the state of the light, the last line said, the caution. */

import { html, type TemplateResult } from "lit";
import type { StudySession } from "../session.ts";
import { stateWords } from "./state-words.ts";

export function footer(desk: StudySession): TemplateResult {
  const { shown } = desk.lighting;
  return html`<footer>
    <p class="light-state" title=${stateWords(desk.lighting)} data-quality=${shown?.quality ?? "none"} data-sequence=${shown?.sequence ?? 0}>
      ${stateWords(desk.lighting)}
    </p>
    <p role="status" aria-live="polite" class="line" title=${desk.screen.line}>${desk.screen.line}</p>
    <p class="caution">
      Night only; predictions with a band, not a guarantee. Wiring, supports, weight, heat: licensed people and local
      codes.
    </p>
  </footer>`;
}
