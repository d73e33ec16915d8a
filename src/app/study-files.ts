/**
 * The files of a study and what was made of them: the photometry of a file by its path, lamp set and flux while its
 * bytes, and those of the tilt file it names, stay the same; a luminaire by its part of the document and its photometry, so that a pendant that moved is
 * still the same luminaire to the engine, which keeps its tables by luminaire. Kept is what the study names, and the
 * latest {@link KEEP} readings beside.
 */

import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { Photometry } from "../photometry/photometry.ts";
import type { PhotometryReader } from "../photometry/readers/checked-text.ts";
import type { ReadOptions } from "../photometry/readers/read-options.ts";
import { readerFor } from "../photometry/readers/reader-for.ts";
import { type PhotometryPath, photometryPaths } from "../study/photometry-paths.ts";
import type { StudyDocument } from "../study/study-schema.ts";

/** A file the study names, by its path in the study. */
export interface StudyFile {
  readonly path: string;
  readonly content: Uint8Array;
}

/** The bytes of a file by its path relative to the study's folder, or why there are none. May answer later; may throw. */
export type ReadFile = (
  path: string,
) => Outcome<Uint8Array> | Uint8Array | Promise<Outcome<Uint8Array> | Uint8Array>;

interface KnownPhotometry {
  readonly bytes: Uint8Array;
  /** The file that TILT= names, by its path. */
  readonly tilt?: { readonly path: string; readonly bytes: Uint8Array };
  readonly photometry: Outcome<Photometry>;
}

interface KnownLuminaire {
  readonly text: string;
  readonly photometry: Outcome<Photometry> | undefined;
  readonly luminaire: Luminaire;
}

/** A flux that is dragged leaves a reading of the whole file at every step. */
const KEEP = 4;

export class StudyFiles {
  readonly #bytes = new Map<string, Outcome<Uint8Array>>();
  readonly #read = new Map<string, KnownPhotometry>();
  readonly #luminaires = new Map<string, KnownLuminaire>();

  /** Takes all files of a study in place of those before; what was read of a file that stays is kept. */
  replace(files: readonly StudyFile[]): void {
    this.#bytes.clear();
    for (const { path, content } of files) this.#bytes.set(path, success(content));
  }

  /** The photometry of every luminaire that names a file: carried inside the study, handed over, or from `read`.
   * @param file names the study in issues */
  async photometry(
    document: StudyDocument,
    readFile?: ReadFile,
    file?: string,
  ): Promise<ReadonlyMap<string, Outcome<Photometry>>> {
    const all = new Map<string, Outcome<Photometry>>();
    const paths = photometryPaths(document);
    for (const named of paths)
      all.set(named.luminaire, await this.#photometryOf(document, named, readFile, file));
    const keys = new Set(paths.map((named) => keyOf(document, named)));
    for (const key of this.#read.keys())
      if (!keys.has(key) && this.#read.size > keys.size + KEEP) this.#read.delete(key);
    for (const name of this.#luminaires.keys())
      if (document.luminaires?.[name] === undefined) this.#luminaires.delete(name);
    return all;
  }

  /** The luminaire made earlier from the same document and photometry, else the one just made. */
  same(made: Luminaire, document: unknown, photometry: Outcome<Photometry> | undefined): Luminaire {
    // Where its light comes from is told in the unit that the study shows.
    const text = JSON.stringify([document, made.origin]);
    const earlier = this.#luminaires.get(made.name);
    if (earlier?.text === text && earlier.photometry === photometry) return earlier.luminaire;
    this.#luminaires.set(made.name, { text, photometry, luminaire: made });
    return made;
  }

  async #photometryOf(
    document: StudyDocument,
    named: PhotometryPath,
    readFile: ReadFile | undefined,
    file: string | undefined,
  ): Promise<Outcome<Photometry>> {
    const { luminaire, path, where, lampSet } = named;
    const bytes = await this.#bytesOf(document, path, readFile);
    if (!bytes.ok)
      return readFile === undefined
        ? bytes
        : placed(bytes, { ...(file === undefined ? {} : { file }), path: where });
    const flux = document.luminaires?.[luminaire]?.flux;
    const key = keyOf(document, named);
    const earlier = this.#read.get(key);
    if (earlier !== undefined && sameBytes(earlier.bytes, bytes.value)) {
      const tilt =
        earlier.tilt === undefined ? undefined : await this.#bytesOf(document, earlier.tilt.path, readFile);
      if (tilt === undefined || (tilt.ok && sameBytes(tilt.value, earlier.tilt!.bytes)))
        return earlier.photometry;
    }
    const reader = await readerFor(bytes.value, path);
    const options = {
      file: path,
      ...(lampSet === undefined ? {} : { lampSet }),
      ...(flux === undefined ? {} : { flux }),
    };
    const { photometry, tilt } = await this.#readWithTilt(reader, bytes.value, options, (name) =>
      this.#bytesOf(document, name, readFile),
    );
    // A missing file may come yet.
    if (tilt === undefined) this.#read.set(key, { bytes: bytes.value, photometry });
    else if (tilt.bytes.ok)
      this.#read.set(key, {
        bytes: bytes.value,
        tilt: { path: tilt.path, bytes: tilt.bytes.value },
        photometry,
      });
    return photometry;
  }

  /** A tilt file stands beside the photometric file that names it, and is known by name only once that was read. */
  async #readWithTilt(
    reader: PhotometryReader,
    bytes: Uint8Array,
    options: ReadOptions,
    bytesOf: (path: string) => Promise<Outcome<Uint8Array>>,
  ): Promise<{
    readonly photometry: Outcome<Photometry>;
    readonly tilt?: { readonly path: string; readonly bytes: Outcome<Uint8Array> };
  }> {
    const beside = options.file.replace(/[^/\\]*$/, "");
    const named: string[] = [];
    let tilt: Outcome<Uint8Array> = success(new Uint8Array(0));
    const readOnce = (): Outcome<Photometry> =>
      reader(bytes, {
        ...options,
        tilt: (name) => {
          named.push(name);
          return tilt;
        },
      });
    const first = readOnce();
    const [name] = named;
    if (name === undefined) return { photometry: first };
    const path = beside + name;
    tilt = placed(await bytesOf(path), { file: options.file, path: `TILT=${name}` });
    return { photometry: readOnce(), tilt: { path, bytes: tilt } };
  }

  async #bytesOf(
    { embedded }: StudyDocument,
    path: string,
    readFile: ReadFile | undefined,
  ): Promise<Outcome<Uint8Array>> {
    if (embedded !== undefined && Object.hasOwn(embedded, path)) {
      const { embeddedBytes } = await import("./embedded-bytes.ts");
      return success(embeddedBytes(embedded[path]));
    }
    return this.#bytes.get(path) ?? (readFile === undefined ? missing(path) : fetched(path, readFile));
  }
}

function keyOf({ luminaires }: StudyDocument, { luminaire, path, lampSet }: PhotometryPath): string {
  return `${path}\n${lampSet ?? ""}\n${luminaires?.[luminaire]?.flux ?? ""}`;
}

async function fetched(path: string, readFile: ReadFile): Promise<Outcome<Uint8Array>> {
  try {
    const answer = await readFile(path);
    if (answer instanceof Uint8Array) return success(answer);
    if (answer?.ok === true || answer?.ok === false) return answer;
    return unreadable(path, "No bytes came of it.");
  } catch (error) {
    return unreadable(path, error instanceof Error ? error.message : String(error));
  }
}

function unreadable(path: string, message: string): Outcome<Uint8Array> {
  const where = { file: path };
  return failure({ code: "file-unreadable", message, expected: "its bytes", where });
}

function missing(path: string): Outcome<Uint8Array> {
  return failure({
    code: "file-missing",
    message: "The study names a file that is not with it.",
    expected: "the file, dropped onto the page or carried in the study",
    received: JSON.stringify(path),
    where: { file: path },
  });
}

function placed<T>(outcome: Outcome<T>, where: Issue["where"]): Outcome<T> {
  return outcome.ok ? outcome : failure(...outcome.issues.map((issue) => ({ ...issue, where })));
}

function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  return a === b || (a.length === b.length && a.every((byte, i) => byte === b[i]));
}
