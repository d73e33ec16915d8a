/** Keys that work everywhere on the page: undo, redo, print; before a client, an option on its letter. */

import type { StudySession } from "../session.ts";

export function keyOnPage(desk: StudySession, event: KeyboardEvent): void {
  if (desk.screen.isForClient && keyForClient(desk, event)) {
    event.preventDefault();
    return;
  }
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const [field] = event.composedPath();
  const key = event.key.toLowerCase();
  // A field being typed in has an undo of its own.
  if (field instanceof HTMLInputElement && field.type === "text" && (key === "z" || key === "y")) return;
  if (key === "p") desk.printToScale();
  else if (key === "y" || (key === "z" && event.shiftKey)) desk.redo();
  else if (key === "z") desk.undo();
  else return;
  event.preventDefault();
}

/** A, B, C show an option; Escape ends the client's view. */
function keyForClient(desk: StudySession, { key, ctrlKey, metaKey, altKey }: KeyboardEvent): boolean {
  if (ctrlKey || metaKey || altKey) return false;
  if (key === "Escape") {
    desk.showClient(false);
    return true;
  }
  const option = "abcdefghijklmnopqrstuvwxyz".indexOf(key.toLowerCase());
  if (key.length !== 1 || option < 0 || option >= desk.study.arrangements.length) return false;
  if (option !== desk.arrangement) desk.showArrangement(option);
  return true;
}
