/** What stands where the answer of a task will be: that it is awaited, its failure with the way out, or the answer. */

import { html, type TemplateResult } from "lit";
import type { TaskState } from "../light/worker-task.ts";
import { type IssueView, issueWords } from "./issue-words.ts";

interface Task<T> {
  readonly state: TaskState<T>;
  retry(): void;
}

export function taskPart<T>(
  app: IssueView,
  task: Task<T> | undefined,
  waiting: string,
  complete: (value: T) => TemplateResult,
): TemplateResult {
  const state = task?.state;
  if (state?.status === "complete") return complete(state.value);
  if (state?.status !== "error") return html`<p class="hint" role="status">${waiting}</p>`;
  return html`<div class="refusal" role="alert">
    <p>✕ This could not be computed.</p>
    <ul class="plain">${state.issues.map((issue) => html`<li>${issueWords(issue, app)}</li>`)}</ul>
    <p class="row-of-actions"><button type="button" @click=${() => task?.retry()}>Try again</button></p>
  </div>`;
}
