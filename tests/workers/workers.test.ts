/** A worker answers with the very bits the main thread would, cancels, reports, and says what is wrong. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Cancelled, type Connection, spawn } from "candlespan/workers";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Cancelled as CancelledHere } from "../../src/diagnostics/cancelled.ts";
import { answers } from "../../src/workers/answers.ts";
import { connect } from "../../src/workers/connection.ts";
import type { Call, LightAnswer, LightRequest, Reply, StudyFile } from "../../src/workers/protocol.ts";
import { serve } from "../../src/workers/serve.ts";

const folder = fileURLToPath(new URL("../../fixtures-data/boathouse/", import.meta.url));
const document = JSON.parse(readFileSync(`${folder}boathouse.study.json`, "utf8"));
const files: StudyFile[] = readdirSync(`${folder}photometry`).map((name) => ({
  path: `photometry/${name}`,
  content: new Uint8Array(readFileSync(`${folder}photometry/${name}`)),
}));

/** Every number of an answer in order, as bits. */
function bitsOf(value: unknown, into: number[] = []): number[] {
  if (typeof value === "number") into.push(value);
  else if (ArrayBuffer.isView(value)) into.push(...(value as Float64Array));
  else if (value instanceof Map) for (const each of value.values()) bitsOf(each, into);
  else if (typeof value === "object" && value !== null)
    for (const each of Object.values(value)) bitsOf(each, into);
  return into;
}

describe("a worker thread", () => {
  let worker: Connection;
  beforeAll(async () => {
    worker = spawn();
    await worker.call("files", { files }).outcome;
  });
  afterAll(() => worker.close());

  it("gives the main thread's bits, at every quality", async () => {
    const here = answers();
    await here.files({ files }, {});
    let compared = 0;
    let lastFull: LightAnswer | undefined;
    for (const quality of ["first", "full", "quick"] as const) {
      const interreflected = lastFull?.interreflected ?? [];
      const request: LightRequest = { document, arrangement: 0, quality, interreflected };
      const [there, main] = [await worker.call("light", request).outcome, await here.light(request, {})];
      if (!there.ok || !main.ok) throw new Error("no light");
      const [a, b] = [bitsOf(there.value), bitsOf(main.value)];
      expect(a.length).toBe(b.length);
      expect(a.every((value, i) => Object.is(value, b[i]))).toBe(true);
      compared += a.length;
      if (quality === "full") lastFull = there.value;
    }
    console.log(`worst error 0 in ${compared} numbers, worker against main thread`);
  });

  it("reports progress and stops when cancelled", async () => {
    const seen: number[] = [];
    const request: LightRequest = {
      document: { ...document, maintenance: 0.5 },
      arrangement: 1,
      quality: "full",
    };
    const running = worker.call("light", request, ({ fraction }) => {
      seen.push(fraction);
      running.cancel();
    });
    await expect(running.outcome).rejects.toBeInstanceOf(Cancelled);
    expect(seen.length).toBeGreaterThan(0);
    // The worker is free again at once, and its memory unharmed.
    const after = await worker.call("light", { document, arrangement: 0, quality: "first" }).outcome;
    expect(after.ok).toBe(true);
  });

  it("says what is wrong, with its place in the whole study", async () => {
    const broken = structuredClone(document);
    broken.arrangements[2].layers[0].row.gap = "a hand";
    const outcome = await worker.call("light", { document: broken, arrangement: 2, quality: "quick" })
      .outcome;
    expect(!outcome.ok && outcome.issues.map((issue) => issue.where.path)).toEqual([
      "/arrangements/2/layers/0/row/gap",
    ]);
  });

  it("says which file is missing, and takes it when it comes", async () => {
    const fresh = spawn();
    const lonely = await fresh.call("light", { document, arrangement: 0, quality: "first" }).outcome;
    expect(!lonely.ok && lonely.issues[0].code).toBe("file-missing");
    await fresh.call("files", { files }).outcome;
    expect((await fresh.call("light", { document, arrangement: 0, quality: "first" }).outcome).ok).toBe(true);
    fresh.close();
  });

  it("lets no study read the files of another", async () => {
    const fresh = spawn();
    await fresh.call("files", { files }).outcome;
    await fresh.call("files", { files: files.filter(({ path }) => !path.includes("dome")) }).outcome;
    const outcome = await fresh.call("light", { document, arrangement: 0, quality: "first" }).outcome;
    expect(!outcome.ok && outcome.issues.map((issue) => issue.received)).toContain(
      '"photometry/dome-wide.ies"',
    );
    fresh.close();
  });

  it("says what files hold and keeps none of them", async () => {
    const fresh = spawn();
    const told = await fresh.call("describe", {
      files: [files[0], { path: "x.ies", content: new Uint8Array(3) }],
    }).outcome;
    expect(told.ok && told.value.map(({ ok }) => ok)).toEqual([true, false]);
    expect(told.ok && told.value[0].line).toMatch(/^It read .*: LM-63 .* lm.*, opening disc Ø \d+ mm/);
    expect((await fresh.call("light", { document, arrangement: 0, quality: "first" }).outcome).ok).toBe(
      false,
    );
    fresh.close();
  });

  it("hands over luminaires traced from lamp and shade", async () => {
    const shaded = structuredClone(document);
    shaded.luminaires.dome = {
      lamp: { flux: 806, watts: 8, shape: "A60", finish: "frosted" },
      shade: { profile: "dome", diameter: 0.3, height: 0.2, finish: "white" },
    };
    for (const quality of ["first", "quick"] as const) {
      const outcome = await worker.call("light", { document: shaded, arrangement: 0, quality }).outcome;
      if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join(" "));
      expect(outcome.value.scene.layers[0].luminaires[0].luminaire.evidence).toBe("E");
    }
  });

  it("reads a study's text and refuses a later version", async () => {
    const text = JSON.stringify(document);
    const read = await worker.call("read", { text, file: "a.study.json" }).outcome;
    expect(read.ok && read.value.document).toEqual(document);
    const later = JSON.stringify({ ...document, version: 99 });
    const refused = await worker.call("read", { text: later, file: "b.study.json" }).outcome;
    expect(!refused.ok && refused.issues[0]).toMatchObject({
      code: "study-version",
      where: { file: "b.study.json" },
    });
  });
});

/** Both sides in one thread, over a channel that can be held up. */
function loop(
  sharedMemory: boolean,
  respond: Partial<ReturnType<typeof answers>>,
  now = () => performance.now(),
) {
  const all = { ...answers(), ...respond };
  const held: Call[] = [];
  let receive: (message: Call) => void = (message) => held.push(message);
  const two = connect({ post: (message) => receive(message), close: () => {} }, sharedMemory);
  const posted: Reply[] = [];
  const handed: (readonly ArrayBuffer[])[] = [];
  const served = serve(
    all,
    (reply, transfer) => {
      posted.push(reply);
      handed.push(transfer);
      two.receive(reply);
    },
    now,
  );
  return {
    connection: two.connection,
    fail: two.fail,
    posted,
    handed,
    open() {
      receive = served;
      for (const message of held.splice(0)) served(message);
    },
  };
}

describe("the protocol", () => {
  it("never starts a call cancelled before its turn", async () => {
    for (const shared of [true, false]) {
      let started = 0;
      const { connection, open } = loop(shared, {
        read: () => {
          started++;
          return { ok: true, value: { document: 1 }, warnings: [] };
        },
      });
      const first = connection.call("read", { text: "", file: "" });
      const second = connection.call("read", { text: "", file: "" });
      second.cancel();
      await expect(second.outcome).rejects.toBeInstanceOf(CancelledHere);
      open();
      expect((await first.outcome).ok).toBe(true);
      // Calls are served in their order: the cancelled one's turn is past when the next is answered.
      await connection.call("read", { text: "", file: "" }).outcome;
      expect(started).toBe(2);
    }
  });

  it("brings warnings along with an answer", async () => {
    const warning = { code: "odd", severity: "warning", message: "Odd.", where: {} } as const;
    const { connection, open } = loop(false, {
      read: () => ({ ok: true, value: { document: 1 }, warnings: [warning] }),
    });
    open();
    expect(await connection.call("read", { text: "", file: "" }).outcome).toEqual({
      ok: true,
      value: { document: 1 },
      warnings: [warning],
    });
  });

  it("hands over the light it calculated, and copies what it keeps: the same question twice, the same answer", async () => {
    const { connection, open, posted, handed } = loop(false, {});
    open();
    await connection.call("files", { files }).outcome;
    const asked = { document, arrangement: 0, quality: "quick" } as const;
    const first = await connection.call("light", asked).outcome;
    if (!first.ok) throw new Error("no light");
    const transfer = handed[posted.findIndex(({ kind, id }) => kind === "response" && id === 2)];
    const { assessment, scene } = first.value;
    expect(transfer).toContain(assessment.planes[0].illuminance.buffer);
    expect(transfer).not.toContain(scene.planes[0].points.buffer);
    expect(transfer).not.toContain(scene.layers[0].luminaires[0].luminaire.distribution.intensity.buffer);
    // Detached here as a host would.
    const before = structuredClone(assessment.planes);
    structuredClone(first.value, { transfer: [...transfer] });
    expect(assessment.planes[0].illuminance.length).toBe(0);
    const again = await connection.call("light", asked).outcome;
    expect(again.ok && again.value.assessment.planes).toEqual(before);
  });

  it("turns a fault of the program into a rejection and serves on", async () => {
    let faults = 1;
    const { connection, open } = loop(false, {
      read: () => {
        if (faults-- > 0) throw new Error("broken");
        return { ok: true, value: { document: 1 }, warnings: [] };
      },
    });
    open();
    await expect(connection.call("read", { text: "", file: "" }).outcome).rejects.toThrow("broken");
    expect((await connection.call("read", { text: "", file: "" }).outcome).ok).toBe(true);
  });

  it("tells progress only of what takes long enough to read it, and not at every step", async () => {
    let clock = 0;
    const { connection, open, posted } = loop(
      false,
      {
        read: (_request, observer) => {
          for (let step = 0; step < 300; step++, clock++) observer.progress?.("step", step / 300);
          return { ok: true, value: { document: 1 }, warnings: [] };
        },
      },
      () => clock,
    );
    open();
    await connection.call("read", { text: "", file: "" }).outcome;
    const told = posted.flatMap((reply) =>
      reply.kind === "progress" ? [reply.progress.fraction * 300] : [],
    );
    expect(told.map(Math.round)).toEqual([100, 140, 180, 220, 260]);
  });

  it("lets no call hang when the worker breaks or is closed", async () => {
    const { connection, fail } = loop(false, {});
    const lost = connection.call("read", { text: "", file: "" });
    fail("gone");
    await expect(lost.outcome).rejects.toThrow("gone");
    const closed = connection.call("read", { text: "", file: "" });
    connection.close();
    await expect(closed.outcome).rejects.toBeInstanceOf(CancelledHere);
  });
});
