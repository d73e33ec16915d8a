/** Settings follow their layers and zones. */
import { describe, expect, it } from "vitest";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { addSetting, levelsBy, removeSetting, renamedInSettings } from "../../site/edits/settings.ts";

const layers = [
  { name: "pendants", luminaire: "dome" },
  { name: "ambient", luminaire: "spot" },
];
const study = {
  arrangements: [
    {
      name: "a",
      layers,
      settings: [
        { name: "dinner", dim: { pendants: 0.2, ambient: 0 }, zones: { prep: null, eating: "soft" } },
        { name: "night", dim: { ambient: 0.1 } },
      ],
    },
    { name: "b", layers, settings: [{ name: "dinner", zones: { prep: "soft" } }] },
    { name: "c", layers },
  ],
} as unknown as RawStudy;

describe("edits of settings", () => {
  it("rename a layer in every level, in its place, and remove it", () => {
    expect(renamedInSettings(study, "dim", "pendants", "domes", [0])).toEqual([
      { path: ["arrangements", 0, "settings", 0, "dim"], value: { domes: 0.2, ambient: 0 } },
    ]);
    expect(renamedInSettings(study, "dim", "ambient", undefined, [0]).map(({ value }) => value)).toEqual([
      { pendants: 0.2 },
      {},
    ]);
  });

  it("rename a zone in every option", () => {
    expect(renamedInSettings(study, "zones", "prep", "counter")).toEqual([
      { path: ["arrangements", 0, "settings", 0, "zones"], value: { counter: null, eating: "soft" } },
      { path: ["arrangements", 1, "settings", 0, "zones"], value: { counter: "soft" } },
    ]);
  });

  it("add under a fresh name, and remove the last with its list", () => {
    const [{ value }] = addSetting(study, 0).edits;
    expect((value as { name: string }[]).map(({ name }) => name)).toEqual(["dinner", "night", "setting"]);
    expect(removeSetting(study, 1, 0).edits).toEqual([
      { path: ["arrangements", 1, "settings"], value: undefined },
    ]);
  });

  it("give levels, or leave them to be found, never both", () => {
    const [setting] = study.arrangements[0].settings ?? [];
    expect(levelsBy(setting, 0, 0, "evenest", {}).edits.map(({ value }) => value)).toEqual([
      undefined,
      "evenest",
    ]);
    expect(levelsBy(setting, 0, 0, "given", { pendants: 0.4 }).edits.map(({ value }) => value)).toEqual([
      { pendants: 0.4 },
      undefined,
    ]);
  });
});
