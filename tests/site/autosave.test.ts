/** What is edited is kept, or it is said on screen that it is not: with storage that is full or denied, another page at work on the same study,
 * and a clock that was turned back. */
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { StudySession } from "../../site/session.ts";
import { Autosave } from "../../site/storage/autosave.ts";
import type { KeptStudy, StudyDatabase } from "../../site/storage/study-database.ts";
import { ScreenStore } from "../../site/store/screen-store.ts";

type Given = Parameters<StudyDatabase["save"]>[0];

class Page extends EventTarget {
  readonly screen = new ScreenStore();
  readonly history = { document: {} as object, done: [] as object[], undone: [] as object[] };
  setStorage(): void {}
  get study(): object {
    return this.history.document;
  }
  say(line: string): void {
    this.screen.setLine(line);
  }
  edit(title: string): void {
    const before = this.history.document;
    this.history.document = { title, room: {}, arrangements: [{ layers: [] }] };
    this.history.done.push({ name: title, before, after: this.history.document });
    this.dispatchEvent(new Event("edit"));
  }
}

let synchronous: Map<string, string>;
let isFull: boolean;
const now = new Date("2026-11-28T12:00:00Z").getTime();
let page: EventTarget;

beforeEach(() => {
  synchronous = new Map();
  isFull = false;
  page = new EventTarget();
  const store = {
    getItem: (key: string) => synchronous.get(key) ?? null,
    setItem(key: string, text: string) {
      if (isFull) throw new DOMException("full", "QuotaExceededError");
      synchronous.set(key, text);
    },
  };
  vi.stubGlobal("localStorage", store);
  vi.stubGlobal("sessionStorage", store);
  vi.stubGlobal("addEventListener", page.addEventListener.bind(page));
  vi.useFakeTimers({ now, toFake: ["Date", "setTimeout", "clearTimeout"] });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

function opened(
  database?: Partial<StudyDatabase>,
  session = new Page(),
): { session: Page; autosave: Autosave } {
  const autosave = new Autosave(session as unknown as StudySession);
  if (database !== undefined) autosave.database = async () => database as StudyDatabase;
  return { session, autosave };
}

/** Whether the browser would ask before the page is left. */
function asksBeforeLeaving(): boolean {
  const leaving = new Event("beforeunload", { cancelable: true });
  page.dispatchEvent(leaving);
  return leaving.defaultPrevented;
}

it("finds the last edit of a page that was killed after the clock was turned back", async () => {
  let kept: KeptStudy | undefined;
  const database = {
    async get(id: string) {
      return kept?.id === id ? kept : undefined;
    },
    async save(study: Given) {
      const saved = Math.max(Date.now(), (kept?.saved ?? 0) + 1);
      kept = { ...study, saved, writer: "this" };
      return { id: study.id, saved };
    },
  };
  const { session, autosave } = opened(database);
  session.edit("one");
  await autosave.save();
  vi.setSystemTime(now - 86_400_000);
  session.edit("two");
  await autosave.save();
  // Killed before the pause after which it would have been saved.
  session.edit("three");
  const found = await opened(database).autosave.earlier();
  expect(found?.document).toEqual(session.study);
});

// 2026-11-29: a page killed within a quarter of a second of a drag's end came back with the drag's first step.
it.each([
  ["where the last step was", 3],
  ["a step on", 4],
])("finds a whole movement that ended %s, and writes none of its steps but the first", async (_, end) => {
  class Silent extends EventTarget {
    postMessage(): void {}
    terminate(): void {}
  }
  vi.stubGlobal("Worker", Silent);
  const session = new StudySession();
  await session.bringTheRest();
  session.resume(example as unknown as RawStudy);
  session.begin();
  opened({ save: () => new Promise(() => {}) }, session as unknown as Page);
  const step = (n: number, moving: boolean): void =>
    session.edit(
      { name: "slide", edits: [{ path: ["title"], value: `step ${n}` }] },
      { gesture: "slide", moving },
    );
  const kept = (): unknown => JSON.parse(synchronous.get("candlespan-late") ?? "{}").document?.title;
  for (const n of [1, 2, 3]) {
    step(n, true);
    expect(kept()).toBe("step 1");
  }
  step(end, false);
  expect(kept()).toBe(`step ${end}`);
  // Killed before the pause after which it would have been saved.
  const found = await opened({ get: async () => undefined }).autosave.earlier();
  expect(found?.title).toBe(`step ${end}`);
  session.close();
});

it("says that storage is full, asks before the page is left, and says when it has room again", async () => {
  let isRefused = true;
  const { session, autosave } = opened({
    async save(study) {
      if (isRefused) throw new DOMException("Quota of 5 MB", "QuotaExceededError");
      return { id: study.id, saved: Date.now() };
    },
  });
  const unkept = "The study is not kept in this browser: its storage is full.";
  session.edit("one");
  await autosave.save();
  expect(session.screen.refusal).toMatchObject({ words: unkept, heading: "Not kept" });
  expect(session.screen.refusal?.act?.[0]).toBe("Save to a file");
  // The edit is still in the synchronous store.
  expect(asksBeforeLeaving()).toBe(false);
  isFull = true;
  session.screen.setRefusal(undefined);
  session.edit("two");
  await autosave.save();
  // Dismissed, it is said at the foot.
  expect(session.screen.refusal).toBeUndefined();
  expect(session.screen.line).toBe(`${unkept} Save it to a file.`);
  expect(asksBeforeLeaving()).toBe(true);
  isRefused = false;
  await autosave.save();
  expect(session.screen.line).toBe("The study is kept in this browser again.");
  expect(asksBeforeLeaving()).toBe(false);
});

it("says that there is no storage, at every edit", async () => {
  isFull = true;
  const { session, autosave } = opened();
  for (const title of ["one", "two"]) {
    session.screen.setLine("");
    session.edit(title);
    await autosave.save();
    expect(session.screen.line).toMatch(/not kept in this browser: it gives this page no storage/);
  }
  expect(asksBeforeLeaving()).toBe(true);
});

it("goes on under one id of its own when another page has saved the study", async () => {
  const ids: string[] = [];
  const { session, autosave } = opened({
    async save(study) {
      ids.push(study.id);
      await Promise.resolve();
      return { id: ids.length === 1 ? "own" : study.id, saved: Date.now() };
    },
  });
  session.edit("one");
  const first = autosave.save();
  while (ids.length === 0) await Promise.resolve();
  // While the first is under way.
  session.edit("two");
  await Promise.all([first, autosave.save()]);
  expect(ids.slice(1)).toEqual(["own"]);
  expect(session.screen.line).toMatch(/Another page saved this study meanwhile/);
});

it("keeps what was edited before it was loaded", async () => {
  const titles: string[] = [];
  const session = new Page();
  session.edit("early");
  const { autosave } = opened(
    {
      async save(study) {
        titles.push(study.title);
        return { id: study.id, saved: Date.now() };
      },
    },
    session,
  );
  await autosave.save();
  expect(titles).toEqual(["early"]);
});

it("goes on where the database never answers, says so, and asks again", async () => {
  class Silent extends EventTarget {}
  vi.stubGlobal("IDBRequest", Silent);
  vi.stubGlobal("indexedDB", { open: () => new Silent() });
  synchronous.set("candlespan-last", "mine");
  const { session, autosave } = opened();
  let isOver = false;
  const earlier = autosave.earlier().finally(() => {
    isOver = true;
  });
  // The module is loaded first.
  while (vi.getTimerCount() === 0) await new Promise((resolve) => setImmediate(resolve));
  await vi.advanceTimersByTimeAsync(7000);
  expect(isOver).toBe(false);
  await vi.advanceTimersByTimeAsync(2000);
  expect(await earlier).toBeUndefined();
  const unkept = "The study is not kept in this browser: its storage does not answer.";
  expect(session.screen.refusal).toMatchObject({ words: unkept, heading: "Not kept" });
  session.edit("one");
  await vi.advanceTimersByTimeAsync(9000);
  expect(session.screen.line).toBe(`${unkept} Save it to a file.`);
  // What is edited meanwhile is in the synchronous store, and is saved once there is an answer.
  expect(synchronous.get("candlespan-late")).toMatch(/"title":"one"/);
  const titles: string[] = [];
  autosave.database = async () =>
    ({
      async save(study: Given) {
        titles.push(study.title);
        return { id: study.id, saved: Date.now() };
      },
    }) as unknown as StudyDatabase;
  await vi.advanceTimersByTimeAsync(30_000);
  expect(titles).toEqual(["one"]);
  expect(session.screen.line).toBe("The study is kept in this browser again.");
  expect(session.screen.refusal).toBeUndefined();
});
