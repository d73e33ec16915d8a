/** Kitchens for tests of what is drawn: islands, zones, people and pendants of any ordinary size and place, seeded. */

import { frame } from "../../src/geometry/frame.ts";
import type { Body } from "../../src/luminaire/body.ts";
import type { Person, Scene, Zone } from "../../src/scene/scene.ts";
import { randomStream } from "./random-stream.ts";
import { DOME_PENDANT, syntheticScene } from "./synthetic-island.ts";
import { rectanglePlane } from "./tiny-scene.ts";

const ZONE_NAMES = ["prep", "eating", "washing", "homework and letters"];
const TARGETS = ["preparation", "eating", "washing", undefined];
const PEOPLE = ["cook", "second cook", "guest", "grandmother"];

export function randomKitchen(seed: number): Scene {
  const next = randomStream(seed * 7919);
  const between = (low: number, high: number): number => low + (high - low) * next();
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  const [length, width, height] = [between(1.2, 3.6), between(0.7, 1.4), between(0.86, 1.05)];
  const room = {
    length: length + between(1.6, 3),
    width: width + between(2, 3.2),
    ceilingHeight: between(2.35, 4),
    slope: next() < 0.2 ? between(0.05, 0.25) : 0,
    towards: 0,
  };
  const centre = [room.length / 2, room.width / 2] as const;
  const corner = [centre[0] - length / 2, centre[1] - width / 2] as const;
  const count = whole(1, 4);
  const cuts = Array.from({ length: count + 1 }, (_, i) => (length * i) / count);
  const zones = Array.from({ length: count }, (_, i): Zone => {
    const [x0, x1] = [cuts[i], cuts[i + 1]];
    const outline = [
      [x0, 0],
      [x1, 0],
      [x1, width],
      [x0, width],
    ] as const;
    return { name: ZONE_NAMES[i], outline, height, target: TARGETS[i] };
  });
  const people = Array.from({ length: whole(0, 4) }, (_, i): Person => {
    const along = corner[0] + between(0.1, 0.9) * length;
    const isFar = next() < 0.5;
    const back = between(0.15, 0.7);
    const y = isFar ? corner[1] + width + back : corner[1] - back;
    const posture = next() < 0.4 ? "seated" : "standing";
    const eye = posture === "seated" ? between(1.1, 1.3) : between(1.45, 1.75);
    const facing = isFar ? -Math.PI / 2 : Math.PI / 2;
    return { name: PEOPLE[i], stature: eye + 0.12, at: [along, y], facing, posture, eye: [along, y, eye] };
  });
  const isLong = next() < 0.25;
  const pendants = isLong ? whole(1, 2) : whole(1, 6);
  const body: Body = {
    profile: isLong ? "box" : "dome",
    diameter: between(0.12, 0.45),
    height: between(0.08, 0.4),
    offset: 0,
    reflectance: 0.3,
    transmittance: 0,
    ...(isLong ? { length: between(0.9, 1.6), width: 0.08 } : {}),
  } as Body;
  const base = syntheticScene();
  const ceiling = room.ceilingHeight;
  const rim = Math.min(ceiling - 0.5, height + between(0.5, 1));
  const isStaggered = next() < 0.3;
  const layers = [
    {
      ...base.layers[0],
      luminaires: Array.from({ length: pendants }, (_, i) => ({
        luminaire: { ...DOME_PENDANT, body, flux: DOME_PENDANT.flux * between(0.5, 1.5) },
        frame: frame([
          corner[0] + ((i + 0.5) / pendants) * length,
          centre[1] + (isStaggered ? between(-0.2, 0.2) * width : 0),
          rim + (isStaggered ? between(0, 0.2) : 0),
        ]),
      })),
    },
    {
      ...base.layers[1],
      luminaires: base.layers[1].luminaires.slice(0, whole(1, 8)).map(({ luminaire }, i) => ({
        luminaire,
        frame: frame([0.5 + (i % 4) * (room.length / 4), i < 4 ? 0.6 : room.width - 0.6, ceiling]),
      })),
    },
  ];
  const island = base.island as NonNullable<Scene["island"]>;
  return {
    ...base,
    name: `kitchen ${seed}`,
    room: { ...base.room, ...room },
    island: {
      ...island,
      centre,
      length,
      width,
      height,
      outline: [
        [0, 0],
        [length, 0],
        [length, width],
        [0, width],
      ],
    },
    zones,
    people,
    layers,
    planes: [
      rectanglePlane("island top", [...corner, height], [length, width], 48, 22),
      ...zones.map((zone, i) =>
        rectanglePlane(
          zone.name,
          [corner[0] + cuts[i], corner[1], height],
          [length / count, width],
          6,
          4,
          zone.name,
        ),
      ),
    ],
  };
}
