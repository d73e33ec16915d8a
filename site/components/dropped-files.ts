/** Files dropped anywhere on the page. */

import type { StudySession } from "../session.ts";

/** Takes what is dropped from now on. @param app shows while files are held over the page */
export function takeDrops(app: { readonly session: StudySession; dropping: boolean }): void {
  let over = 0;
  const carriesFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") === true;
  addEventListener("dragenter", (event) => {
    if (!carriesFiles(event)) return;
    over++;
    app.dropping = true;
  });
  addEventListener("dragleave", (event) => {
    if (!carriesFiles(event)) return;
    over--;
    if (over <= 0) app.dropping = false;
  });
  addEventListener("dragover", (event) => {
    if (carriesFiles(event)) event.preventDefault();
  });
  addEventListener("drop", (event) => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    over = 0;
    app.dropping = false;
    app.session.takeFiles([...(event.dataTransfer?.files ?? [])]);
  });
}
