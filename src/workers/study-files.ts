/**
 * The files of a study and what was made of them: the photometry of a file by its path, lamp set and flux until the
 * file is replaced; a luminaire by its part of the document and its photometry, so that a pendant that moved is
 * still the same luminaire to the engine, which keeps its tables by luminaire.
 */

import { failure, type Outcome, success } from "../diagnostics/issue.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { Photometry } from "../photometry/photometry.ts";
import type { ReadOptions } from "../photometry/readers/read-options.ts";
import { isLm63, readTextPhotometry } from "../photometry/readers/read-text-photometry.ts";
import { photometryPaths } from "../study/photometry-paths.ts";
import type { StudyDocument } from "../study/study.ts";
import type { StudyFile } from "./protocol.ts";

interface KnownLuminaire {
  readonly text: string;
  readonly photometry: Outcome<Photometry> | undefined;
  readonly luminaire: Luminaire;
}

/** The files of a study and what was made of them. */
export class Files {
  readonly #bytes = new Map<string, Uint8Array>();
  readonly #read = new Map<string, Outcome<Photometry>>();
  readonly #luminaires = new Map<string, KnownLuminaire>();
  #reader: (bytes: Uint8Array, options: ReadOptions) => Outcome<Photometry> = readTextPhotometry;

  /** Takes all files of a study in place of those before; what was read of a file that stays is kept. */
  replace(files: readonly StudyFile[]): void {
    const before = new Map(this.#bytes);
    this.#bytes.clear();
    for (const { path, content } of files) this.#bytes.set(path, content);
    for (const key of [...this.#read.keys()]) {
      const path = key.slice(0, key.indexOf("\n"));
      if (!sameBytes(before.get(path), this.#bytes.get(path))) this.#read.delete(key);
    }
  }

  /** To be awaited before files are read: readers of other formats than LM-63 load with the first that needs them. */
  async ready(paths: readonly string[]): Promise<void> {
    if (this.#reader !== readTextPhotometry) return;
    const isOther = (path: string): boolean => {
      const bytes = this.#bytes.get(path);
      return bytes !== undefined && !isLm63(bytes, path);
    };
    if (paths.some(isOther))
      this.#reader = (await import("../photometry/readers/read-photometry.ts")).readPhotometry;
  }

  /** The photometry of a file that is {@link ready}, read once for each way of reading it. */
  photometry(path: string, options: { lampSet?: number; flux?: number } = {}): Outcome<Photometry> {
    const key = `${path}\n${options.lampSet ?? ""}\n${options.flux ?? ""}`;
    const known = this.#read.get(key);
    if (known !== undefined) return known;
    const bytes = this.#bytes.get(path);
    const outcome =
      bytes === undefined
        ? failure<Photometry>({
            code: "file-missing",
            severity: "error",
            message: "The study names a file that is not with it.",
            expected: "the file, dropped onto the page or carried in the study",
            received: JSON.stringify(path),
            where: { file: path },
          })
        : this.#reader(bytes, {
            file: path,
            ...options,
            tilt: (name) => this.#beside(path, name),
          });
    // A missing file may come yet.
    if (bytes !== undefined) this.#read.set(key, outcome);
    return outcome;
  }

  /** The luminaire made earlier from the same document and photometry, else the one just made. */
  same(made: Luminaire, document: unknown, photometry: Outcome<Photometry> | undefined): Luminaire {
    const text = JSON.stringify(document);
    const known = this.#luminaires.get(made.name);
    if (known !== undefined && known.text === text && known.photometry === photometry) return known.luminaire;
    this.#luminaires.set(made.name, { text, photometry, luminaire: made });
    return made;
  }

  /** A file named by another, in the same folder. */
  #beside(path: string, name: string): Outcome<Uint8Array> {
    const bytes = this.#bytes.get(path.replace(/[^/]*$/, "") + name);
    if (bytes !== undefined) return success(bytes);
    return failure({
      code: "file-missing",
      severity: "error",
      message: "The file names another that is not with it.",
      received: JSON.stringify(name),
      where: { file: path },
    });
  }
}

function sameBytes(a: Uint8Array | undefined, b: Uint8Array | undefined): boolean {
  return a !== undefined && a.length === b?.length && a.every((byte, i) => byte === b[i]);
}

/** Each luminaire's photometry by its name, read with its own lamp set and flux. */
export function photometryOf(
  study: StudyDocument,
  files: Files,
): (luminaire: string) => Outcome<Photometry> | undefined {
  const paths = new Map(photometryPaths(study).map((each) => [each.luminaire, each]));
  return (luminaire) => {
    const named = paths.get(luminaire);
    if (named === undefined) return undefined;
    const flux = study.luminaires?.[luminaire]?.flux;
    const { lampSet } = named;
    return files.photometry(named.path, {
      ...(lampSet === undefined ? {} : { lampSet }),
      ...(flux === undefined ? {} : { flux }),
    });
  };
}
