import { describe, expect, it } from "vitest";
import { formatNamed, formatOf, PHOTOMETRIC_ENDINGS } from "../../src/photometry/photometric-formats.ts";

describe("photometric formats", () => {
  it("go by endings of their own, in any case of letters", () => {
    expect(new Set(PHOTOMETRIC_ENDINGS).size).toBe(PHOTOMETRIC_ENDINGS.length);
    expect(formatNamed("folder/Dome.IES")?.name).toBe("LM-63");
    // EULUMDAT files go by both endings: common practice, no source.
    expect(formatNamed("dome.eul")?.name).toBe("EULUMDAT");
    expect(formatNamed("dome.ldt")?.name).toBe("EULUMDAT");
    expect(formatNamed("dome.json")).toBeUndefined();
  });

  it("are told by what a file holds before its name", () => {
    const text = (lines: string) => new TextEncoder().encode(lines);
    const counts = "A maker\n1\n1\n1\n0\n19\n5\nreport\nname\n";
    expect(formatOf(text(counts), "misnamed.ies")).toBe("EULUMDAT");
    expect(formatOf(text("IESNA:LM-63-2002\nTILT=NONE\n"), "misnamed.ldt")).toBe("LM-63");
    expect(formatOf(text('<?xml version="1.0"?>'), "misnamed.ies")).toBe("TM-33");
    expect(formatOf(Uint8Array.of(0x50, 0x4b, 3, 4), "misnamed.xml")).toBe("GLDF");
    expect(formatOf(text("nothing known"), "named.ies")).toBe("LM-63");
    expect(formatOf(text("nothing known"), "named.txt")).toBeUndefined();
  });
});
