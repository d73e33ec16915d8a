/** Photometric files given to the page and not yet used: what they were read as, and their bytes. */

import type { FileReading } from "../../src/workers/browser.ts";
import type { LayerPlace } from "../edits/study-luminaires.ts";

/** Where files were given: at the button of the luminaires, at the layer where one is to hang, or anywhere on the page. */
export type GivenAt = "list" | "page" | LayerPlace;

export class GivenFiles {
  at: GivenAt = "page";
  /** Newest first. */
  readings: readonly FileReading[] = [];
  readonly #contents = new Map<string, Uint8Array>();

  add(readings: readonly FileReading[], contents: ReadonlyMap<string, Uint8Array>): void {
    for (const [path, bytes] of contents) this.#contents.set(path, bytes);
    this.readings = [...readings, ...this.readings];
  }

  contentOf(path: string): Uint8Array | undefined {
    return this.#contents.get(path);
  }

  dismiss(path: string): void {
    this.readings = this.readings.filter((reading) => reading.path !== path);
    this.#contents.delete(path);
  }

  clear(): void {
    this.readings = [];
    this.#contents.clear();
  }
}
