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
  const [first, last] = [{ at: [0.1, 0.1] }, { at: [5.3, 4.1] }];
  expect(apply(addSwitch(study, 0, 0))).toEqual([first]);
  expect(apply(addSwitch(study, 0, 0))).toEqual([first, last]);
  expect(apply(addSwitch(study, 0, 0))).toEqual([first, { at: [2.7, 0.1] }, last]);
  expect(resolved(study as never).scenes[0].layers[0].switches).toHaveLength(3);
  apply(removeSwitch(study, 0, 0, 1));
  apply(removeSwitch(study, 0, 0, 0));
  expect(layer.switches).toEqual([last]);
  expect(apply(removeSwitch(study, 0, 0, 0))).toBeUndefined();
});
