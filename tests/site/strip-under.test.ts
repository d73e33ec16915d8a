/** A strip under the worked example's wall units: where it hangs, and that the counter below is judged by it. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { stripUnder, takesStrip } from "../../site/edits/strip-under.ts";
import { write } from "../../site/store/pointer.ts";

const study = JSON.parse(
  readFileSync(new URL("../../fixtures-data/boathouse/boathouse.study.json", import.meta.url), "utf8"),
) as RawStudy;
const boxOf = (name: string) => (study.bodies ?? [])[indexOf(name)].box as unknown as number[][];
const indexOf = (name: string) => (study.bodies ?? []).findIndex((body) => body.name === name);

it("hangs in a layer of its own behind the front edge, over a counter that is judged", () => {
  const edit = stripUnder(study, 0, indexOf("wall units"));
  if (edit === undefined) throw new Error("no strip");
  let after = study as never;
  for (const { path, value } of edit.edits) after = write(after, path, value) as never;
  const { arrangements, planes, luminaires } = after as RawStudy;
  const [low, high] = boxOf("wall units");
  const layer = arrangements[0].layers.at(-1) as unknown as {
    name: string;
    luminaire: string;
    at: { position: number[] }[];
  };
  expect(layer.name).toBe("under wall units");
  const [x, y, z] = layer.at[0].position;
  expect(x).toBeCloseTo((low[0] + high[0]) / 2, 6);
  // Its back is at wall 2: the front is at lesser y.
  expect(y).toBeCloseTo(low[1] + 0.05, 6);
  expect(z).toBeCloseTo(low[2] - 0.01, 6);
  expect(luminaires?.[layer.luminaire]).toMatchObject({
    opening: { length: expect.closeTo(high[0] - low[0] - 0.1, 6) },
  });
  const base = boxOf("base units");
  const counter = planes?.at(-1) as unknown as { target: string; rectangle: { corner: number[] } };
  expect(counter.target).toBe("preparation");
  expect(counter.rectangle.corner[2]).toBe(base[1][2]);
});

it("hangs under nothing that stands on the floor", () => {
  expect((study.bodies ?? []).filter(takesStrip).map(({ name }) => name)).toEqual(["wall units"]);
  expect(stripUnder(study, 0, indexOf("tall larder"))).toBeUndefined();
});
