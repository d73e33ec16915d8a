/** Who sits at the island: one on each seat, clear of the top, facing it. */
import { expect, it } from "vitest";
import { depthInside } from "../../src/geometry/polygon.ts";
import { roomToIsland } from "../../src/scene/island-frame.ts";
import { seatPlaces } from "../../src/scene/seat-places.ts";
import { ISLAND, kitchen, resolved } from "../support/studies.ts";

it.each([
  ["y-", 0],
  ["y+", 0],
  ["x-", 0],
  ["x+", 0],
  ["y-", 30],
  ["x+", -75],
] as const)("sits at side %s of an island turned by %i°, looking at it", (side, turn) => {
  const island = { ...ISLAND, turn, seats: { side, count: 3 } };
  const [scene] = resolved(kitchen({ island })).scenes;
  const top = scene.island;
  if (top?.seats === undefined) throw new Error("no seats");
  const places = seatPlaces(scene);
  expect(places).toHaveLength(top.seats.fitting);
  for (const { at, facing } of places) {
    expect(depthInside(roomToIsland(top, at), top.outline)).toBeCloseTo(-0.23, 9);
    const angle = (facing * Math.PI) / 180;
    const ahead = [at[0] + 0.3 * Math.cos(angle), at[1] + 0.3 * Math.sin(angle)] as const;
    expect(depthInside(roomToIsland(top, ahead), top.outline)).toBeCloseTo(0.07, 9);
  }
  const apart = places
    .slice(1)
    .map(({ at }, i) => Math.hypot(at[0] - places[i].at[0], at[1] - places[i].at[1]));
  for (const each of apart) expect(each).toBeCloseTo(top.seats.width, 9);
  const people = places.map(({ at, facing }, i) => ({
    name: `guest ${i}`,
    at: [...at],
    facing,
    posture: "seated",
  }));
  const [sat] = resolved(kitchen({ island, people })).scenes;
  expect(sat.people.map(({ posture }) => posture)).toEqual(places.map(() => "seated"));
});

it("seats nobody where no seat is, nor outside the room", () => {
  expect(seatPlaces(resolved(kitchen()).scenes[0])).toEqual([]);
  const island = { ...ISLAND, centre: [2.7, 0.7], seats: { side: "y-", count: 2 } };
  expect(seatPlaces(resolved(kitchen({ island })).scenes[0])).toEqual([]);
});
