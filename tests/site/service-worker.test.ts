/** The copy of the page that opens without a network: a build that is no longer whole gives way to the server's. */
import { afterEach, expect, it, vi } from "vitest";

afterEach(() => vi.unstubAllGlobals());

const PAGE = "https://kitchen.example/light/";
type Answer = (event: { request: Request; respondWith(answer: Promise<Response>): void }) => void;

/** @param kept addresses of files in the cache @param served of those that the server has */
async function answering(kept: readonly string[], served: readonly string[]) {
  const listeners: Record<string, unknown> = {};
  const caches = new Map([["candlespan-__VERSION__", new Set(kept)]]);
  vi.stubGlobal("self", {
    registration: { scope: PAGE },
    addEventListener: (name: string, listener: unknown) => {
      listeners[name] = listener;
    },
  });
  vi.stubGlobal("caches", {
    open: async (name: string) => ({
      match: async (address: string) => (caches.get(name)?.has(address) ? new Response("kept") : undefined),
    }),
    delete: async (name: string) => caches.delete(name),
  });
  vi.stubGlobal("fetch", async ({ url }: Request) =>
    served.includes(url) ? new Response("served") : new Response("none", { status: 404 }),
  );
  vi.resetModules();
  await import("../../site/service-worker.ts");
  const asked = async (path: string): Promise<{ status: number; text: string }> => {
    let answer: Promise<Response> | undefined;
    (listeners.fetch as Answer)({
      request: new Request(PAGE + path),
      respondWith: (given) => {
        answer = given;
      },
    });
    const response = await (answer as Promise<Response>);
    return { status: response.status, text: await response.text() };
  };
  return { asked, isKept: () => caches.size > 0 };
}

// The build writes the list of its files where this text stands; of the text each letter is a file here.
const part = [..."__FILES__"][2];

it("answers from the copy, and from the server what is not of the build", async () => {
  const { asked, isKept } = await answering([`${PAGE}index.html`], [`${PAGE}other.json`]);
  expect(await asked("")).toEqual({ status: 200, text: "kept" });
  expect(await asked("#study=1.x")).toEqual({ status: 200, text: "kept" });
  expect(await asked("other.json")).toEqual({ status: 200, text: "served" });
  expect((await asked("unknown.js")).status).toBe(404);
  expect(isKept()).toBe(true);
});

it("forgets a copy that lacks a part which the server has no more", async () => {
  const { asked, isKept } = await answering([`${PAGE}index.html`], [PAGE]);
  expect((await asked(part)).status).toBe(404);
  expect(isKept()).toBe(false);
  expect(await asked("")).toEqual({ status: 200, text: "served" });
});

it("takes a part that the copy lacks from the server while it has it", async () => {
  const { asked, isKept } = await answering([], [PAGE + part]);
  expect(await asked(part)).toEqual({ status: 200, text: "served" });
  expect(isKept()).toBe(true);
});
