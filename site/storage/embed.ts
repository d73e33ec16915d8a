/** Writes a photometric file into a study: the other way round from `embedded.ts`, and loaded only where one is given. */

/** A file as it stands in a study: as text when its bytes are plain UTF-8, else in base64. */
export function embed(bytes: Uint8Array): { text: string } | { base64: string } {
  try {
    const text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
    if (!text.includes("\0")) return { text };
  } catch {
    // Not UTF-8: the bytes themselves are kept, for the reader to decode.
  }
  let binary = "";
  for (let at = 0; at < bytes.length; at += 8192) {
    binary += String.fromCharCode(...bytes.subarray(at, at + 8192));
  }
  return { base64: btoa(binary) };
}
