import type { Observer } from "../diagnostics/cancelled.ts";
import type { Io } from "./command.ts";

/** One line on a terminal, rewritten; nothing into files and pipes. */
export function progressOf(io: Io, name = ""): { readonly observer: Observer; done(): void } {
  if (io.interactive !== true) return { observer: {}, done: () => undefined };
  let written = "";
  return {
    observer: {
      progress(stage, fraction) {
        const text = `${name === "" ? "" : `${name}: `}${stage} ${Math.round(fraction * 100)} %`;
        if (text === written) return;
        written = text;
        io.err(`\r\u001b[K${text}`);
      },
    },
    done: () => io.err("\r\u001b[K"),
  };
}
