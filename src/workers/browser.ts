/** Spawns a calculation worker in a browser. */
import { type Connection, connect } from "./connection.ts";
import type { Reply } from "./protocol.ts";

export { Cancelled } from "../diagnostics/cancelled.ts";
export type { Connection, Running } from "./connection.ts";
export type * from "./protocol.ts";

export function spawn(): Connection {
  // `.js`, not `.ts`: bundlers map it back to the source, and the emitted library finds its neighbour.
  const worker = new Worker(new URL("./browser-entry.js", import.meta.url), {
    type: "module",
    name: "candlespan light",
  });
  const { connection, receive, fail } = connect(
    { post: (message) => worker.postMessage(message), close: () => worker.terminate() },
    // Shared memory needs a cross-origin isolated page; without it a stale answer is dropped, not stopped.
    globalThis.crossOriginIsolated === true,
  );
  worker.onmessage = (event: MessageEvent<Reply>) => receive(event.data);
  worker.onerror = (event) => fail(event.message || "The calculation worker could not be started.");
  return connection;
}
