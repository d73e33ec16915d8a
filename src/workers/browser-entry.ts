/** Runs inside a browser's worker. */
import { answers } from "./answers.ts";
import type { Call, Reply } from "./protocol.ts";
import { serve } from "./serve.ts";

const receive = serve(
  answers(),
  (reply: Reply, transfer) => postMessage(reply, { transfer: [...transfer] }),
  () => performance.now(),
);
addEventListener("message", (event: MessageEvent<Call>) => receive(event.data));
