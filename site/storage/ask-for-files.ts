/** The browser's own dialog for files. Loaded after the first light: it knows every photometric format. */

import { PHOTOMETRIC_ENDINGS } from "../../src/app.ts";

export interface FilesAsked {
  /** Endings of names, as `accept` of a field for files takes them. */
  readonly accept?: readonly string[];
  readonly multiple?: boolean;
}

/** Asks for files: studies or photometry, unless others are asked for. */
export function askForFiles(
  take: (files: readonly File[]) => void,
  { accept = [".json", ...PHOTOMETRIC_ENDINGS], multiple = true }: FilesAsked = {},
): void {
  const input = document.createElement("input");
  input.type = "file";
  input.multiple = multiple;
  input.accept = accept.join();
  // In the page until it is answered: nothing else keeps it from being collected while the dialog is open.
  input.hidden = true;
  document.body.append(input);
  input.addEventListener("change", () => {
    input.remove();
    take([...(input.files ?? [])]);
  });
  input.addEventListener("cancel", () => input.remove());
  input.click();
}
