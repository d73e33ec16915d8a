/**
 * 2026-11-29. A place in a study is a JSON pointer (RFC 6901), in which `/` and `~` of a name are escaped. Where a name was put into one as
 * it stands, the place was another: a pendant called "globe 9/10" whose height nobody gave no longer held the papers, and faults in a
 * shade or file named so were told at a place that the study has not.
 */
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { openDocument } from "../../src/app/open-document.ts";
import { holds } from "../../src/app/set-out/open-issues.ts";
import { setOut } from "../../src/app/set-out/set-out.ts";
import { Arguments } from "../../src/cli/command.ts";
import { movedStudy } from "../../src/cli/moved-study.ts";
import { readShades } from "../../src/study/shade-file.ts";
import type { StudyDocument } from "../../src/study/study-schema.ts";

const study = (name: string, luminaire: object) => ({
  format: "candlespan-study" as const,
  version: 1 as const,
  room: { length: 5, width: 4, ceilingHeight: 3 },
  island: { length: 2, width: 1, height: 0.9 },
  luminaires: { [name]: luminaire },
  arrangements: [
    {
      name: "a",
      layers: [{ name: "p", luminaire: name, role: "pendant", row: { count: 1, clearance: 0.8 } }],
    },
  ],
});

it.each(["globe", "globe 9/10", "globe~2"])("holds what rests on a typical body of %s", async (name) => {
  const opened = await openDocument(
    study(name, { beam: { flux: 800, angle: 60 }, body: { profile: "drum" } }),
  );
  if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
  const [scene] = opened.value.study.scenes;
  const words = { length: String, clash: () => "", order: () => [] };
  const held = holds(
    { scene, clashes: [] },
    setOut(scene, "mm", String),
    opened.value.study.defaults,
    words,
  ).map((each) => each.words);
  expect(held).toContain("Height of the luminaire's body not given: the drop rests on a typical one.");
  expect(held).toContain("Width of the luminaire's body not given: a typical one stands in for it.");
});

const SHADE = { profile: "drum", diameter: 0.4, height: 0.2, finish: "linen", top: "open", bottom: "open" };

it("tells where in a study a shade stands", () => {
  const read = readShades(
    JSON.stringify(study("drum 4/10", { lamp: { flux: 800 }, shade: SHADE })),
    "a.json",
    "a",
  );
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  expect(read.value[0].path).toBe("/luminaires/drum 4~110");
});

it("tells where in a shade of its own a fault stands, whatever its file is called", () => {
  const text = '{ "lamp": { "flux": 800 },\n"shade": { "profile": "drum", "diameter": -1 } }';
  const read = readShades(text, "drum~2.json", "drum~2");
  if (read.ok) throw new Error("read");
  expect(read.issues[0].where).toMatchObject({ path: "/shade/diameter", line: 2 });
});

it("tells which luminaire's file is missing where a study is written elsewhere", () => {
  const [here, there] = [0, 1].map(() => mkdtempSync(join(tmpdir(), "moved-")));
  const document = study("globe 9/10", { photometry: "none.ies" }) as unknown as StudyDocument;
  const moved = movedStudy(
    document,
    new Arguments([join(here, "a.json")], {}),
    join(there, "inside", "a.json"),
  );
  if (moved.ok) throw new Error("moved");
  expect(moved.issues[0].where.path).toBe("/luminaires/globe 9~110/photometry");
});

it("tells which target asks for nothing", async () => {
  const opened = await openDocument({
    ...study("globe", { beam: { flux: 800, angle: 60 } }),
    targets: { "day/night": {} },
  });
  if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
  const { warnings } = opened.value.study;
  expect(warnings.find(({ code }) => code === "target-empty")?.where.path).toBe("/targets/day~1night");
});
