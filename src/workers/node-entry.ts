/** Runs inside a Node worker thread. */
import { parentPort } from "node:worker_threads";
import { answers } from "./answers.ts";
import { serve } from "./serve.ts";

if (parentPort !== null) {
  const port = parentPort;
  port.on(
    "message",
    serve(
      answers(),
      (reply, transfer) => port.postMessage(reply, transfer),
      () => performance.now(),
    ),
  );
}
