/**
 * A study in the address itself: packed into the URL's fragment, which browsers never send to a server.
 *
 * Packing is DEFLATE, then base64url behind a version mark, of what some option hangs: luminaires and photometric files that none uses
 * stay behind. A link longer than {@link SAFE} may be cut by mail programs and chats, which its reader then says; one longer than
 * {@link LONGEST} is none.
 */

import { deflateSync, Inflate, strFromU8, strToU8 } from "fflate";
import { FILE_LIMITS } from "../../src/app.ts";
import type { RawStudy } from "../edits/raw-study.ts";

const MARK = "study=1.";

/** Longest fragment that any program carries whole (characters). */
export const SAFE = 8000;
/** Longest fragment offered as a link (characters): browsers take it, some mail programs do not. */
export const LONGEST = 32_000;

export interface Packed {
  /** Without `#`. */
  readonly fragment: string;
  /** Characters above {@link LONGEST}; 0 where it fits a link. */
  readonly excess: number;
}

export function packFragment(study: RawStudy): Packed {
  const packed = deflateSync(strToU8(JSON.stringify(usedOnly(study))), { level: 9 });
  const fragment = MARK + toBase64Url(packed);
  return { fragment, excess: Math.max(0, fragment.length - LONGEST) };
}

/** The study without luminaires no option hangs, and without files no luminaire left names. */
export function usedOnly(study: RawStudy): RawStudy {
  const hung = new Set(study.arrangements.flatMap(({ layers }) => layers.map(({ luminaire }) => luminaire)));
  const luminaires = Object.entries(study.luminaires ?? {}).filter(([name]) => hung.has(name));
  const named = new Set(luminaires.map(([, { photometry }]) => photometry));
  const embedded = Object.entries(study.embedded ?? {}).filter(([path]) => named.has(path));
  return {
    ...study,
    ...(study.luminaires === undefined ? {} : { luminaires: Object.fromEntries(luminaires) }),
    ...(study.embedded === undefined ? {} : { embedded: Object.fromEntries(embedded) }),
  };
}

export type Unpacked =
  | { readonly kind: "none" }
  | { readonly kind: "study"; readonly text: string }
  | { readonly kind: "refused"; readonly message: string };

/** The study's text in a fragment (with or without `#`), if it holds one. */
export function unpackFragment(fragment: string): Unpacked {
  const text = fragment.replace(/^#/, "");
  if (!text.startsWith("study=")) return { kind: "none" };
  if (!text.startsWith(MARK)) {
    return {
      kind: "refused",
      message: "The link holds a study packed by a later version. Expected a link that starts with #study=1.",
    };
  }
  try {
    const packed = fromBase64Url(text.slice(MARK.length));
    const chunks: Uint8Array[] = [];
    let size = 0;
    let ended = false;
    const inflate = new Inflate((chunk, final) => {
      size += chunk.length;
      if (size > FILE_LIMITS.study) throw new RangeError("too large");
      chunks.push(chunk.slice());
      ended = final;
    });
    for (let at = 0; at < packed.length; at += 16384) {
      inflate.push(packed.subarray(at, at + 16384), at + 16384 >= packed.length);
    }
    if (!ended) throw new Error("cut short");
    const whole = new Uint8Array(size);
    let at = 0;
    for (const chunk of chunks) {
      whole.set(chunk, at);
      at += chunk.length;
    }
    return { kind: "study", text: strFromU8(whole) };
  } catch (error) {
    return {
      kind: "refused",
      message:
        error instanceof RangeError
          ? "The link's study is larger than 8 MB when unpacked and was not read."
          : "The link's study is damaged or cut short. Ask for it as a file.",
    };
  }
}

function toBase64Url(bytes: Uint8Array): string {
  let binary = "";
  for (let at = 0; at < bytes.length; at += 8192) {
    binary += String.fromCharCode(...bytes.subarray(at, at + 8192));
  }
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

function fromBase64Url(text: string): Uint8Array {
  const binary = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
  return Uint8Array.from(binary, (character) => character.charCodeAt(0));
}
