import type { Observer } from "../diagnostics/cancelled.ts";
import type { Io } from "./command.ts";

/** Between plain lines of progress (ms). */
const EVERY = 5000;

/** Says what is waited for, and every few seconds for how long already. */
export async function whileWaiting<T>(io: Io, what: string, work: Promise<T>): Promise<T> {
  const began = Date.now();
  io.err(`${what}\n`);
  const timer = setInterval(
    () => io.err(`${what} ${Math.round((Date.now() - began) / 1000)} s so far.\n`),
    EVERY,
  );
  try {
    return await work;
  } finally {
    clearInterval(timer);
  }
}

/** One line on a terminal, rewritten. Into files and pipes nothing, or, for what may take minutes, a plain line every few
 * seconds. */
export function progressOf(
  io: Io,
  name = "",
  elsewhere: "nothing" | "lines" = "nothing",
): { readonly observer: Observer; done(): void } {
  const line = (stage: string, fraction: number): string =>
    `${name === "" ? "" : `${name}: `}${stage} ${Math.round(fraction * 100)} %`;
  if (io.interactive !== true) {
    if (elsewhere === "nothing") return { observer: {}, done: () => undefined };
    let said = Date.now();
    let last = "";
    return {
      observer: {
        progress(stage, fraction) {
          const text = line(stage, fraction);
          if (Date.now() - said < EVERY || text === last) return;
          [said, last] = [Date.now(), text];
          io.err(`${text}\n`);
        },
      },
      done: () => undefined,
    };
  }
  let written = "";
  return {
    observer: {
      progress(stage, fraction) {
        const text = line(stage, fraction);
        if (text === written) return;
        written = text;
        io.err(`\r\u001b[K${text}`);
      },
    },
    done: () => io.err("\r\u001b[K"),
  };
}
