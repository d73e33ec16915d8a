/** The browser's own dialog for files. Loaded after the first light: it knows every photometric format. */

import { PHOTOMETRIC_ENDINGS } from "../../src/app.ts";

/** Asks for files: studies or photometry. */
export function askForFiles(take: (files: readonly File[]) => void): void {
  const input = document.createElement("input");
  input.type = "file";
  input.multiple = true;
  input.accept = [".json", ...PHOTOMETRIC_ENDINGS].join();
  input.addEventListener("change", () => take([...(input.files ?? [])]));
  input.click();
}
