/** Our decoder against the platform's, which the pure stages do not have. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decodeText, decodeUtf8 } from "../../src/photometry/text-decoding.ts";

const strict = (bytes: Uint8Array): string | undefined => {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return undefined;
  }
};

describe("text of bytes", () => {
  it("is UTF-8 exactly where the platform says so", () => {
    const pieces = fc.oneof(
      fc.uint8Array({ maxLength: 6 }),
      fc.string({ unit: "binary" }).map((text) => new TextEncoder().encode(text)),
      fc
        .constantFrom([0xed, 0xa0, 0x80], [0xc0, 0x80], [0xf4, 0x90, 0x80, 0x80], [0xe2, 0x82])
        .map((bytes) => Uint8Array.from(bytes)),
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 8 }), (parts) => {
        const bytes = Uint8Array.from(parts.flatMap((part) => Array.from(part as Uint8Array)));
        expect(decodeUtf8(bytes)).toBe(strict(bytes));
      }),
      { numRuns: 1000 },
    );
  });

  it("is code page 1252 otherwise", () => {
    // The 32 signs from 0x80, by the WHATWG index; the platform's own decoder may take them for Latin-1.
    const signs = "€\x81‚ƒ„…†‡ˆ‰Š‹Œ\x8dŽ\x8f\x90‘’“”•–—˜™š›œ\x9džŸ";
    expect(decodeText(Uint8Array.from({ length: 32 }, (_, i) => 0x80 + i))).toEqual({
      text: signs,
      encoding: "windows-1252",
    });
    const rest = Uint8Array.from({ length: 96 }, (_, i) => 0xa0 + i);
    expect(decodeText(rest).text).toBe(String.fromCharCode(...rest));
  });

  it("keeps no byte-order mark", () => {
    expect(decodeText(Uint8Array.of(0xef, 0xbb, 0xbf, 0x61))).toEqual({ text: "a", encoding: "UTF-8" });
    expect(decodeText(Uint8Array.of(0xff, 0xfe, 0x61, 0))).toEqual({ text: "a", encoding: "UTF-16LE" });
    expect(decodeText(Uint8Array.of(0xfe, 0xff, 0, 0x61))).toEqual({ text: "a", encoding: "UTF-16BE" });
    expect(decodeText(Uint8Array.of(0xff, 0xfe)).text).toBe("");
  });

  it("is whole beyond the size of one chunk", () => {
    const text = "é𝛾a".repeat(20_000);
    expect(decodeText(new TextEncoder().encode(text)).text).toBe(text);
    const latin = "é".repeat(20_000);
    expect(decodeText(Uint8Array.from(latin, (c) => c.charCodeAt(0))).text).toBe(latin);
  });
});
