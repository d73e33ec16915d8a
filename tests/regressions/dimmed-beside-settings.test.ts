/**
 * 2026-11-28. Of the worked example, `arrange` proposed three domes with the ambient light off as "still meets", though its preparation
 * zone was then too close to call: the arrangement has settings, whose levels are their own, and their verdict was taken for that of
 * the dimmed layers.
 */
import { expect, it } from "vitest";
import { openDocument } from "../../src/app/open-document.ts";
import { searchRows } from "../../src/app/search.ts";
import { ISLAND, kitchen } from "../support/studies.ts";

it("proposes levels with which the zones still meet, whatever the settings do", async () => {
  const study = kitchen({
    island: { ...ISLAND, zones: [{ name: "prep", from: [0, 0.3], size: [2.4, 0.8], target: "work" }] },
    targets: { work: { illuminance: 200, uniformity: 0.55, source: "for the test" } },
  }) as { arrangements: object[]; luminaires: { dome: object } };
  Object.assign(study.luminaires.dome, { watts: 8 });
  // A setting that asks nothing, and whose levels do not follow the layers'.
  const setting = { name: "all on", dim: { pendants: 1, ambient: 1 }, zones: { prep: null } };
  const arrangements = study.arrangements.map((each) => ({ ...each, settings: [setting] }));
  const opened = await openDocument({ ...study, arrangements });
  if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
  const found = await searchRows(opened.value, { counts: [3], clearances: [0.8], wanted: 1 });
  if (!found.ok) throw new Error(JSON.stringify(found.issues));
  const { proposals } = found.value.result;
  expect(proposals).toHaveLength(1);
  for (const { assessment } of proposals.flatMap((each) => each.dimmed ?? []))
    expect(assessment.zones.map(({ verdict }) => verdict)).toEqual(["meets"]);
});
