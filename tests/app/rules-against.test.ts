/** The rules beside the verdict on screen are those of `check --quick`: one method, one light. */
import { expect, it } from "vitest";
import { arrangementLight } from "../../src/app/arrangement-light.ts";
import { draftFindings, rulesAgainst } from "../../src/app/beside-the-verdict.ts";
import { openArrangement, Workspace } from "../../src/app/open-document.ts";
import { type Json, kitchen } from "../support/studies.ts";

const document: Json = kitchen({
  arrangements: [
    {
      name: "five cones",
      layers: [
        { name: "pendants", luminaire: "dome", row: { count: 3, clearance: 0.85 } },
        { name: "ambient", luminaire: "spot", grid: { columns: 3, rows: 2, margin: 0.6 } },
      ],
    },
  ],
});

it("asks for the same light as the command (2026-11-29: rows implied by rules were calculated anew, up to 1 % apart)", async () => {
  const opened = await openArrangement({ document, arrangement: 0 }, true, new Workspace(), {});
  if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
  const onScreen = await rulesAgainst(opened.value, {});
  const { findings } = await arrangementLight(opened.value, opened.value.scene, {
    draft: true,
    findings: "brief",
  });
  const lights = onScreen.filter((card) => "light" in card && card.light !== undefined);
  console.log(`${lights.length} of ${onScreen.length} rules imply an arrangement whose light is told`);
  expect(lights.length).toBeGreaterThan(3);
  expect(onScreen).toEqual(findings?.cards);
  expect((await draftFindings(opened.value, {})).cards).toEqual(onScreen);
});
