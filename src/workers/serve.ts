/**
 * The worker's side of the protocol, free of any host: messages in, replies out.
 *
 * Calls are answered one after another in the order they came. A call cancelled before it starts is never
 * started; one that is running stops at its next look at the shared flags, where the host grants shared memory.
 */

import { Cancelled, type Observer } from "../diagnostics/cancelled.ts";
import { CandlespanError } from "../diagnostics/candlespan-error.ts";
import type { Answers } from "./answers.ts";
import type { Call, Reply } from "./protocol.ts";
import type { Answer } from "./transfer.ts";

/** What is over sooner than this (ms) is over before anybody could read how far it is. */
const WORTH_REPORTING = 100;
/** Progress is told no oftener than this (ms): every message is work for whoever hears it. */
const BETWEEN_REPORTS = 40;

const NONE: readonly ArrayBuffer[] = [];

/** Returns the function to which the host hands every message; `now` is a clock in ms. What `reply` is
 * to transfer is of no use here any more. */
export function serve(
  answers: Answers,
  reply: (message: Reply, transfer: readonly ArrayBuffer[]) => void,
  now: () => number,
): (message: Call) => void {
  const cancelled = new Set<number>();
  let flags: Int32Array | undefined;
  let last: Promise<void> = Promise.resolve();

  const isCancelled = (id: number): boolean =>
    cancelled.has(id) || (flags !== undefined && Atomics.load(flags, id % flags.length) === id);

  async function answer(call: Extract<Call, { kind: "call" }>): Promise<void> {
    const { id } = call;
    let next = now() + WORTH_REPORTING;
    const observer: Observer = {
      progress: (stage, fraction) => {
        const time = now();
        if (time < next) return;
        next = time + BETWEEN_REPORTS;
        reply({ kind: "progress", id, progress: { stage, fraction } }, NONE);
      },
      cancelled: () => isCancelled(id),
    };
    try {
      if (isCancelled(id)) throw new Cancelled();
      const respond = answers[call.name] as (
        request: unknown,
        observer: Observer,
      ) => Promise<Answer<unknown>> | Answer<unknown>;
      const outcome = await respond(call.request, observer);
      if (outcome.ok) {
        const { value: response, warnings, transfer = NONE } = outcome;
        reply({ kind: "response", id, response, warnings }, transfer);
      } else reply({ kind: "issues", id, issues: outcome.issues }, NONE);
    } catch (error) {
      if (error instanceof Cancelled) reply({ kind: "cancelled", id }, NONE);
      else if (error instanceof CandlespanError) reply({ kind: "issues", id, issues: error.issues }, NONE);
      else
        reply({ kind: "fault", id, message: error instanceof Error ? error.message : String(error) }, NONE);
    } finally {
      cancelled.delete(id);
    }
  }

  return (message) => {
    if (message.kind === "stop-flags") flags = message.flags;
    else if (message.kind === "cancel") cancelled.add(message.id);
    else last = last.then(() => answer(message));
  };
}
