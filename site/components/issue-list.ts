/** What is wrong, each with its field as a link. */

import { html, nothing, type TemplateResult } from "lit";
import type { Issue } from "../../src/app.ts";
import type { StudySession } from "../session.ts";
import type { Path } from "../store/pointer.ts";
import { idOf } from "./field-id.ts";
import { saidIssues } from "./issue-words.ts";

/** No more are listed at once. */
export const MOST = 8;

export function issueList(session: StudySession, issues: readonly Issue[]): TemplateResult {
  const said = saidIssues(issues, session);
  return html`<ul class="plain problems">
    ${said.slice(0, MOST).map(({ place, words, path }) => html`<li>✕ ${link(session, place, path)}${words}</li>`)}
    ${said.length > MOST ? html`<li>And ${said.length - MOST} more.</li>` : nothing}
  </ul>`;
}

function link(session: StudySession, place: string, path: Path | undefined): TemplateResult | string {
  if (place === "" || path === undefined) return place === "" ? "" : `${place}: `;
  const show = (event: Event): void => {
    event.preventDefault();
    session.showField(path);
  };
  return html`<a href="#${idOf(path)}" @click=${show}>${place}</a>: `;
}
