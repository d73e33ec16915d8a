/** A question beside the light has a named state, is asked only when told to, and its failure has a way out. */
import { describe, expect, it } from "vitest";
import type { Lighting } from "../../site/light/lighting.ts";
import { RoomTask } from "../../site/light/room-task.ts";
import { SecondaryResults } from "../../site/light/secondary-results.ts";
import { WorkerTask } from "../../site/light/worker-task.ts";
import { Cancelled, type Outcome } from "../../src/app.ts";
import type { Progress } from "../../src/workers/browser.ts";

interface Call<T> {
  readonly name: string;
  readonly cancelled: () => boolean;
  answer(outcome: Outcome<T>): void;
  fail(error: Error): void;
}

/** A worker whose answers the test gives. */
function worker<T>(calls: Call<T>[]) {
  return (name: string) => {
    let isCancelled = false;
    let settle: Pick<Call<T>, "answer" | "fail"> | undefined;
    const outcome = new Promise<Outcome<T>>((answer, fail) => {
      settle = { answer, fail };
    });
    calls.push({ name, cancelled: () => isCancelled, ...(settle as Pick<Call<T>, "answer" | "fail">) });
    return {
      outcome,
      cancel() {
        isCancelled = true;
        settle?.fail(new Cancelled());
      },
    };
  };
}

const ok = <T>(value: T): Outcome<T> => ({ ok: true, value, warnings: [] });
const refused: Outcome<never> = {
  ok: false,
  issues: [{ code: "test", severity: "error", message: "No such layer.", where: {} }],
};
const settled = (): Promise<void> => new Promise((done) => setTimeout(done, 0));
const question = { document: { a: 1 }, arrangement: 0 };

describe("a task", () => {
  it("is asked when told to, not by being read, and once for one question", async () => {
    const calls: Call<string>[] = [];
    const task = new WorkerTask(() => worker(calls)("light"));
    expect(task.state.status).toBe("initial");
    expect(calls.length).toBe(0);
    task.run(question);
    task.run({ ...question });
    expect([calls.length, task.state.status]).toEqual([1, "pending"]);
    calls[0].answer(ok("lit"));
    await settled();
    expect(task.state).toEqual({ status: "complete", value: "lit" });
    task.run(question);
    expect(calls.length).toBe(1);
  });

  it("tells a failure from waiting, whether issues or a fault, and asks again", async () => {
    const calls: Call<string>[] = [];
    const task = new WorkerTask(() => worker(calls)("light"));
    task.run(question);
    calls[0].answer(refused);
    await settled();
    expect(task.state).toMatchObject({ status: "error", issues: [{ message: "No such layer." }] });
    task.retry();
    expect(task.state.status).toBe("pending");
    calls[1].fail(new Error("The worker ended."));
    await settled();
    expect(task.state).toMatchObject({
      status: "error",
      issues: [{ code: "fault", message: "The worker ended." }],
    });
    task.retry();
    calls[2].answer(ok("lit"));
    await settled();
    expect(task.state.status).toBe("complete");
  });

  it("gives up an older question for a newer one", async () => {
    const calls: Call<string>[] = [];
    const task = new WorkerTask(() => worker(calls)("light"));
    task.run(question);
    task.run({ ...question, arrangement: 1 });
    expect(calls[0].cancelled()).toBe(true);
    await settled();
    expect(task.state.status).toBe("pending");
    calls[1].answer(ok("second"));
    await settled();
    expect(task.state).toEqual({ status: "complete", value: "second" });
    task.reset();
    expect(task.state.status).toBe("initial");
  });
});

it("shows the failure of a room's full light, and sketches no second time on the way out", async () => {
  const calls: Call<never>[] = [];
  const ask = worker(calls);
  const room = new RoomTask((_, quality) => ask(quality));
  room.run(question);
  calls[0].answer(ok({ key: "a", scene: {}, surfaces: {} } as never));
  await settled();
  expect(room.state).toMatchObject({ status: "complete", value: { sketched: true } });
  calls[1].answer(refused);
  await settled();
  expect(room.state.status).toBe("error");
  room.retry();
  expect(calls.map(({ name }) => name)).toEqual(["sketch", "full", "full"]);
});

it("says how far a room's light is, stops at the sketch when told to, and goes on from there", async () => {
  const calls: Call<never>[] = [];
  const ask = worker(calls);
  let tell: ((progress: Progress) => void) | undefined;
  const room = new RoomTask((_, quality, progress) => {
    tell = progress;
    return ask(quality);
  });
  room.run(question);
  tell?.({ stage: "direct light", fraction: 0.5 });
  expect(room.state).toEqual({ status: "pending", progress: { stage: "direct light", fraction: 0.5 } });
  calls[0].answer(ok({ key: "a", scene: {}, surfaces: {} } as never));
  await settled();
  tell?.({ stage: "interreflection", fraction: 0.2 });
  expect(room.refining?.progress?.fraction).toBe(0.2);
  room.stop();
  expect(calls[1].cancelled()).toBe(true);
  room.run(question);
  expect([calls.length, room.refining, room.isStopped]).toEqual([2, undefined, true]);
  expect(room.state).toMatchObject({ status: "complete", value: { sketched: true } });
  room.goOn();
  expect(calls.map(({ name }) => name)).toEqual(["sketch", "full", "full"]);
  room.stop();
  room.run({ ...question, arrangement: 1 });
  expect(room.isStopped).toBe(false);
});

it("asks beside the light only for what is needed, and only of a light that stands", async () => {
  const calls: Call<never>[] = [];
  const ask = worker(calls);
  const light = { shown: undefined as unknown, isBehind: false, connection: { call: ask } };
  const lighting = Object.assign(new EventTarget(), light);
  const results = new SecondaryResults(lighting as unknown as Lighting);
  results.setOption(question.document, 0);
  results.need("rules");
  expect([calls.length, results.rules.state.status]).toEqual([0, "pending"]);
  lighting.shown = { quality: "judged" };
  lighting.dispatchEvent(new Event("light"));
  expect(calls.map(({ name }) => name)).toEqual(["rules"]);
  expect(results.findings.state.status).toBe("initial");
  lighting.isBehind = true;
  results.setOption({ a: 2 }, 0);
  expect(calls[0].cancelled()).toBe(true);
  expect(results.rules.state.status).toBe("pending");
  results.release("rules");
  lighting.isBehind = false;
  lighting.dispatchEvent(new Event("light"));
  expect([calls.length, results.rules.state.status]).toEqual([1, "initial"]);
});
