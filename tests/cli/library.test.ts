/** One question, one answer: the command and the library's own calls give the same figures, intervals and verdicts. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { openStudy } from "../../src/index.ts";
import { called } from "../support/cli.ts";
import { ISLAND, kitchen } from "../support/studies.ts";

const root = mkdtempSync(join(tmpdir(), "candlespan-library-"));
afterAll(() => rmSync(root, { recursive: true }));

const document = kitchen({
  room: { length: 3.4, width: 3, ceilingHeight: 2.4 },
  island: {
    ...ISLAND,
    centre: [1.7, 1.5],
    length: 1.8,
    width: 0.9,
    zones: [{ name: "prep", from: [0, 0], size: [1.8, 0.9], target: "own" }],
  },
  targets: { own: { illuminance: 460, uniformity: 0.55, source: "for the test" } },
});

for (const quality of ["quick", "full"] as const)
  it(`answers alike, ${quality}`, async () => {
    const path = join(root, "small.study.json");
    writeFileSync(path, JSON.stringify(document));
    const { out } = await called(
      ...["check", path, "--json", "--fail-on", "never"],
      ...(quality === "quick" ? ["--quick"] : []),
    );
    const [command] = JSON.parse(out).arrangements;

    const study = await openStudy(document);
    const library = await study.check(0, { draft: quality === "quick" });
    expect(JSON.parse(JSON.stringify(library.zones[0].checks))).toEqual(command.zones[0].checks);
    expect(library.verdict).toBe(command.verdict);
    expect(library.zones[0].checks).toHaveLength(2);
  });
