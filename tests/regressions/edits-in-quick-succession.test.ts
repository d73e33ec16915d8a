/** 2026-11-28. Each edit put saving off by a quarter of a second, so that a page killed amid quick edits lost all of them, however many. An edit that
 * follows one not yet saved is saved with it at once: at most the last edit is lost. A drag, one edit in many steps, still waits for its end. */
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { StudySession } from "../../site/session.ts";
import { Autosave } from "../../site/storage/autosave.ts";
import type { StudyDatabase } from "../../site/storage/study-database.ts";
import { StudyHistory } from "../../site/store/history.ts";
import type { Json } from "../../site/store/pointer.ts";

const store = { getItem: () => null, setItem: () => {}, removeItem: () => {} };

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal("addEventListener", () => {});
  vi.stubGlobal("localStorage", store);
  vi.stubGlobal("sessionStorage", store);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

function page() {
  const history = new StudyHistory({ n: 0 });
  const session = Object.assign(new EventTarget(), {
    history,
    setStorage() {},
    say() {},
    get study() {
      return history.document;
    },
  });
  history.addEventListener("change", () => session.dispatchEvent(new Event("edit")));
  const saved: Json[] = [];
  const autosave = new Autosave(session as unknown as StudySession);
  const database = {
    save: async ({ id, document }: { id: string; document: Json }) => {
      saved.push(document);
      return { id, saved: saved.length };
    },
  };
  autosave.database = async () => database as unknown as StudyDatabase;
  return { history, saved };
}

it("loses at most the last of quick edits", async () => {
  const { history, saved } = page();
  for (let n = 1; n <= 40; n++) {
    history.change(`n ${n}`, [{ path: ["n"], value: n }]);
    await vi.advanceTimersByTimeAsync(100);
    const { n: kept } = (saved.at(-1) ?? { n: 0 }) as { n: number };
    expect(kept).toBeGreaterThanOrEqual(n - 1);
  }
});

it("saves a drag once, when it rests", async () => {
  const { history, saved } = page();
  for (let n = 1; n <= 40; n++) {
    history.change("drag", [{ path: ["n"], value: n }], "hand 1");
    await vi.advanceTimersByTimeAsync(100);
  }
  expect(saved).toEqual([]);
  await vi.advanceTimersByTimeAsync(300);
  expect(saved).toEqual([{ n: 40 }]);
});
