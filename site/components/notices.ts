/** What stands above the sheet when something given was not taken, or the study cannot be computed. */

import { html, nothing, type TemplateResult } from "lit";
import type { RawStudy } from "../edits/raw-study.ts";
import type { StudySession } from "../session.ts";
import { roomOffer } from "../views/kitchen/room-offer.ts";
import { issueList, MOST } from "./issue-list.ts";
import { refusedIssue } from "./issue-words.ts";

export function refusalPart(session: StudySession): TemplateResult | typeof nothing {
  const { refusal } = session.screen;
  if (refusal === undefined) return nothing;
  const { words, issues, heading = "Not opened", act, document } = refusal;
  // Of what was given, not of the study on screen.
  const app = { study: (document ?? {}) as RawStudy, display: session.display };
  const said = issues.slice(0, MOST).map((issue) => refusedIssue(issue, app));
  const located = said.filter(({ location }) => location !== "");
  return html`<section class="refusal" aria-label=${heading}>
    <p role="alert">✕ ${words}</p>
    <ul class="plain">
      ${said.map((each) => html`<li>${each.words}</li>`)}
      ${issues.length > MOST ? html`<li>And ${issues.length - MOST} more.</li>` : nothing}
    </ul>
    ${
      located.length === 0
        ? nothing
        : html`<details>
            <summary>Where in the file</summary>
            <ul class="plain">${located.map(({ location }) => html`<li><code>${location}</code></li>`)}</ul>
          </details>`
    }
    <p class="row-of-actions">
      ${act === undefined ? nothing : html`<button type="button" @click=${act[1]}>${act[0]}</button>`}
      <button type="button" @click=${() => session.screen.setRefusal(undefined)}>Dismiss</button>
    </p>
  </section>`;
}

export function issuesPart(session: StudySession): TemplateResult | typeof nothing {
  const { state } = session.lighting;
  if (state.kind !== "issues") return nothing;
  return html`<section class="refusal" aria-label="What is wrong in the study">
    <p>
      The study cannot be computed as it
      stands${session.light === undefined ? "." : "; the light shown is the last that could be."}
    </p>
    ${issueList(session, state.issues)}
    ${roomOffer(session)}
  </section>`;
}

/** Instead of a view's controls that cannot show the study, with the ways out. */
export function damagedPart(session: StudySession, error: unknown, showStudy: () => void): TemplateResult {
  const why = error instanceof Error ? error.message : String(error);
  return html`<section class="refusal part" role="alert">
    <p>✕ The study is damaged and cannot be edited here (${why}).</p>
    <p class="row-of-actions">
      <button type="button" ?disabled=${session.history.done.length === 0} @click=${() => session.undo()}>Undo the last change</button>
      <button type="button" @click=${showStudy}>Open another study</button>
    </p>
  </section>`;
}
