/** Messages speak the trade and the user's units, once each, and lead to the field. */
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import {
  fieldOf,
  issueWords,
  issueWordsAt,
  refusedIssue,
  saidIssues,
} from "../../site/components/issue-words.ts";
import { refusalWords } from "../../site/components/start-dialog.ts";
import { placeWords, valueWords } from "../../site/components/study-words.ts";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { write } from "../../site/store/pointer.ts";
import type { Issue } from "../../src/diagnostics/issue.ts";
import { issueIn, issueTexts, lengthList, phrase } from "../../src/diagnostics/phrase.ts";
import { answers } from "../../src/workers/answers.ts";

type Unit = "mm" | "m" | "ft-in";
const CLEARANCE = ["arrangements", 0, "layers", 0, "row", "clearance"];

/** What the study's check finds once a value of the example is another. */
async function issuesWith(path: (string | number)[], value: unknown) {
  const study = write(example as never, path, value as never) as unknown as RawStudy;
  // Bodies alone decide here; photometry is made from flux and beam.
  const luminaires = Object.fromEntries(
    Object.entries(study.luminaires ?? {}).map(([name, { photometry: _, ...rest }]) => [
      name,
      { ...rest, beam: { flux: 800, angle: 60 } },
    ]),
  );
  const document = { ...study, luminaires } as RawStudy;
  const outcome = await answers().light({ document, arrangement: 0, quality: "quick" }, {});
  const view = (length: Unit) => ({ study: document, display: { length, illuminance: "lx" as const } });
  return { issues: outcome.ok ? [] : outcome.issues, view };
}

it("says once that a row reaches above the ceiling, and the most clearance that does not", async () => {
  const { issues, view } = await issuesWith(CLEARANCE, 1.77);
  expect(issues).toHaveLength(1);
  const said = saidIssues(issues, view("mm"));
  expect(said).toHaveLength(1);
  const [{ place, words, path }] = said;
  expect(place).toBe("Pendants of three domes, clearance");
  expect(path).toEqual(CLEARANCE);
  const most = Number(/above the ceiling; (\d+) mm clearance is the most/.exec(words)?.[1]) / 1000;
  expect(issueWordsAt(issues, CLEARANCE, view("mm"))).toMatch(/^It would reach above the ceiling/);
  const inches = / (\d'-[\d /]+") clearance is the most/.exec(
    saidIssues(issues, view("ft-in"))[0].words,
  )?.[1];
  expect((await issuesWith(CLEARANCE, inches)).issues).toEqual([]);
  // The remedy is one: what it names is accepted, five millimetres more are not.
  expect((await issuesWith(CLEARANCE, most)).issues).toEqual([]);
  expect((await issuesWith(CLEARANCE, most + 0.005)).issues).not.toEqual([]);
});

it("gives a range and what was found in the unit on screen", async () => {
  const { issues, view } = await issuesWith(CLEARANCE, -0.1);
  expect(issueWords(issues[0], view("mm"))).toBe(
    "Pendants of three domes, clearance: the length is out of range. Expected a length above 0, found -100 mm.",
  );
  const seat = await issuesWith(["people", 0, "stature"], 4);
  expect(issueWords(seat.issues[0], seat.view("mm"))).toBe(
    "Cook, stature: the length is out of range. Expected 800 mm to 2500 mm, found 4000 mm.",
  );
});

it("names furniture, zones, openings and luminaires by their names", () => {
  const study = example as unknown as RawStudy;
  const words = (...path: (string | number)[]) => Object.values(placeWords(study, path)).join(", ");
  expect(words("bodies", 2, "box")).toBe("tall larder, size and place");
  expect(words("island", "zones", 0, "target")).toBe("prep, target");
  expect(words("room", "openings", 0)).toBe("opening 1, ");
  expect(words("luminaires", "dome", "body", "reflectance")).toBe("dome, reflectance");
  expect(words("people", "1", "seat")).toBe("guest, height of the seat");
  expect(words("island", "reflectance", "top")).toBe("island, reflectance of its top");
  expect(words("room", "ceilingHeight")).toBe("room, ceiling height");
});

it("shows values as people write them", () => {
  const mm = { display: { length: "mm", illuminance: "lx" } as const };
  expect(valueWords(0.7999999999999999, ["luminaires", "dome", "body", "reflectance"], mm)).toBe("0.8");
  expect(valueWords(0.64, ["people", 1, "seat"], mm)).toBe("640 mm");
  expect(valueWords([2.7, 1.9], ["island", "centre"], mm)).toBe("2700 mm, 1900 mm");
});

it("says the lengths of an issue in any unit, and leaves alone what only looks like one", () => {
  const texts = issueTexts({
    message: phrase`12 m² of a ${3.5} wall, called "2 m".`,
    received: phrase`(${lengthList([-0.28, 2.887, 1.77])})`,
  });
  const issue: Issue = { code: "x", severity: "error", where: {}, ...texts };
  expect(issue.message).toBe('12 m² of a 3.5 m wall, called "2 m".');
  expect(issueIn(issue, "mm")).toMatchObject({
    message: '12 m² of a 3500 mm wall, called "2 m".',
    received: "(-280 mm, 2887 mm, 1770 mm)",
  });
  expect(issueIn(issueIn(issue, "mm"), "m")).toEqual(issue);
});

it("keeps line and file of a list's fault", () => {
  const issue: Issue = {
    code: "readings",
    severity: "error",
    message: "The reading is no illuminance.",
    expected: "a number from 0",
    received: '"x"',
    where: { file: "readings", line: 3 },
  };
  const view = {
    study: example as unknown as RawStudy,
    display: { length: "mm", illuminance: "lx" } as const,
  };
  expect(issueWords(issue, view)).toBe(
    'readings, line 3: the reading is no illuminance. Expected a number from 0, found "x".',
  );
  expect(fieldOf(issue)).toBeUndefined();
});

it("says of a study file that is refused what is wrong in the trade's words, and where for who wrote it", async () => {
  const [a, b, ...rest] = example.arrangements;
  const [pendants, ...others] = a.layers;
  const { row: _, ...layer } = pendants;
  const free = { ...layer, at: [{ position: [2, 2, 1.7] }, { position: [2.7, 2, "high"] }] };
  const { name: _name, ...nameless } = b;
  const study = {
    ...example,
    island: { ...example.island, centre: ["left", 2] },
    people: [{ ...example.people[0], stature: 4 }, example.people[1]],
    arrangements: [{ ...a, layers: [free, ...others] }, nameless, ...rest],
  };
  const text = JSON.stringify(study, undefined, 2);
  const outcome = await answers().read({ text, file: "mine.study.json" }, {});
  const issues = outcome.ok ? [] : outcome.issues;
  const view = { study: study as unknown as RawStudy, display: { length: "mm", illuminance: "lx" } as const };
  const said = issues.map((issue) => refusedIssue(issue, view));
  expect(said.map(({ words }) => words.replace(/:.*/s, ""))).toEqual([
    "Island, middle from the left wall",
    "Cook, stature",
    "Pendant 2 of three domes, height",
    "Option B, name",
  ]);
  expect(said[1].words).toBe(
    "Cook, stature: the length is out of range. Expected 800 mm to 2500 mm, found 4000 mm.",
  );
  expect(said[2].location).toMatch(
    /^mine\.study\.json:\d+:\d+ \/arrangements\/0\/layers\/0\/at\/1\/position\/2$/,
  );
});

it("names places in documents that hold anything", () => {
  for (const study of [{}, { arrangements: 3 }, { arrangements: [null, 1] }, { island: "none", bodies: {} }])
    for (const path of [
      ["arrangements", 1, "layers", 0, "at", 1, "position", 0],
      ["bodies", 0],
      ["island", "zones", 0, "size", 1],
    ])
      expect(placeWords(study as unknown as RawStudy, path).subject).not.toBe("");
});

it("says of a kitchen that cannot be started which sizes do not go together, once and in the units on screen", async () => {
  const sizes = { length: 7, width: 1.1, ceilingHeight: 2.6, room: { length: 4, width: 3 } };
  const outcome = await answers().start(sizes, {});
  const issues = outcome.ok ? [] : outcome.issues;
  // Pendants that hang outside with it are no fault of their own.
  expect(issues).toHaveLength(1);
  expect(refusalWords(issues, { length: "mm", illuminance: "lx" })).toEqual([
    "Island: the island reaches outside the room. Expected corners within 4000 mm × 3000 mm, found a corner at (-1500 mm, 950 mm).",
  ]);
});
