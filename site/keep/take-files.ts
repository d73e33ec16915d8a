/** Files given to the page, by drop or by choice: a study is opened, photometry is read and offered. */
import type { AppView } from "../app-view.ts";

export async function takeFiles(_app: AppView, _files: readonly File[]): Promise<void> {}
