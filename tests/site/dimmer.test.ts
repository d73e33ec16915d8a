/** A layer's dimmer said and no longer said, and what of it stays on hold. */
import { expect, it } from "vitest";
import { type DimmerKey, sayOfDimmer } from "../../site/edits/dimmer.ts";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { type Json, write } from "../../site/store/pointer.ts";
import { clashes } from "../../src/advice/clashes/clashes.ts";
import { holdsOf } from "../../src/papers/set-out/holds.ts";
import { kitchen, resolved } from "../support/studies.ts";

const switched = { circuit: "1", switches: [{ at: [0.1, 0.9] }] };
const withLayer = (more: object, watts: number | undefined = 100): RawStudy =>
  kitchen({
    luminaires: { spot: { beam: { flux: 650, angle: 36 }, ...(watts === undefined ? {} : { watts }) } },
    arrangements: [
      {
        name: "a",
        layers: [{ name: "spots", luminaire: "spot", row: { count: 4 }, ...switched, ...more }],
      },
    ],
  }) as unknown as RawStudy;

/** HOLDs that name a dimmer, each with its field. */
const held = (study: RawStudy): string[] => {
  const { scenes, defaults } = resolved(study as never);
  const [scene] = scenes;
  return holdsOf({ scene, clashes: clashes(scene), defaults }, "mm")
    .filter(({ words }) => /dimmer/i.test(words))
    .map(({ words, field }) => `${words} ${field.join("/")}`);
};
const say = (study: RawStudy, key: DimmerKey, value: Json | undefined): RawStudy =>
  sayOfDimmer(study, [0, 0], key, value).reduce<Json>(
    (document, edit) => write(document, edit.path, edit.value),
    study as unknown as Json,
  ) as unknown as RawStudy;
const dimmerIn = (study: RawStudy) => study.arrangements[0].layers[0].dimmer;

it("takes the dimmer away with the last that is said of it, and with it what is on hold (2026-11-29)", () => {
  const plain = withLayer({});
  expect(held(plain)).toEqual([]);
  const linear = say(plain, "control", "linear");
  expect(held(linear)).toEqual([
    "Dimmer of spots: 400 W fitted; its greatest load is not given. layers/0/dimmer/maximumWatts",
  ]);
  const again = say(linear, "control", undefined);
  expect(again.arrangements[0].layers[0]).not.toHaveProperty("dimmer");
  expect(held(again)).toEqual([]);
});

it("keeps what else is said of the dimmer when its scale is not known any more", () => {
  const both = say(say(withLayer({}), "control", "square"), "maximumWatts", 600);
  expect(held(both)).toEqual([]);
  expect(dimmerIn(say(both, "control", undefined))).toEqual({ maximumWatts: 600 });
  expect(dimmerIn(say(withLayer({ dimmer: { curve: [[1, 1]] } }), "name", undefined))).toEqual({
    curve: [[1, 1]],
  });
});

it("leads from each HOLD of a dimmer to what settles it", () => {
  const field = (study: RawStudy) => held(study).map((each) => each.split(" ").at(-1));
  expect(field(withLayer({ dim: 0.5 }))).toEqual(["layers/0/dimmer/maximumWatts"]);
  expect(field(withLayer({ dimmer: { maximumWatts: 300 } }))).toEqual(["layers/0/dimmer/maximumWatts"]);
  expect(field(withLayer({ dimmer: { minimumWatts: 500, maximumWatts: 900 } }))).toEqual([
    "layers/0/dimmer/minimumWatts",
  ]);
  // Four of 5 W: many older dimmers need more.
  expect(field(withLayer({ dimmer: { maximumWatts: 300 } }, 5))).toEqual(["layers/0/dimmer/minimumWatts"]);
  const unknown = withLayer({ dimmer: { maximumWatts: 300 } });
  delete (unknown.luminaires as Record<string, { watts?: number }>).spot.watts;
  expect(field(unknown)).toEqual(["luminaires/spot/watts"]);
});
