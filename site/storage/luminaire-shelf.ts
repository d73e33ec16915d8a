/**
 * One's own luminaires, kept between studies: in this browser's own database, and carried as a file.
 *
 * File: `{ "format": "candlespan-luminaires", "version": 1, "luminaires", "embedded" }`, the two as in a study.
 */

import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { Issue, Outcome } from "../../src/app.ts";
import type { RawLuminaire, RawStudy } from "../edits/raw-study.ts";
import { addLuminaireToStudy, type NewLuminaire } from "../edits/study-luminaires.ts";
import { type Json, write } from "../store/pointer.ts";
import type { Embedded } from "./embedded.ts";

export interface KeptLuminaire extends NewLuminaire {
  /** Milliseconds since 1970. */
  readonly saved: number;
}

interface Shelf extends DBSchema {
  luminaires: { key: string; value: KeptLuminaire };
}

export class LuminaireShelf {
  readonly #database: IDBPDatabase<Shelf>;

  private constructor(database: IDBPDatabase<Shelf>) {
    this.#database = database;
  }

  /** Rejects when the browser keeps nothing. */
  static async open(): Promise<LuminaireShelf> {
    const database = await openDB<Shelf>("candlespan-luminaires", 1, {
      upgrade(fresh) {
        fresh.createObjectStore("luminaires", { keyPath: "name" });
      },
    });
    return new LuminaireShelf(database);
  }

  /** By name. */
  list(): Promise<KeptLuminaire[]> {
    return this.#database.getAll("luminaires");
  }

  /** Keeps luminaires; one of the same name gives way. */
  async put(luminaires: readonly NewLuminaire[]): Promise<void> {
    const work = this.#database.transaction("luminaires", "readwrite");
    for (const each of luminaires) await work.store.put({ ...each, saved: Date.now() });
    await work.done;
  }

  remove(name: string): Promise<void> {
    return this.#database.delete("luminaires", name);
  }
}

/** A luminaire of a study with the file it names, fit to be kept apart from it. */
export function luminaireOf(study: RawStudy, name: string): NewLuminaire {
  const luminaire = study.luminaires?.[name] as RawLuminaire;
  const path = luminaire.photometry;
  const file = path === undefined ? undefined : study.embedded?.[path];
  const embedded: Embedded = path === undefined || file === undefined ? {} : { [path]: file };
  return { name, luminaire, embedded };
}

const FORMAT = "candlespan-luminaires";

export function shelfText(luminaires: readonly NewLuminaire[]): string {
  let study = { luminaires: {}, embedded: {}, arrangements: [] } as unknown as Json;
  for (const each of luminaires)
    for (const { path, value } of addLuminaireToStudy(study as unknown as RawStudy, each).edits)
      study = write(study, path, value);
  const { luminaires: all, embedded } = study as unknown as RawStudy;
  return `${JSON.stringify({ format: FORMAT, version: 1, luminaires: all, embedded }, null, 2)}\n`;
}

/** Whether a text means to be such a file; it may still be damaged. */
export function isShelfText(text: string): boolean {
  return /"format"\s*:\s*"candlespan-luminaires"/.test(text.slice(0, 2000));
}

/** The luminaires of a file, checked as those of a study are. */
export async function readShelf(
  text: string,
  file: string,
  check: (text: string, file: string) => Promise<Outcome<{ readonly document: unknown }>>,
): Promise<Outcome<readonly NewLuminaire[]>> {
  let given: { version?: unknown; luminaires?: unknown; embedded?: unknown };
  try {
    given = JSON.parse(text);
  } catch {
    return refused(file, "The file is damaged: it is no JSON.");
  }
  if (given.version !== 1) return refused(file, "The file was written by a later version.");
  const { luminaires = {}, embedded = {} } = given;
  const study = {
    format: "candlespan-study",
    version: 1,
    room: { length: 4, width: 4, ceilingHeight: 2.7 },
    arrangements: [{ name: "none", layers: [] }],
    luminaires,
    embedded,
  };
  const checked = await check(JSON.stringify(study), file);
  if (!checked.ok) return checked;
  const document = checked.value.document as RawStudy;
  const names = Object.keys(document.luminaires ?? {});
  return { ok: true, value: names.map((name) => luminaireOf(document, name)), warnings: [] };
}

function refused(file: string, message: string): Outcome<never> {
  const issue: Issue = { code: "luminaires-file", severity: "error", message, where: { file } };
  return { ok: false, issues: [issue] };
}
