import type { IslandDocument } from "../island-schema.ts";
import type { Key, Keys } from "./key.ts";

const SOURCE = "`polygon` gives the place";
const PLACE = "`from` and `size` give the place";

const from: Key = {
  meaning: "Corner of least x and y; with `size`.",
  frame: "island",
  without: SOURCE,
  example: [0.4, 0.3],
};
const size: Key = {
  meaning: "Extent along x and along y; with `from`.",
  frame: "island",
  without: SOURCE,
  example: [0.8, 0.8],
};
const polygon: Key = {
  meaning: "Corners, in place of `from` and `size`; cut to the outline.",
  frame: "island",
  without: PLACE,
  example: [
    [2, 0],
    [2.4, 0],
    [2.4, 0.2],
  ],
};
const fitted = {
  from: { meaning: "Corner of least x and y.", frame: "island", example: [1.85, 0.5] },
  size: { meaning: "Extent along x and along y.", frame: "island", example: [0.3, 0.5] },
} satisfies Record<string, Key>;

export const ISLAND_KEYS: Keys<IslandDocument> = {
  centre: {
    meaning: "Middle of the top's bounding box, about which it is turned.",
    frame: "room",
    without: "the middle of the room",
    example: [2.7, 2.1],
  },
  length: {
    meaning: "Extent of the whole top along its own x, overhang included.",
    frame: "island",
    without: "`outline` gives it",
    example: "2.4 m",
  },
  width: {
    meaning: "Extent of the whole top across, overhang included.",
    frame: "island",
    without: "`outline` gives it",
    example: "1.1 m",
  },
  height: { meaning: "Height of the top's surface above the floor.", default: 0.914, example: "36 in" },
  turn: {
    meaning: "Turn of the island about its centre, counter-clockwise from above.",
    frame: "room",
    default: 0,
    example: 30,
  },
  outline: {
    meaning: "Corners of a top of another shape, in place of `length` and `width`; a simple polygon.",
    frame: "island",
    without: "a rectangle of `length` and `width`",
    example: [
      [0, 0],
      [2.4, 0],
      [2.4, 0.9],
      [2.2, 1.1],
      [0, 1.1],
    ],
  },
  levels: {
    meaning: "Parts of the top that are raised.",
    without: "none",
    example: [{ name: "bar", from: [0, 0], size: [0.4, 0.3], height: 1.07 }],
    keys: {
      name: { meaning: "Name in messages and drawings.", without: "numbered", example: "bar" },
      from,
      size,
      polygon,
      height: { meaning: "Height of its surface above the floor, above the top's own.", example: "1.07 m" },
    },
  },
  overhang: {
    meaning: "Set-back of the solid base under the top, for knees.",
    without: "none",
    example: { side: "y-", depth: "300 mm" },
    keys: {
      side: {
        meaning: "Side of the top: y- is its edge at y = 0, x+ that at x = length.",
        frame: "island",
        example: "y-",
      },
      depth: {
        meaning: "By how much the base is set back on that side.",
        frame: "island",
        example: "300 mm",
      },
    },
  },
  reflectance: {
    meaning: "Share of light that the island sends back.",
    without: "typical of each surface",
    example: { top: 0.35, sides: 0.5 },
    keys: {
      top: { meaning: "Reflectance of the top.", default: 0.35, example: 0.35 },
      sides: { meaning: "Reflectance of the base's sides.", default: 0.5, example: 0.5 },
    },
  },
  finish: {
    meaning: "Gloss of the top, which decides whether pendants mirror in it.",
    default: "polished",
    example: "satin",
  },
  colour: {
    meaning: "Colour of the top in words or as #rrggbb.",
    without: "not known",
    example: "warm grey",
  },
  zones: {
    meaning: "Parts of the top with a task and a target of their own.",
    without:
      "prep, cooking, washing and eating by hob, sink and seats; without those the whole top, lit for preparation",
    example: [{ name: "prep", from: [0, 0], size: [1.4, 1.1], target: "preparation" }],
    keys: {
      name: { meaning: "Name in messages, drawings and JSON.", example: "prep" },
      from,
      size,
      polygon,
      height: {
        meaning: "Height of the plane that judges it above the floor.",
        without: "the top's surface there",
        example: "0.72 m",
      },
      target: {
        meaning: "A name in `targets`, or a published one (`check --targets`); null asks nothing.",
        without: "nothing is asked, with a warning",
        example: "preparation",
      },
    },
  },
  hob: {
    meaning: "The hob in the top.",
    without: "none",
    example: { from: [1.85, 0.5], size: [0.3, 0.5] },
    keys: fitted,
  },
  sink: {
    meaning: "The sink in the top.",
    without: "none",
    example: { from: [1.3, 0.4], size: [0.5, 0.4], basin: "200 mm" },
    keys: {
      ...fitted,
      basin: {
        meaning:
          "Depth of the basin under the top, or true for the usual 200 mm: its floor is then lit, and judged where the island states no zones of its own; beside those nothing is said of its light.",
        default: false,
        example: "200 mm",
      },
    },
  },
  seats: {
    meaning: "Seats along one side.",
    without: "none",
    example: { side: "y-", count: 3, width: 0.6 },
    keys: {
      side: {
        meaning: "Side of the top, as of the overhang.",
        frame: "island",
        without: "that of the overhang, else y-",
        example: "y-",
      },
      count: { meaning: "How many.", without: "as many as fit", example: 3 },
      width: { meaning: "Room for one along the edge.", default: 0.6, example: "600 mm" },
    },
  },
};
