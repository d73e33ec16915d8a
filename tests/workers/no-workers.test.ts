/** In a browser without workers, or whose worker does not start, a call is answered and says why. */
import { afterEach, expect, it, vi } from "vitest";
import { spawn } from "../../src/workers/browser.ts";

afterEach(() => {
  vi.unstubAllGlobals();
});

const answers = async () => {
  const connection = spawn();
  // The second call comes when it is known that there is no worker.
  for (let call = 0; call < 2; call++)
    await expect(connection.call("files", { files: [] }).outcome).rejects.toThrow(/starts no worker/);
  connection.close();
};

it.each([
  ["are not there", undefined],
  [
    "are refused",
    class {
      constructor() {
        throw new DOMException("not allowed", "SecurityError");
      }
    },
  ],
  [
    "have a script that does not load",
    class {
      onerror: ((event: object) => void) | undefined;
      constructor() {
        setTimeout(() => this.onerror?.({ type: "error" }), 0);
      }
      postMessage() {}
      terminate() {}
    },
  ],
])(
  "rejects every call where workers %s",
  async (_, Worker) => {
    vi.stubGlobal("Worker", Worker);
    await answers();
  },
  5_000,
);
