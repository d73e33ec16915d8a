/** Spawns a calculation worker in Node. */
import { Worker } from "node:worker_threads";
import { type Connection, connect } from "./connection.ts";

export { Cancelled } from "../diagnostics/cancelled.ts";
export type { Connection, Running } from "./connection.ts";
export type * from "./protocol.ts";

export function spawn(): Connection {
  // A worker inherits the caller's execArgv, which may not suit a file: start it with none.
  const worker = new Worker(new URL("./node-entry.js", import.meta.url), { execArgv: [] });
  const { connection, receive, fail } = connect(
    { post: (message) => worker.postMessage(message), close: () => void worker.terminate() },
    true,
  );
  worker.on("message", receive);
  worker.on("error", (error) => fail(error instanceof Error ? error.message : String(error)));
  return connection;
}
