/** What a layer is switched and dimmed by: places of its switches, and what its dimmer may not be. */

import type { Ledger } from "../diagnostics/ledger.ts";
import { phrase } from "../diagnostics/phrase.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { LayerDocument } from "../study/arrangement-schema.ts";
import { overFloor, planOfRoom } from "./inside-room.ts";
import type { RoomShape, SwitchPlace } from "./scene.ts";

/** From the corner (m). */
const BESIDE_CORNER = 0.1;

/** Where nobody said: on wall 0 beside wall 3, one beside the other, the last on wall 2 across the room. */
export function switchPlaces(
  switches: NonNullable<LayerDocument["switches"]>,
  room: RoomShape,
  ledger: Ledger,
): SwitchPlace[] {
  return switches.map(({ at }, i): SwitchPlace => {
    if (at !== undefined) {
      if (!overFloor(at, room, 0))
        ledger.error(
          "switch-outside",
          `/switches/${i}/at`,
          "The switch lies outside the room.",
          planOfRoom(room),
          phrase`(${at[0]}, ${at[1]})`,
        );
      return { at };
    }
    const isAcross = i > 0 && i === switches.length - 1;
    const place: Vec2 = isAcross
      ? [room.length - BESIDE_CORNER, room.width]
      : [BESIDE_CORNER * (1 + 5 * i), 0];
    ledger.note(`/switches/${i}/at`, place, "not given; a corner of the room");
    return { at: place, assumed: true };
  });
}

/** Its loads are a range, and what it is set to gives the more light the more it is. */
export function checkDimmer(
  { minimumWatts: least = 0, maximumWatts: most = Infinity, control }: NonNullable<LayerDocument["dimmer"]>,
  ledger: Ledger,
): void {
  if (least > most)
    ledger.error(
      "dimmer-load",
      "",
      "The dimmer's least load is above its greatest.",
      `at most ${String(most)} W`,
      `${String(least)} W`,
    );
  if (typeof control === "object") checkRising(control, ledger);
}

/** Each level of a dimmer gives a light of its own, more light at more. */
function checkRising(pairs: readonly (readonly [number, number])[], ledger: Ledger): void {
  const back = pairs.findIndex(([c, flux], i) => i > 0 && (c <= pairs[i - 1][0] || flux <= pairs[i - 1][1]));
  if (back < 0) return;
  const expected = "control and share of flux each greater than in the point before";
  ledger.error(
    "dimmer-control",
    `/control/${back}`,
    "The dimmer's points do not rise.",
    expected,
    pairs[back].join(", "),
  );
}
