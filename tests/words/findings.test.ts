/** What stands beside the verdict: in few lines, in full, and as JSON that any reader takes. */
import { describe, expect, it } from "vitest";
import { type Findings, findingsOf, findingsPlanes } from "../../src/advice/findings.ts";
import { findingsJson } from "../../src/app/findings-json.ts";
import { assess } from "../../src/assessment/assess.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { findingsBrief, findingsFull, quarrelsWords } from "../../src/words/findings-text.ts";
import { sharedConcerns } from "../../src/words/person-words.ts";
import { wording } from "../../src/words/wording.ts";
import { ISLAND, type Json, kitchen, resolved } from "../support/studies.ts";

const WORDS = wording();

function found(more: Json): Findings {
  const study = resolved(kitchen(more));
  const [scene] = study.scenes;
  const planes = [...scene.planes, ...findingsPlanes(scene)];
  const result = new LightEngine().calculate({ ...scene, planes }, { ...study.options, quality: "quick" });
  const own = { ...result, planes: result.planes.slice(0, scene.planes.length) };
  const assessment = assess(study, scene, own, null);
  return findingsOf(study, scene, own, assessment, result.planes.slice(scene.planes.length));
}

const PEOPLE = [
  { name: "cook\u001b[31m", stature: 1.8, at: [2.4, 1.3], facing: 90, posture: "standing", age: 70 },
  { name: "guest", stature: 1.6, at: [2.9, 2.95], facing: 270, posture: "seated" },
];
const low = found({
  people: PEOPLE,
  island: {
    ...ISLAND,
    finish: "polished",
    zones: [{ name: "prep", from: [0, 0], size: [2.4, 1.1], target: "preparation" }],
  },
  arrangements: [
    {
      name: "low",
      layers: [
        // Hung at the cook's face, over the near edge.
        {
          name: "pendants",
          luminaire: "dome",
          row: { count: 3, clearance: 0.65, offset: [0, -0.4] },
          hours: 3,
        },
        { name: "ambient", luminaire: "spot", grid: { columns: 3, rows: 2, margin: 0.7 } },
      ],
    },
  ],
});
const bare = found({ arrangements: [{ name: "none", layers: [] }] });

describe("findings", () => {
  it("are brief: concerns by person, agreement of rules", () => {
    const brief = findingsBrief(low, WORDS);
    expect(brief.length).toBeLessThan(14);
    const text = brief.join("\n").replace(/\s+/g, " ");
    expect(text).toMatch(/leaning over, the head meets P\d/);
    expect(text).toMatch(/Rules of thumb: \d+ of \d+ agree\./);
    expect(text).not.toContain("\u001b");
    // 2026-11-28: "the polished top mirrors can" read as two verbs.
    const full = findingsFull(low, WORDS).join("\n").replace(/\s+/g, " ");
    for (const before of [/Brightest in view: (?:the bare lamp of )?/g, /Mirrored in the top: /g]) {
      const after = full.split(before).slice(1);
      expect(after).not.toEqual([]);
      for (const words of after) expect(words).toMatch(/^"(dome|spot)"/);
    }
    expect(quarrelsWords([low])).toMatch(/contradict one another here on clearance, count, spacing/);
    expect(quarrelsWords([bare])).toBeUndefined();
  });

  it("say a concern that several share once, at its worst", () => {
    const [cook] = low.people;
    const shared = sharedConcerns([cook, { ...cook, person: "other" }], WORDS);
    expect(shared.length).toBeGreaterThan(0);
    for (const { people } of shared) expect(people).toEqual([cook.person, "other"]);
  });

  it("tell of glare taken together, as the client's sheet does (2026-11-29: said nothing bright)", () => {
    const [cook] = low.people;
    const rated = (value: number, age: number) => ({
      ...cook,
      age,
      glare: { ...cook.glare, rating: { value, background: 10, counted: 4, leftOut: 0 } },
    });
    const words = (value: number, age: number) =>
      sharedConcerns([rated(value, age)], WORDS).map((concern) => concern.words);
    // 22 of catering kitchens, one step of three lower for eyes over 65.
    expect(words(21, 79)).toContain(
      "what is in view is glaring taken together (UGR 21, where kitchens at work are held to 19)",
    );
    expect(words(21, 40).join()).not.toContain("UGR");
    // 2026-11-29: 19.4 against 19 was called glaring and printed as 19.
    expect(words(19.4, 79).join()).not.toContain("UGR");
    expect(words(19.5, 79).join()).toContain("(UGR 20, where kitchens at work are held to 19)");
  });

  it("tell each person's own glare and limit (2026-11-29: 21 against 19 of both, one has 24 against 22)", () => {
    const [cook] = low.people;
    const rated = (person: string, value: number, age?: number) => ({
      ...cook,
      person,
      age,
      glare: { ...cook.glare, rating: { value, background: 10, counted: 4, leftOut: 0 } },
    });
    const words = (...people: Parameters<typeof sharedConcerns>[0]) =>
      sharedConcerns(people, WORDS).find((concern) => concern.words.includes("UGR"));
    const differing = words(rated("Ben", 21.2, 79), rated("Cleo", 24.1), rated("Dora", 22.3));
    expect(differing).toEqual({
      people: ["Ben", "Cleo"],
      words:
        "what is in view is glaring taken together (UGR 21 for Ben and 24 for Cleo, where kitchens at work are held to 19 and 22)",
    });
    expect(words(rated("Ben", 24.2), rated("Cleo", 23.8))?.words).toBe(
      "what is in view is glaring taken together (UGR 24, where kitchens at work are held to 22)",
    );
  });

  it("are complete in full: every rule that applies, with light and source", () => {
    const full = findingsFull(low, WORDS).join("\n").replace(/\s+/g, " ");
    const applying = low.cards.filter(({ outcome }) => outcome !== "does not apply");
    expect(applying.length).toBeGreaterThan(35);
    for (const { rule, source } of applying) {
      expect(full).toContain(rule);
      expect(full).toContain(source);
    }
    expect(full).toMatch(/cook.* at 70 is in the band over 65, asked ×2/);
    expect(full).toMatch(/UGR \d+|No glare rating/);
    expect(full).toMatch(/Light on the face: vertical \d+ lx, cylindrical \d+ lx/);
    expect(full).toMatch(/In equal bays at this height, by width and count/);
    expect(full).not.toContain("\u001b");
  });

  it("are JSON without a number that is none", () => {
    for (const each of [low, bare]) {
      const visit = (value: unknown, path: string): void => {
        if (typeof value === "number") expect(Number.isFinite(value), path).toBe(true);
        else if (typeof value === "object" && value !== null)
          for (const [key, inner] of Object.entries(value)) visit(inner, `${path}/${key}`);
      };
      const json = findingsJson(each);
      visit(json, "");
      expect(JSON.parse(JSON.stringify(json))).toMatchObject({
        cards: expect.any(Array),
        people: expect.any(Array),
      });
    }
  });

  it("say nothing of what is not there", () => {
    expect(findingsBrief(bare, WORDS)).toEqual([]);
    expect(bare.people).toEqual([]);
    expect(bare.sizes).toBeUndefined();
  });
});
