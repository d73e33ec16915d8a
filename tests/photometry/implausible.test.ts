/** Values no luminaire has warn where a file is inspected and where a study hangs it, and hold the papers. */
import { describe, expect, it } from "vitest";
import { clashes } from "../../src/advice/clashes/clashes.ts";
import { openDocument } from "../../src/app/open-document.ts";
import { holds } from "../../src/app/set-out/open-issues.ts";
import { setOut } from "../../src/app/set-out/set-out.ts";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { summarise } from "../../src/photometry/summary.ts";

/** 1000 cd straight down to 0 at 90°: 1000·π·(…) lm of an own making. @param multiplier of the candela */
const ies = (multiplier: number, watts: number, size: number) =>
  `IESNA:LM-63-2002\nTILT=NONE\n1 -1 ${multiplier} 3 1 1 2 -${size} 0 0\n1 1 ${watts}\n0 45 90\n0\n1000 700 0\n`;

const cases: [string, string, string[]][] = [
  ["sound", ies(1, 30, 0.1), []],
  ["a lighthouse and more", ies(1e6, 30, 0.1), ["intensity-odd", "flux-odd", "efficacy-odd"]],
  ["a power station", ies(1, 2e5, 0.1), ["power-odd", "efficacy-odd"]],
  ["a tenth of a watt", ies(1, 0.5, 0.1), ["efficacy-odd"]],
  ["millimetres for metres", ies(1, 30, 300), ["opening-odd"]],
];

describe("values no luminaire has", () => {
  it.each(cases)("%s", async (_, text, codes) => {
    const read = readPhotometry(new TextEncoder().encode(text), { file: "a.ies" });
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    const { warnings } = summarise(read.value, read.warnings);
    expect(
      warnings
        .map(({ code }) => code)
        .filter((code) => /^(intensity|flux|power|efficacy|opening)-odd/.test(code)),
    ).toEqual(codes);
    const opened = await openDocument({
      format: "candlespan-study",
      version: 1,
      room: { length: 500, width: 500, ceilingHeight: 3 },
      island: { length: 2, width: 1, height: 0.9 },
      luminaires: { lamp: { photometry: "a.ies" } },
      embedded: { "a.ies": { text } },
      arrangements: [
        { name: "a", layers: [{ name: "p", luminaire: "lamp", role: "other", row: { count: 1 } }] },
      ],
    });
    if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
    const { study } = opened.value;
    const warned = study.warnings.filter(({ code }) => code === "luminaire-implausible");
    const far = codes.filter(
      (code) => code !== "efficacy-odd" || text.includes(" 0.5\n") || text.includes("1000000"),
    );
    expect(warned.length).toBe(far.length);
    const [scene] = study.scenes;
    const held = holds({ scene, clashes: clashes(scene) }, setOut(scene, "mm", String), [], {
      length: String,
      clash: () => "",
      order: () => [],
    });
    expect(held.filter(({ words }) => words.includes("beyond any luminaire")).length).toBe(far.length);
  });
});
