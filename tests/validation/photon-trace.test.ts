/**
 * The whole calculation against photons by brute force (own second route): a room under a slope, a turned island,
 * a hood, a tall cabinet, globes on pendants that block and reflect, downlights. Every surface's mean must agree
 * within three standard errors and 1 %.
 */
import { describe, expect, it } from "vitest";
import { luminousFlux } from "../../src/photometry/luminous-flux.ts";
import type { Blocker, Scene } from "../../src/scene/scene.ts";
import type { Surface } from "../../src/scene/surface.ts";
import { expectAccuracy } from "../evidence/expect-accuracy.ts";
import { calculate } from "../support/calculate.ts";
import { rotational } from "../support/distributions.ts";
import { luminaire, opening, placed, plane, scene } from "../support/luminaires.ts";
import { tracePhotons } from "../support/photon-trace.ts";
import { boxCorners, boxSurfaces, roomSurfaces, surfaceOf } from "../support/rooms.ts";
import { boxMesh, sphereMesh } from "../support/solids.ts";

const BODY_REFLECTANCE = 0.6;

function kitchen(): Scene {
  const low = [1.6, 1.5, 0] as const;
  const high = [3.8, 2.5, 0.92] as const;
  const turn = 0.3;
  const foot = boxCorners(low, high, turn);
  const hood = [
    [2.3, 1.75, 1.75],
    [3, 2.3, 2.1],
  ] as const;
  // A cabinet in the corner x = 0, y = 0: floor and walls lose what it covers.
  const cabinet = [0.6, 0.7, 2.1] as const;
  const [cx, cy, cz] = cabinet;
  const walls = { ceiling: 0.8, walls: 0.5, floor: 0.3 };
  const [, ceiling, , wall1, wall2] = roomSurfaces(5.4, 4.2, 2.5, walls, 0.6);
  const surfaces: Surface[] = [
    surfaceOf(
      "floor",
      [
        [5.4, 0, 0],
        [5.4, 4.2, 0],
        [0, 4.2, 0],
        [0, cy, 0],
        [cx, cy, 0],
        [cx, 0, 0],
      ],
      walls.floor,
      [[foot[0], foot[2], foot[3], foot[1]]],
    ),
    ceiling,
    surfaceOf(
      "wall 0",
      [
        [0, 0, 2.5],
        [5.4, 0, 3.1],
        [5.4, 0, 0],
        [cx, 0, 0],
        [cx, 0, cz],
        [0, 0, cz],
      ],
      walls.walls,
    ),
    wall1,
    wall2,
    surfaceOf(
      "wall 3",
      [
        [0, 4.2, 0],
        [0, 4.2, 2.5],
        [0, 0, 2.5],
        [0, 0, cz],
        [0, cy, cz],
        [0, cy, 0],
      ],
      walls.walls,
    ),
    ...boxSurfaces("island top", low, high, 0.45, { turn }),
    ...boxSurfaces("body", hood[0], hood[1], 0.5, { bottom: true }),
    surfaceOf(
      "body",
      [
        [0, 0, cz],
        [cx, 0, cz],
        [cx, cy, cz],
        [0, cy, cz],
      ],
      0.6,
    ),
    surfaceOf(
      "body",
      [
        [cx, 0, 0],
        [cx, cy, 0],
        [cx, cy, cz],
        [cx, 0, cz],
      ],
      0.6,
    ),
    surfaceOf(
      "body",
      [
        [cx, cy, 0],
        [0, cy, 0],
        [0, cy, cz],
        [cx, cy, cz],
      ],
      0.6,
    ),
  ];
  const withFlux = (type: ReturnType<typeof luminaire>) => ({
    ...type,
    flux: luminousFlux(type.distribution).total,
  });
  const globe = withFlux(luminaire(rotational(() => 80, [0, 60, 120, 180])));
  const downlight = withFlux(
    luminaire(
      rotational((g) => 220 * Math.max(0, Math.cos(g))),
      opening("disc", 0.2, 0.2),
    ),
  );
  const pendants = [
    [1.8, 1.8, 1.85],
    [3.5, 2.3, 1.85],
  ] as const;
  const blockers: Blocker[] = [
    { name: "island", kind: "island", mesh: boxMesh(low, high, turn), transmittance: 0 },
    { name: "hood", kind: "body", mesh: boxMesh(hood[0], hood[1]), transmittance: 0 },
    { name: "cabinet", kind: "body", mesh: boxMesh([0, 0, 0], cabinet), transmittance: 0 },
    ...pendants.map(
      (at, i): Blocker => ({
        name: `pendant ${i}`,
        kind: "pendant",
        mesh: sphereMesh(at, 0.15, 16, 8),
        transmittance: 0,
        owner: [0, i],
        reflectance: BODY_REFLECTANCE,
      }),
    ),
  ];
  return {
    ...scene(
      [
        pendants.map((at) => placed(globe, at)),
        [placed(downlight, [1, 1.2, 2.4]), placed(downlight, [4.4, 3.2, 2.7])],
      ],
      [plane([[2.7, 2, 0.92]])],
    ),
    surfaces,
    blockers,
  };
}

describe("a furnished room under a slope", () => {
  it("agrees with photons on every surface", () => {
    const room = kitchen();
    const { patches, balance } = calculate(room);
    const count = tracePhotons(room, 400_000, 9, BODY_REFLECTANCE);
    let worst = 0;
    let worstSigma = 0;
    let measured = 0;
    room.surfaces.forEach((_, s) => {
      let flux = 0;
      let area = 0;
      patches!.surface.forEach((of, i) => {
        if (of !== s) return;
        area += patches!.area[i];
        for (const { illuminance } of patches!.layers) flux += patches!.area[i] * illuminance[i];
      });
      const found = flux / area;
      const difference = Math.abs(found - count.illuminance[s]);
      const relative = difference / count.illuminance[s];
      worstSigma = Math.max(worstSigma, difference / count.standardError[s]);
      // Small faces see too few photons to tell 1 %.
      if (count.standardError[s] < 0.004 * count.illuminance[s]) {
        measured++;
        worst = Math.max(worst, relative);
      }
    });
    console.log(
      `photons: worst error ${worstSigma.toFixed(1)} standard errors over ${room.surfaces.length} surfaces,` +
        ` ${(100 * worst).toFixed(2)} % of the mean of the ${measured} that photons know to 0.4 %;` +
        ` imbalance ${(100 * balance!.imbalance).toFixed(3)} %`,
    );
    expect(measured).toBeGreaterThanOrEqual(6);
    expect(worstSigma).toBeLessThan(3);
    expectAccuracy("furnished room", worst);
    // 0.3 % with bodies is what is answered for.
    expect(Math.abs(balance!.imbalance)).toBeLessThan(3e-3);
  });
});
