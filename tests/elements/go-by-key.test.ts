/** Keys inside a drawing: from stop to stop, never beyond the ends; every other key is left to whoever has the focus. */
import { expect, it } from "vitest";
import { goByKey } from "../../src/elements/shared/go-by-key.ts";

interface Stop {
  focused: boolean;
  closest(): Stop;
  focus(): void;
}

function pressed(key: string, at: number, count = 3): { at: number; answered: boolean; prevented: boolean } {
  const stops = Array.from({ length: count }, () => {
    const stop: Stop = {
      focused: false,
      closest: () => stop,
      focus: () => {
        stop.focused = true;
      },
    };
    return stop;
  });
  const elsewhere = { closest: () => null };
  let prevented = false;
  const event = { key, target: stops[at] ?? elsewhere, preventDefault: () => (prevented = true) };
  const answered = goByKey(event as unknown as KeyboardEvent, stops as unknown as SVGElement[], "g");
  return { at: stops.findIndex(({ focused }) => focused), answered, prevented };
}

it("goes to neighbours and ends, and stays where there is no further", () => {
  expect([0, 1, 2].map((at) => pressed("PageDown", at).at)).toEqual([1, 2, 2]);
  expect([0, 1, 2].map((at) => pressed("PageUp", at).at)).toEqual([0, 0, 1]);
  expect([0, 1, 2].map((at) => pressed("Home", at).at)).toEqual([0, 0, 0]);
  expect([0, 1, 2].map((at) => pressed("End", at).at)).toEqual([2, 2, 2]);
  expect(pressed("End", 0)).toMatchObject({ answered: true, prevented: true });
});

it("leaves other keys, and keys pressed outside every stop", () => {
  for (const key of ["ArrowLeft", "Enter", "Tab"])
    expect(pressed(key, 1)).toEqual({ at: -1, answered: false, prevented: false });
  expect(pressed("End", 9)).toEqual({ at: -1, answered: false, prevented: false });
});
