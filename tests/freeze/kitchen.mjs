/** A small kitchen to vary: cheap to compute, everything in it drawn from a seeded stream. */

/** Uniform numbers from 0 to 1, the same for the same seed (mulberry32). */
export function randomStream(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A number between two, on a grid of 10 mm. */
export const between = (random, low, high) => Math.round((low + random() * (high - low)) * 100) / 100;

export const SPOT = { beam: { flux: 480, angle: 60 }, watts: 6 };
export const DOME = {
  beam: { flux: 800, angle: 90 },
  opening: { diameter: 0.22 },
  body: { profile: "dome", diameter: 0.26, height: 0.2 },
  watts: 9,
};

export const layer = (name, luminaire, place, more = {}) => ({ name, luminaire, ...place, ...more });
export const arrangement = (name, ...layers) => ({ name, layers });

/** Room, island and one row of domes; `more` replaces whole keys. */
export function kitchen(seed, title, more = {}) {
  const random = randomStream(seed);
  const length = between(random, 2.8, 3.4);
  const width = between(random, 2.4, 2.9);
  return {
    format: "candlespan-study",
    version: 1,
    title,
    room: { length, width, ceilingHeight: between(random, 2.4, 2.7) },
    island: {
      centre: [
        between(random, length / 2 - 0.1, length / 2 + 0.1),
        between(random, width / 2 - 0.1, width / 2 + 0.1),
      ],
      length: between(random, 1.1, 1.5),
      width: between(random, 0.7, 0.9),
      height: between(random, 0.88, 0.95),
    },
    luminaires: { dome: DOME, spot: SPOT },
    arrangements: [arrangement("row", layer("pendants", "dome", { row: { count: 2, clearance: 0.7 } }))],
    calculation: { interreflection: seed % 2 === 0 },
    ...more,
  };
}

/** The island of that kitchen with more keys. */
export const withIsland = (seed, title, island, more = {}) => {
  const plain = kitchen(seed, title, more);
  return { ...plain, island: { ...plain.island, ...island } };
};
export const withRoom = (seed, title, room, more = {}) => {
  const plain = kitchen(seed, title, more);
  return { ...plain, room: { ...plain.room, ...room } };
};
