/** What a worker answers, host-free; the same functions on the main thread give the same bits. */
import { failure } from "../diagnostics/issue.ts";
import type { Answers } from "./serve.ts";

export function answers(): Answers {
  return {
    read: () => failure({ code: "not-yet", severity: "error", message: "Not connected.", where: {} }),
    files: () => ({ ok: true, value: [], warnings: [] }),
    light: () =>
      failure({ code: "not-yet", severity: "error", message: "Not connected to the engine.", where: {} }),
  };
}
