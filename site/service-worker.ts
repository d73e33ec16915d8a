/**
 * Keeps one whole build of the page at hand, so that it opens without a network.
 *
 * Answers come from the kept build first; a new build is fetched beside it and takes over at the next start,
 * never under a running page. Nothing but this site's own files is kept or fetched.
 */

export {};

interface Extendable extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetching extends Extendable {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Scope extends EventTarget {
  readonly registration: { readonly scope: string };
  readonly clients: { claim(): Promise<void> };
}

const scope = self as unknown as Scope;
// Both are filled in by the build (build/precache.ts).
const files = "__FILES__" as unknown as readonly string[];
const cacheName = "candlespan-__VERSION__";

// Fetched afresh, or an old copy in the browser's own cache would be kept under the new build's name; one after the
// other, so that a hand that already works feels nothing of it. A file that is missed undoes the installation.
async function keep(): Promise<void> {
  const cache = await caches.open(cacheName);
  for (const file of files) await cache.add(new Request(file, { cache: "reload" }));
}

async function forgetOthers(): Promise<void> {
  for (const other of await caches.keys()) {
    if (other.startsWith("candlespan-") && other !== cacheName) await caches.delete(other);
  }
  await scope.clients.claim();
}

async function answer(request: Request): Promise<Response> {
  const url = new URL(request.url);
  url.hash = "";
  url.search = "";
  if (url.href === scope.registration.scope) url.pathname += "index.html";
  const kept = await (await caches.open(cacheName)).match(url.href);
  if (kept !== undefined) return isolated(kept);
  const fetched = await fetch(request);
  // A file of this build that neither is kept nor can be had: the server has another build. The next start is by that one, whole.
  if (!fetched.ok && isOwn(url.href)) await caches.delete(cacheName);
  return isolated(fetched);
}

const isOwn = (address: string): boolean =>
  [...files].some((file) => new URL(file, scope.registration.scope).href === address);

/** Grants shared memory, with which a running calculation can be stopped, also where the server sets no headers. */
function isolated(response: Response): Response {
  if (response.type === "opaque" || response.status === 0) return response;
  const headers = new Headers(response.headers);
  headers.set("Cross-Origin-Opener-Policy", "same-origin");
  headers.set("Cross-Origin-Embedder-Policy", "require-corp");
  const { status, statusText } = response;
  return new Response(response.body, { status, statusText, headers });
}

scope.addEventListener("install", (event) => (event as Extendable).waitUntil(keep()));
scope.addEventListener("activate", (event) => (event as Extendable).waitUntil(forgetOthers()));
scope.addEventListener("fetch", (event) => {
  const { request } = event as Fetching;
  if (request.method !== "GET" || !request.url.startsWith(scope.registration.scope)) return;
  (event as Fetching).respondWith(answer(request));
});
