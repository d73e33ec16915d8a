/** Keys that work everywhere on the page: undo, redo, print. */

import type { StudySession } from "../session.ts";

export function keyOnPage(desk: StudySession, event: KeyboardEvent): void {
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
