/** Switches of a layer: added where their symbols are read, the first and the last the two-way pair, and removed. */
import { expect, it } from "vitest";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { addSwitch, removeSwitch } from "../../site/edits/switches.ts";
import { kitchen, resolved } from "../support/studies.ts";

it("keeps the pair at its ends, and leaves no empty list", () => {
  const study = kitchen() as unknown as RawStudy & { arrangements: { layers: { switches?: unknown }[] }[] };
  const layer = study.arrangements[0].layers[0];
  const apply = ({ edits: [{ path, value }] }: ReturnType<typeof addSwitch>): unknown => {
    expect(path).toEqual(["arrangements", 0, "layers", 0, "switches"]);
    if (value === undefined) delete layer.switches;
    else layer.switches = value as never;
    return value;
  };
  const [first, last] = [{ at: [0.2, 0.1] }, { at: [5.3, 4] }];
  expect(apply(addSwitch(study, 0, 0))).toEqual([{}]);
  expect(apply(addSwitch(study, 0, 0))).toEqual([{}, {}]);
  // 2026-11-28: what stands in until somebody says the place was written into the study as if it were said.
  const { scenes, defaults } = resolved(study as never);
  expect(scenes[0].layers[0].switches).toEqual([
    // 2026-11-29: 100 mm off any wall.
    { at: [0.1, 0], assumed: true },
    { at: [expect.closeTo(5.3, 9), 4.2], assumed: true },
  ]);
  expect(defaults.map(({ path }) => path)).toContain("/arrangements/0/layers/0/switches/1/at");
  layer.switches = [first, last] as never;
  expect(apply(addSwitch(study, 0, 0))).toEqual([first, {}, last]);
  expect(resolved(study as never).scenes[0].layers[0].switches).toEqual([
    first,
    { at: [expect.closeTo(0.6, 9), 0], assumed: true },
    last,
  ]);
  apply(removeSwitch(study, 0, 0, 1));
  apply(removeSwitch(study, 0, 0, 0));
  expect(layer.switches).toEqual([last]);
  expect(apply(removeSwitch(study, 0, 0, 0))).toBeUndefined();
});
