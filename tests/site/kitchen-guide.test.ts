/** The guide page "one kitchen from brief to meter" is what the program answers of the worked example. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { type KitchenGuide, kitchenGuide } from "../support/kitchen-guide.ts";

const path = (name: string) => fileURLToPath(new URL(`../../${name}`, import.meta.url));
let guide: KitchenGuide;
beforeAll(async () => {
  guide = await kitchenGuide();
});

describe("one kitchen from brief to meter", () => {
  it("is the page shipped, with its pictures (npm run guide writes them anew)", async () => {
    await expect(guide.page).toMatchFileSnapshot(path("site/guide/kitchen.html"));
    for (const [name, svg] of Object.entries(guide.pictures))
      await expect(svg).toMatchFileSnapshot(path(`site/guide/${name}`));
  });

  it("shows the light of the judgement, and names the weak pendant by its readings alone", () => {
    const { page } = guide;
    for (const { assessment } of guide.lights)
      for (const { watts } of [assessment.energy]) expect(page).toContain(`<td>${watts.toFixed(0)}</td>`);
    expect(page).not.toMatch(/undefined|NaN|\[object/);
    expect(page).toMatch(/P3 \(pendants no\. 3\) gives 0\.50 of the light expected/);
    for (const [, file] of page.matchAll(/<img src="([^"]+)"/g))
      expect(Object.keys(guide.pictures)).toContain(file);
  });

  it("is linked from the README and built into the site", () => {
    expect(readFileSync(path("README.md"), "utf8")).toContain("(site/guide/kitchen.html)");
    expect(readFileSync(path("site/vite.config.ts"), "utf8")).toContain('"guide/kitchen.html"');
  });
});
