/** Keys that work everywhere on the page: undo, redo, print; before a client, an option on its letter. */

import { arrangementLetters } from "../../src/app.ts";
import type { StudySession } from "../session.ts";

export function keyOnPage(session: StudySession, event: KeyboardEvent): void {
  if (session.screen.isForClient && keyForClient(session, event)) {
    event.preventDefault();
    return;
  }
  if (event.key === "Escape" && isFreeForEscape(session, event)) session.select([]);
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const [field] = event.composedPath();
  const key = event.key.toLowerCase();
  // A field being typed in has an undo of its own.
  if (field instanceof HTMLInputElement && field.type === "text" && (key === "z" || key === "y")) return;
  if (key === "p") session.printToScale();
  else if (key === "y" || (key === "z" && event.shiftKey)) session.redo();
  else if (key === "z") session.undo();
  else return;
  event.preventDefault();
}

/** Whether Escape ends nothing else: no dialog, no list, no text being typed, no luminaire in the hand. */
function isFreeForEscape({ selection }: StudySession, event: KeyboardEvent): boolean {
  const [at] = event.composedPath();
  const isTyping = at instanceof HTMLInputElement || at instanceof HTMLSelectElement;
  return selection.length > 0 && !isTyping && document.querySelector("dialog[open]") === null;
}

/** A, B, C show an option; Escape ends the client's view. */
function keyForClient(session: StudySession, { key, ctrlKey, metaKey, altKey }: KeyboardEvent): boolean {
  if (ctrlKey || metaKey || altKey) return false;
  if (key === "Escape") {
    session.showClient(false);
    return true;
  }
  const option = arrangementLetters(session.study.arrangements).indexOf(key.toUpperCase());
  if (option < 0) return false;
  if (option !== session.arrangement) session.showArrangement(option);
  return true;
}
