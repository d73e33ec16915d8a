/**
 * The picture beneath the floor plan: beside the study in this browser's own database, or inside it where that was asked for. It is sent
 * nowhere.
 *
 * Whatever it comes from, it is looked at before it is shown, and shown as a bitmap: what a vector picture holds beside shapes cannot act.
 */

import { openDB } from "idb";
import { type Issue, type Outcome, type UnderlayFile, underlayFile } from "../../src/app.ts";
import type { RawStudy } from "../edits/raw-study.ts";
import { filesIn } from "./embedded.ts";

export interface ShownPicture {
  readonly href: string;
  /** Pixels that the study's `scale` counts. */
  readonly width: number;
  readonly height: number;
  /** Size of the file. */
  readonly bytes: number;
}

/** Longest side of the bitmap (px): twice what a large screen shows of a plan. */
const LONGEST_SIDE = 4096;
/** Pictures kept; those least lately brought go first. */
const KEPT = 20;

interface Kept {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly at: number;
}

const shelf = () =>
  openDB("candlespan-underlays", 1, {
    upgrade(database) {
      database.createObjectStore("pictures", { keyPath: "name" });
    },
    blocking: (_from, _to, event) => (event.target as IDBDatabase).close(),
  });

/** Keeps a picture under its name, or under one with a number where another picture has that.
 * @returns the name; the picture itself is lost with the page where the browser keeps nothing */
export async function keepPicture(name: string, bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const database = await shelf();
  try {
    const all = (await database.getAll("pictures")) as Kept[];
    const dot = name.lastIndexOf(".");
    let free = name;
    for (let i = 2; ; i++) {
      const there = all.find((each) => each.name === free);
      if (there === undefined || isSame(there.bytes, bytes)) break;
      free = `${name.slice(0, dot)} ${i}${name.slice(dot)}`;
    }
    await database.put("pictures", { name: free, bytes, at: Date.now() } satisfies Kept);
    const oldest = all.filter((each) => each.name !== free).sort((a, b) => b.at - a.at);
    for (const { name: gone } of oldest.slice(KEPT - 1)) await database.delete("pictures", gone);
    return free;
  } finally {
    database.close();
  }
}

/** Bytes of the study's picture: its own, else those kept beside it. */
export async function pictureBytes(
  study: RawStudy,
  name: string,
): Promise<Uint8Array<ArrayBuffer> | undefined> {
  const own = filesIn({ embedded: only(study.embedded, name) })[0];
  if (own !== undefined) return new Uint8Array(own.content);
  try {
    const database = await shelf();
    const kept = (await database.get("pictures", name)) as Kept | undefined;
    database.close();
    return kept?.bytes;
  } catch {
    return undefined;
  }
}

function only(embedded: RawStudy["embedded"], name: string): RawStudy["embedded"] {
  return embedded !== undefined && Object.hasOwn(embedded, name) ? { [name]: embedded[name] } : {};
}

function isSame(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, i) => byte === b[i]);
}

/** The picture as the floor plan shows it, or why it is not shown. */
export async function shownPicture(
  bytes: Uint8Array<ArrayBuffer>,
  name: string,
): Promise<Outcome<ShownPicture>> {
  const read = underlayFile(bytes, name);
  if (!read.ok) return read;
  const address = URL.createObjectURL(new Blob([bytes], { type: read.value.type }));
  try {
    const picture = new Image();
    picture.src = address;
    await picture.decode();
    const bitmap = await bitmapOf(picture, read.value);
    return { ok: true, value: { ...bitmap, bytes: bytes.length }, warnings: [] };
  } catch {
    return { ok: false, issues: [undrawn(name)] };
  } finally {
    URL.revokeObjectURL(address);
  }
}

function undrawn(file: string): Issue {
  return {
    code: "underlay-refused",
    severity: "error",
    message:
      "The browser could not draw the picture. Open it in a program that shows pictures and save it as PNG.",
    expected: "a sound PNG, JPEG or SVG file",
    received: "a damaged one",
    where: { file },
  };
}

async function bitmapOf(
  picture: HTMLImageElement,
  { type, ...own }: UnderlayFile,
): Promise<Pick<ShownPicture, "href" | "width" | "height">> {
  const isVector = type === "image/svg+xml";
  // A photograph that says it lies on its side is shown upright, and counted so.
  const width = isVector ? own.width : picture.naturalWidth;
  const height = isVector ? own.height : picture.naturalHeight;
  const fits = LONGEST_SIDE / Math.max(width, height);
  const k = isVector ? fits : Math.min(1, fits);
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(k * width));
  canvas.height = Math.max(1, Math.round(k * height));
  canvas.getContext("2d")?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done));
  if (blob === null) throw new Error("no bitmap");
  return { href: URL.createObjectURL(blob), width, height };
}
