/** Bytes and text of files, never more than a stated limit of them. */

import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { resolve } from "node:path";
import { megabytes } from "../../diagnostics/file-limits.ts";
import { failure, type Outcome, success } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { nearestFile } from "./folder.ts";
import { reasonOf } from "./reason.ts";

/** The bytes of a file, or of standard input for `-`. At most `limit` bytes are ever held. */
export function readBytes(path: string, limit: number): Outcome<Uint8Array> {
  const file = path === "-" ? "standard input" : path;
  const wrong = (code: string, message: string, expected?: string, received?: string): Outcome<never> =>
    failure({ code, severity: "error", message, expected, received, where: { file } });
  if (path.includes("\0")) return wrong("file-name", "The path holds a zero byte.");
  let descriptor: number;
  try {
    descriptor = path === "-" ? 0 : openSync(path, "r");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT") return wrong("file-unreadable", reasonOf(error));
    const near = nearestFile(path);
    return wrong(
      "file-unreadable",
      "There is no such file.",
      near === undefined ? undefined : `perhaps ${printable(near, 200)}`,
      `nothing at ${printable(resolve(path), 400)}`,
    );
  }
  try {
    const status = fstatSync(descriptor);
    if (status.isDirectory()) return wrong("file-unreadable", "This is a folder.", "a file");
    if (status.isFile() && status.size > limit)
      return wrong(
        "file-too-large",
        "The file is too large to be what it should be.",
        `at most ${megabytes(limit)}`,
        megabytes(status.size),
      );
    return readCapped(descriptor, status.isFile() ? status.size : 0, limit, wrong);
  } catch (error) {
    return wrong("file-unreadable", reasonOf(error));
  } finally {
    if (descriptor !== 0) closeSync(descriptor);
  }
}

function readCapped(
  descriptor: number,
  size: number,
  limit: number,
  wrong: (code: string, message: string, expected?: string, received?: string) => Outcome<never>,
): Outcome<Uint8Array> {
  // One byte more than the status says: a file that grows meanwhile, and a pipe of unknown length, both end
  // with a read of nothing.
  let buffer = Buffer.allocUnsafe(Math.min(limit, Math.max(size, 65_536)) + 1);
  let used = 0;
  for (;;) {
    let got: number;
    try {
      got = readSync(descriptor, buffer, used, buffer.length - used, null);
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code;
      if (code === "EOF") break;
      if (code === "EAGAIN") {
        Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
        continue;
      }
      throw error;
    }
    if (got === 0) break;
    used += got;
    if (used > limit)
      return wrong("file-too-large", "There is more than can be right.", `at most ${megabytes(limit)}`);
    if (used === buffer.length) {
      const larger = Buffer.allocUnsafe(Math.min(limit + 1, buffer.length * 2));
      buffer.copy(larger, 0, 0, used);
      buffer = larger;
    }
  }
  return success(new Uint8Array(buffer.buffer, buffer.byteOffset, used));
}

/** UTF-8 text; a byte-order mark is dropped, bytes that are no UTF-8 are an error with their place. */
export function readUtf8(path: string, limit: number): Outcome<string> {
  const bytes = readBytes(path, limit);
  if (!bytes.ok) return bytes;
  const file = path === "-" ? "standard input" : path;
  try {
    return success(new TextDecoder("utf-8", { fatal: true }).decode(bytes.value));
  } catch {
    return failure({
      code: "file-not-text",
      severity: "error",
      message: "The file is not text.",
      expected: "UTF-8 text",
      received: "other bytes",
      where: { file, line: lineOfFirstBadByte(bytes.value) },
    });
  }
}

function lineOfFirstBadByte(bytes: Uint8Array): number {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let line = 1;
  let start = 0;
  for (let i = 0; i <= bytes.length; i++) {
    if (i < bytes.length && bytes[i] !== 10) continue;
    try {
      decoder.decode(bytes.subarray(start, i));
    } catch {
      return line;
    }
    start = i + 1;
    line++;
  }
  return 1;
}
