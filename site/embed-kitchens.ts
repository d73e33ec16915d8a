/** Two more kitchens for the page of one's own: invented, small, their luminaires described in the study itself. */

const room = { length: 4.6, width: 3.4, ceilingHeight: 2.5 };

/** A narrow galley with two small spots, in feet. */
export const GALLEY = {
  format: "candlespan-study",
  version: 1,
  title: "Galley",
  display: { length: "ft-in", illuminance: "fc" },
  room,
  island: {
    length: 1.8,
    width: 0.75,
    height: 0.91,
    zones: [{ name: "prep", from: [0, 0], size: [1.8, 0.75], target: "prep" }],
  },
  targets: { prep: { illuminance: 300, uniformity: 0.5, source: "the designer's own" } },
  luminaires: {
    spot: {
      beam: { flux: 650, angle: 70 },
      watts: 7,
      body: { profile: "cylinder", diameter: 0.09, height: 0.2 },
    },
  },
  arrangements: [
    {
      name: "two spots",
      layers: [{ name: "pendants", role: "pendant", luminaire: "spot", row: { count: 2, clearance: 0.9 } }],
    },
  ],
};

/** A long dining top under four wide pendants. */
export const DINING = {
  format: "candlespan-study",
  version: 1,
  title: "Long table",
  room: { ...room, length: 6, ceilingHeight: 3 },
  island: {
    length: 3.2,
    width: 1,
    height: 0.75,
    zones: [{ name: "eating", from: [0, 0], size: [3.2, 1], target: "eating" }],
  },
  targets: { eating: { illuminance: 200, source: "the designer's own" } },
  luminaires: {
    bowl: {
      beam: { flux: 700, angle: 110 },
      watts: 8,
      body: { profile: "dome", diameter: 0.36, height: 0.2 },
    },
  },
  arrangements: [
    {
      name: "four bowls",
      layers: [{ name: "pendants", role: "pendant", luminaire: "bowl", row: { count: 4, clearance: 0.75 } }],
    },
  ],
};
