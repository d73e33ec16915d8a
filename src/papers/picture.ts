/**
 * What a picture's file says of itself: PNG (ISO/IEC 15948: width and height open the first chunk, IHDR) or JPEG
 * (ISO/IEC 10918-1: they stand in the frame header, SOF0 to SOF3 here).
 */

import { failure, type Outcome, success } from "../diagnostics/issue.ts";
import type { Picture } from "../drawing/paper/paper.ts";

const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** Name of the last chunk, as a number. */
const IEND = 0x49454e44;
/** Second bytes of JPEG's markers of a scan's start and the picture's end. */
const SOS = 0xda;
const EOI = 0xd9;
/** Pixels: what a hand-over carries without growing out of hand. */
const LARGEST = 8192;

export function pictureOf(bytes: Uint8Array): Outcome<Picture> {
  const size = PNG_SIGNATURE.every((byte, i) => bytes[i] === byte) ? pngSize(bytes) : jpegSize(bytes);
  if (size === undefined || size.width < 1 || size.height < 1 || Math.max(size.width, size.height) > LARGEST)
    return failure({
      code: "picture-unreadable",
      message: "The picture was not read.",
      expected: `a PNG or JPEG file of at most ${LARGEST} × ${LARGEST} pixels`,
      received: size === undefined ? nameOf(bytes) : `${size.width} × ${size.height} pixels`,
    });
  if (size.type === "png" ? !isPngWhole(bytes) : !isJpegWhole(bytes))
    return failure({
      code: "picture-cut-short",
      message: "The picture's file ends before the picture does.",
      expected: size.type === "png" ? "the chunk IEND at its end" : "the marker EOI at its end",
      received: `${bytes.length} bytes without`,
    });
  return success({ ...size, bytes });
}

/** A drawing of lines is not drawn: what is in it (scripts, fonts, filters) is more than paper can be trusted with. */
function nameOf(bytes: Uint8Array): string {
  const isSvg = /<svg[\s>]/i.test(String.fromCharCode(...bytes.subarray(0, 2048)));
  return isSvg ? "an SVG drawing: export it as PNG, some 1000 pixels wide" : "another file";
}

function pngSize(bytes: Uint8Array): Omit<Picture, "bytes"> | undefined {
  if (bytes.length < 33) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return { type: "png", width: view.getUint32(16), height: view.getUint32(20) };
}

/** Chunks follow each other, each as long as it says, up to IEND. */
function isPngWhole(bytes: Uint8Array): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = PNG_SIGNATURE.length; at + 12 <= bytes.length; at += 12 + view.getUint32(at))
    if (view.getUint32(at + 4) === IEND) return true;
  return false;
}

/** Between the start of the scan and the file's end is the picture's end: before it a small picture of a camera's may have one of its
 * own, and cameras write more behind it. */
function isJpegWhole(bytes: Uint8Array): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let scan = 2;
  while (scan + 4 <= bytes.length && bytes[scan] === 0xff && bytes[scan + 1] !== SOS)
    scan += 2 + view.getUint16(scan + 2);
  for (let at = bytes.length - 2; at > scan; at--)
    if (bytes[at] === 0xff && bytes[at + 1] === EOI) return true;
  return false;
}

function jpegSize(bytes: Uint8Array): Omit<Picture, "bytes"> | undefined {
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 2; at + 9 < bytes.length && bytes[at] === 0xff; at += 2 + view.getUint16(at + 2)) {
    const marker = bytes[at + 1];
    if (marker >= 0xc0 && marker <= 0xc3)
      return { type: "jpeg", height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
  }
  return undefined;
}
