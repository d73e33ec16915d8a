/** The figures of a row against those worked out by hand. */
import { expect, it } from "vitest";
import { pendantRow } from "../../src/advice/pendant-row.ts";
import { resolved, withRow } from "../support/studies.ts";

it("measures long pendants along the top by their length, whichever way the island lies", () => {
  const bar = {
    beam: { flux: 2000, angle: 90 },
    opening: { length: 1.2, width: 0.06 },
    body: { profile: "box", length: 1.2, width: 0.06, height: 0.05 },
  };
  for (const turn of [0, 30, 90]) {
    const [scene] = resolved(
      withRow(
        { count: 2, spacing: 1.3, clearance: 0.85, offset: [0.1, 0] },
        {
          luminaires: { dome: bar },
          island: { centre: [2.7, 2.1], length: 2.8, width: 1.1, height: 0.92, turn },
        },
      ),
    ).scenes;
    const row = pendantRow(scene);
    const near = (value: number) => expect.closeTo(value, 9);
    // Centres at 1.4 m − 0.65 m and + 0.65 m, moved by 0.1 m.
    expect(row).toMatchObject({
      count: 2,
      stations: [near(0.85), near(2.15)],
      rim: near(1.2),
      breadth: near(0.06),
      pitch: near(1.3),
      gap: near(0.1),
      endToCentre: near(0.65),
      end: near(0.05),
      ends: [near(0.25), near(0.05)],
      clearance: near(0.85),
      aboveFloor: near(1.77),
      linear: true,
    });
  }
});
