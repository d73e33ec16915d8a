/**
 * A day of editing without a page: random edits, undone and done again, against a plain list of documents as the model; light asked all the
 * while in one workspace, and now and then in a fresh one, which must answer the same bit for bit.
 */

import type { RawStudy } from "../../site/edits/raw-study.ts";
import { StudyHistory } from "../../site/store/history.ts";
import type { Json } from "../../site/store/pointer.ts";
import { lightOfRequest } from "../../src/app/light.ts";
import { Workspace } from "../../src/app/open-document.ts";
import { randomStream } from "../support/random-stream.ts";
import { documentEdits } from "./random-edits.ts";

/** Changes that the history keeps. */
const KEPT = 500;

export interface LongSession {
  readonly edits: number;
  readonly undone: number;
  readonly lights: number;
  readonly refused: number;
  /** Fresh starts whose light was the same. */
  readonly same: number;
  readonly faults: readonly string[];
  /** Heap and array buffers (MB) at each tenth, where the collector can be called. */
  readonly memory: readonly number[];
  /** Median time of a light (ms) at each tenth. */
  readonly times: readonly number[];
}

export async function longSession(
  start: RawStudy,
  count: number,
  seed: number,
  every = 20,
): Promise<LongSession> {
  const random = randomStream(seed);
  const history = new StudyHistory(start as unknown as Json);
  const model = { documents: [JSON.stringify(start)], at: 0 };
  const workspace = new Workspace();
  const faults: string[] = [];
  const [memory, times]: number[][] = [[], []];
  let [undone, lights, refused, same] = [0, 0, 0, 0];
  let recent: number[] = [];
  let back = 0;
  for (let edit = 1; edit <= count; edit++) {
    // A study that is refused is taken back for some steps, as a person would.
    const kind = back-- > 0 ? 0 : random();
    if (kind < 0.25) {
      const expected = model.at > 0;
      if ((history.undo() !== undefined) !== expected) faults.push(`edit ${edit}: undo`);
      if (expected) model.at--;
      undone++;
    } else if (kind < 0.4) {
      const expected = model.at < model.documents.length - 1;
      if ((history.redo() !== undefined) !== expected) faults.push(`edit ${edit}: redo`);
      if (expected) model.at++;
    } else {
      const before = history.document;
      const change = documentEdits(before as unknown as RawStudy, random, start);
      if ("document" in change) history.replace(change.name, change.document as unknown as Json);
      else history.change(change.name, change.edits);
      if (history.document !== before) {
        model.documents = [...model.documents.slice(0, model.at + 1), JSON.stringify(history.document)].slice(
          -KEPT - 1,
        );
        model.at = model.documents.length - 1;
      }
    }
    if (JSON.stringify(history.document) !== model.documents[model.at])
      faults.push(`edit ${edit}: another document`);
    if (history.done.length !== model.at)
      faults.push(`edit ${edit}: ${history.done.length} changes for ${model.at}`);
    if (edit % every === 0) {
      const quality = edit % (every * 25) === 0 ? "full" : "quick";
      const started = performance.now();
      const light = await lightOf(history.document, quality, workspace);
      if (quality === "quick") recent.push(performance.now() - started);
      lights++;
      if (light === undefined) {
        refused++;
        back = every / 2;
      }
      if (edit % (every * 5) === 0) {
        if (light !== (await lightOf(history.document, quality, new Workspace())))
          faults.push(`edit ${edit}: other light`);
        else same++;
      }
    }
    if (edit % Math.floor(count / 10) === 0) {
      memory.push(await held());
      times.push(recent.sort((a, b) => a - b)[recent.length >> 1] ?? 0);
      recent = [];
    }
  }
  return { edits: count, undone, lights, refused, same, faults, memory, times };
}

/** Every number of a light, in hexadecimal; undefined where the study is refused. */
async function lightOf(
  document: Json,
  quality: "quick" | "full",
  workspace: Workspace,
): Promise<string | undefined> {
  const light = await lightOfRequest({ document, arrangement: 0, quality }, workspace, {});
  if (!light.ok) return undefined;
  const { contours, assessment } = light.value;
  const figures = assessment.zones.map(({ name, statistics }) => ({ name, statistics }));
  const fields: string[] = [];
  JSON.stringify(contours, (_, value: unknown) => {
    if (ArrayBuffer.isView(value))
      fields.push(Buffer.from(value.buffer, value.byteOffset, value.byteLength).toString("base64"));
    return ArrayBuffer.isView(value) ? null : value;
  });
  return JSON.stringify([figures, fields]);
}

async function held(): Promise<number> {
  const collect = (globalThis as { gc?: () => void }).gc;
  if (collect === undefined) return 0;
  let least = Number.POSITIVE_INFINITY;
  for (let look = 0; look < 5; look++) {
    collect();
    await new Promise((done) => setTimeout(done, 20));
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    least = Math.min(least, (heapUsed + arrayBuffers) / 2 ** 20);
  }
  return least;
}
