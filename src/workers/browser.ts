/** Spawns a calculation worker in a browser. */
import { type Connection, connect } from "./connection.ts";
import type { Reply } from "./protocol.ts";

export { Cancelled } from "../diagnostics/cancelled.ts";
export type { Connection, Running } from "./connection.ts";
export type * from "./protocol.ts";

const NO_WORKERS =
  "this browser starts no worker, in which the light is computed. Use another browser, or allow workers here.";

/** Without workers, or where this one cannot be started, every call rejects and says so. */
export function spawn(): Connection {
  const worker = start();
  let isStarted = worker !== undefined;
  const { connection, receive, fail } = connect(
    {
      post: (message) => (isStarted ? worker?.postMessage(message) : queueMicrotask(() => fail(NO_WORKERS))),
      close: () => worker?.terminate(),
    },
    // Shared memory needs a cross-origin isolated page; without it a stale answer is dropped, not stopped.
    globalThis.crossOriginIsolated === true,
  );
  if (worker !== undefined) {
    worker.onmessage = (event: MessageEvent<Reply>) => receive(event.data);
    worker.onerror = (event) => {
      // An error of a running worker has a message; one whose script does not load has none and answers nothing later either.
      isStarted = Boolean(event.message);
      fail(event.message || NO_WORKERS);
    };
  }
  return connection;
}

function start(): Worker | undefined {
  try {
    // `.js`, not `.ts`: bundlers map it back to the source, and the emitted library finds its neighbour.
    return new Worker(new URL("./browser-entry.js", import.meta.url), {
      type: "module",
      name: "candlespan light",
    });
  } catch {
    return undefined;
  }
}
