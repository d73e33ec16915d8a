/** The foot of the page: the state of the light, the last line said, the caution. */

import { html, type TemplateResult } from "lit";
import type { StudySession } from "../session.ts";
import { stateWords } from "./state-words.ts";

export function footer(session: StudySession): TemplateResult {
  const { shown } = session.lighting;
  return html`<footer>
    <p class="light-state" title=${stateWords(session.lighting)} data-quality=${shown?.quality ?? "none"} data-sequence=${shown?.sequence ?? 0}>
      ${stateWords(session.lighting)}
    </p>
    <p role="status" aria-live="polite" class="line" title=${session.screen.line}>${session.screen.line}</p>
    <p class="caution">
      Night only; predictions with a band, not a guarantee. Wiring, supports, weight, heat: licensed people and local
      codes.
    </p>
  </footer>`;
}
