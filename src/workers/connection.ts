/**
 * The caller's side of the protocol, free of any host: typed calls that end in an outcome, may report progress
 * and may be cancelled.
 */

import { Cancelled } from "../diagnostics/cancelled.ts";
import type { Outcome } from "../diagnostics/issue.ts";
import type { Call, MessageName, Progress, Reply, RequestOf, ResponseOf } from "./protocol.ts";

/** A running call. Its promise rejects with {@link Cancelled} after `cancel`, or with an `Error` on a fault of
 * the program; whatever is wrong with the input is an outcome. */
export interface Running<T> {
  readonly outcome: Promise<Outcome<T>>;
  cancel(): void;
}

export interface Connection {
  call<N extends MessageName>(
    name: N,
    request: RequestOf<N>,
    progress?: (progress: Progress) => void,
  ): Running<ResponseOf<N>>;
  /** Ends the worker; calls still open reject with {@link Cancelled}. */
  close(): void;
}

/** What a host's worker must offer. */
export interface Channel {
  post(message: Call): void;
  close(): void;
}

interface Open {
  resolve(outcome: Outcome<unknown>): void;
  reject(reason: Error): void;
  progress?: (progress: Progress) => void;
}

const FLAGS = 64;

/** Makes a connection over a channel. The host passes each reply to `receive` and a broken worker to `fail`. */
export function connect(
  channel: Channel,
  sharedMemory: boolean,
): {
  readonly connection: Connection;
  receive(reply: Reply): void;
  fail(message: string): void;
} {
  const open = new Map<number, Open>();
  const flags = sharedMemory ? new Int32Array(new SharedArrayBuffer(4 * FLAGS)) : undefined;
  if (flags !== undefined) channel.post({ kind: "stop-flags", flags });
  let next = 1;

  const settle = (id: number): Open | undefined => {
    const entry = open.get(id);
    open.delete(id);
    return entry;
  };
  const rejectAll = (reason: () => Error): void => {
    for (const id of [...open.keys()]) settle(id)?.reject(reason());
  };

  return {
    connection: {
      call(name, request, progress) {
        const id = next++;
        const outcome = new Promise<Outcome<never>>((resolve, reject) => {
          open.set(id, { resolve: resolve as Open["resolve"], reject, progress });
        });
        channel.post({ kind: "call", id, name, request });
        return {
          outcome,
          cancel() {
            if (!open.has(id)) return;
            if (flags !== undefined) Atomics.store(flags, id % FLAGS, id);
            channel.post({ kind: "cancel", id });
            settle(id)?.reject(new Cancelled());
          },
        };
      },
      close() {
        channel.close();
        rejectAll(() => new Cancelled());
      },
    },
    receive(reply) {
      if (reply.kind === "progress") {
        open.get(reply.id)?.progress?.(reply.progress);
        return;
      }
      const entry = settle(reply.id);
      if (entry === undefined) return;
      if (reply.kind === "response")
        entry.resolve({ ok: true, value: reply.response, warnings: reply.warnings });
      else if (reply.kind === "issues") entry.resolve({ ok: false, issues: reply.issues });
      else if (reply.kind === "cancelled") entry.reject(new Cancelled());
      else entry.reject(new Error(reply.message));
    },
    fail(message) {
      rejectAll(() => new Error(message));
    },
  };
}
