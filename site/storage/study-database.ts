/**
 * Where studies are kept between visits: this browser's own database. The last edit alone is put into the
 * local storage first (autosave.ts), and nothing leaves the browser.
 *
 * Every save, also of a title given from the list, leaves a version behind, thinned as it ages, so that a mistake noticed tomorrow
 * can be taken back. Two pages on one study never overwrite each other: the second to save goes on under a study of its own. Every question is
 * answered or rejected, `TimeoutError` where the browser's database keeps silent.
 */

import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import { freshName } from "../edits/raw-study.ts";
import type { Change } from "../store/history.ts";
import type { Json } from "../store/pointer.ts";
import { answered } from "./answered.ts";
import { freshId } from "./fresh-id.ts";

export interface KeptStudy {
  readonly id: string;
  readonly title: string;
  /** Milliseconds since 1970. */
  readonly saved: number;
  /** The page that saved last. */
  readonly writer: string;
  readonly document: Json;
  readonly done: readonly Change[];
  readonly undone: readonly Change[];
}

export interface KeptVersion {
  readonly study: string;
  readonly saved: number;
  readonly change: string;
  readonly document: Json;
}

export interface RemovedStudy {
  readonly study: KeptStudy;
  readonly versions: readonly KeptVersion[];
}

type GivenStudy = Omit<KeptStudy, "writer" | "saved">;
type Saved = Pick<KeptStudy, "id" | "saved">;

interface Shelves extends DBSchema {
  studies: { key: string; value: KeptStudy; indexes: { saved: number } };
  versions: { key: [string, number]; value: KeptVersion };
}

/** Changes that go with a kept study; more would make every save slow. */
const CHANGES_KEPT = 300;
/** Of versions up to an age, one is kept of each so long a span of time (ms). Spans lie fixed in time: what is kept at one age is there to
 * be kept at the next, however long somebody works without a pause. */
const THINNING: readonly (readonly [age: number, span: number])[] = [
  [60_000, 6000],
  [3_600_000, 300_000],
  [86_400_000, 3_600_000],
  [Number.POSITIVE_INFINITY, 86_400_000],
];
const VERSIONS_KEPT = 60;

export class StudyDatabase {
  readonly #shelves: IDBPDatabase<Shelves>;
  /** This page's mark on what it saves. */
  readonly #writer = freshId();

  private constructor(shelves: IDBPDatabase<Shelves>) {
    this.#shelves = shelves;
  }

  /** Opens the database; rejects when the browser keeps nothing or a newer version of this page owns it. */
  static async open(): Promise<StudyDatabase> {
    const opening = openDB<Shelves>("candlespan", 1, {
      upgrade(database) {
        database.createObjectStore("studies", { keyPath: "id" }).createIndex("saved", "saved");
        database.createObjectStore("versions", { keyPath: ["study", "saved"] });
      },
      // A newer page wants to lift the database: let it, and save no more from here.
      blocking: (_from, _to, event) => (event.target as IDBDatabase).close(),
    });
    return new StudyDatabase(await answered(opening));
  }

  get(id: string): Promise<KeptStudy | undefined> {
    return answered(this.#shelves.get("studies", id));
  }

  /** Newest first. */
  async list(): Promise<KeptStudy[]> {
    return (await answered(this.#shelves.getAllFromIndex("studies", "saved"))).reverse();
  }

  /** Newest first. */
  async versions(study: string): Promise<KeptVersion[]> {
    const range = IDBKeyRange.bound([study, 0], [study, Number.POSITIVE_INFINITY]);
    return (await answered(this.#shelves.getAll("versions", range))).reverse();
  }

  /** Takes a study and its versions out, and returns all of it, to be put back if that was not meant. */
  remove(id: string): Promise<RemovedStudy | undefined> {
    return answered(this.#remove(id));
  }

  async #remove(id: string): Promise<RemovedStudy | undefined> {
    const range = IDBKeyRange.bound([id, 0], [id, Number.POSITIVE_INFINITY]);
    const work = this.#shelves.transaction(["studies", "versions"], "readwrite");
    const study = await work.objectStore("studies").get(id);
    const versions = await work.objectStore("versions").getAll(range);
    await work.objectStore("studies").delete(id);
    await work.objectStore("versions").delete(range);
    await work.done;
    return study === undefined ? undefined : { study, versions };
  }

  putBack(removed: RemovedStudy): Promise<void> {
    return answered(this.#putBack(removed));
  }

  async #putBack({ study, versions }: RemovedStudy): Promise<void> {
    const work = this.#shelves.transaction(["studies", "versions"], "readwrite");
    await work.objectStore("studies").put(study);
    for (const version of versions) await work.objectStore("versions").put(version);
    await work.done;
  }

  /** A copy under a title no other study has, without the changes that led to it. */
  async duplicate(id: string): Promise<KeptStudy | undefined> {
    const study = await this.get(id);
    if (study === undefined) return undefined;
    const titles = (await this.list()).map(({ title }) => title);
    const title = freshName(`${study.title} 2`, titles);
    const document = { ...(study.document as { readonly [key: string]: Json }), title };
    const copy = {
      ...study,
      id: freshId(),
      title,
      document,
      done: [],
      undone: [],
      saved: Date.now(),
    };
    await answered(this.#shelves.put("studies", copy));
    return copy;
  }

  /** Gives a study that is not on screen another title, as a change that can be undone when it is opened. */
  async rename(id: string, title: string): Promise<void> {
    const study = await this.get(id);
    if (study === undefined) return;
    const before = study.document;
    const document = { ...(before as { readonly [key: string]: Json }), title };
    const change = `title ${title}`;
    const done = [...study.done, { name: change, before, after: document }];
    await this.save({ ...study, title, document, done, undone: [] }, change, study.saved);
  }

  /** Saves, and returns the id it was saved under: another than asked for when a different page has saved that
   * study since `seen`. */
  save(study: GivenStudy, change: string, version: number): Promise<Saved> {
    return answered(this.#save(study, change, version));
  }

  async #save(study: GivenStudy, change: string, version: number): Promise<Saved> {
    const work = this.#shelves.transaction(["studies", "versions"], "readwrite");
    const studies = work.objectStore("studies");
    const there = await studies.get(study.id);
    const foreign = there !== undefined && there.writer !== this.#writer && there.saved > version;
    const id = foreign ? freshId() : study.id;
    const saved = Math.max(Date.now(), (there?.saved ?? 0) + 1);
    const done = study.done.slice(-CHANGES_KEPT);
    const undone = study.undone.slice(-CHANGES_KEPT);
    await studies.put({ ...study, id, done, undone, saved, writer: this.#writer });
    const versions = work.objectStore("versions");
    await versions.put({ study: id, saved, change, document: study.document });
    const keys = await versions.getAllKeys(IDBKeyRange.bound([id, 0], [id, saved]));
    for (const key of tooMany(
      keys.map(([, at]) => at),
      saved,
    )) {
      await versions.delete([id, key]);
    }
    await work.done;
    return { id, saved };
  }
}

/** Which versions, given by their times in ascending order, are thinned away at `now`. */
export function tooMany(times: readonly number[], now: number): number[] {
  const gone: number[] = [];
  let count = 0;
  let newer = "";
  for (const time of [...times].reverse()) {
    const [age, span] = THINNING.find(([most]) => now - time <= most) ?? THINNING[0];
    const place = `${age} ${Math.floor(time / span)}`;
    if (place === newer || count >= VERSIONS_KEPT) gone.push(time);
    else {
      count++;
      newer = place;
    }
  }
  return gone;
}
