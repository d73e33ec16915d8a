/**
 * What a picture's file says of itself: PNG (ISO/IEC 15948: width and height open the first chunk, IHDR) or JPEG
 * (ISO/IEC 10918-1: they stand in the frame header, SOF0 to SOF3 here).
 */

import { failure, type Outcome, success } from "../diagnostics/issue.ts";
import type { Picture } from "../drawing/paper/paper.ts";

const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** Pixels: what a hand-over carries without growing out of hand. */
const LARGEST = 8192;

export function pictureOf(bytes: Uint8Array): Outcome<Picture> {
  const size = PNG_SIGNATURE.every((byte, i) => bytes[i] === byte) ? pngSize(bytes) : jpegSize(bytes);
  if (size === undefined || size.width < 1 || size.height < 1 || Math.max(size.width, size.height) > LARGEST)
    return failure({
      code: "picture-unreadable",
      severity: "error",
      message: "The picture was not read.",
      expected: `a PNG or JPEG file of at most ${LARGEST} × ${LARGEST} pixels`,
      received: size === undefined ? "another file" : `${size.width} × ${size.height} pixels`,
      where: {},
    });
  return success({ ...size, bytes });
}

function pngSize(bytes: Uint8Array): Omit<Picture, "bytes"> | undefined {
  if (bytes.length < 33) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return { type: "png", width: view.getUint32(16), height: view.getUint32(20) };
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
