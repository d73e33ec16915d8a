import type { BodyDocument, PersonDocument, RoomDocument } from "../room-schema.ts";
import type { Keys } from "./key.ts";

export const ROOM_KEYS: Keys<RoomDocument> = {
  length: { meaning: "Extent of the room along x.", frame: "room", example: "5.4 m" },
  width: { meaning: "Extent of the room along y.", frame: "room", example: "4.2 m" },
  ceilingHeight: {
    meaning: "Height of the ceiling above the floor; of a sloped one at its lowest point.",
    frame: "room",
    example: "2.7 m",
  },
  ceilingVoid: {
    meaning: "Clear height above the ceiling, for what is set into it; none where it is 0.",
    without: "not known; on hold on paper where a luminaire goes into the ceiling",
    example: "400 mm",
  },
  ceiling: {
    meaning: "Slope of the ceiling.",
    without: "level",
    example: { slope: 22, towards: 90 },
    keys: {
      slope: { meaning: "Rise of the ceiling's plane from the horizontal.", default: 0, example: 22 },
      towards: {
        meaning: "Direction in plan towards which the ceiling rises, counter-clockwise from +x.",
        frame: "room",
        default: 0,
        example: 90,
      },
    },
  },
  reflectance: {
    meaning: "Share of light that the room's surfaces send back.",
    without: "typical of each surface",
    example: { ceiling: 0.8, walls: 0.5, floor: 0.2 },
    keys: {
      ceiling: { meaning: "Reflectance of the ceiling.", default: 0.8, example: 0.8 },
      walls: {
        meaning: "Reflectance of the walls: one for all, or one each for walls 0, 1, 2 and 3.",
        default: 0.5,
        example: [0.5, 0.5, 0.6, 0.5],
      },
      floor: { meaning: "Reflectance of the floor.", default: 0.2, example: 0.2 },
    },
  },
  openings: {
    meaning: "Windows and glazed doors: dark surfaces in the walls, since no daylight is counted.",
    without: "none",
    example: [{ wall: 0, from: "1 m", length: "1.8 m", sill: "0.9 m", height: "1.2 m" }],
    keys: {
      name: { meaning: "Name in messages and drawings.", without: "numbered", example: "window" },
      wall: {
        meaning: "Number of the wall: 0 is y = 0, 1 is x = length, 2 is y = width, 3 is x = 0.",
        frame: "room",
        example: 0,
      },
      from: { meaning: "From the wall's first corner to the near jamb.", frame: "wall", example: "1 m" },
      length: { meaning: "Width of the opening along the wall.", frame: "wall", example: "1.8 m" },
      sill: { meaning: "Height of its lower edge above the floor.", default: 0.9, example: "0.9 m" },
      height: { meaning: "From its lower edge to its upper.", example: "1.2 m" },
      reflectance: { meaning: "Reflectance of the glass as seen from inside.", default: 0.1, example: 0.1 },
    },
  },
  doors: {
    meaning: "Doors and the way their leaves swing.",
    without: "none",
    example: [{ wall: 1, from: "0.4 m", width: "0.9 m", swing: "in-left" }],
    keys: {
      name: { meaning: "Name in messages and drawings.", without: "numbered", example: "pantry door" },
      wall: { meaning: "Number of the wall, as of an opening.", frame: "room", example: 1 },
      from: { meaning: "From the wall's first corner to the near jamb.", frame: "wall", example: "0.4 m" },
      width: { meaning: "Width of the leaf.", frame: "wall", example: "0.9 m" },
      height: {
        meaning: "Upper edge of the leaf above the floor; no pendant may hang lower where it swings.",
        default: 2.03,
        example: "2.1 m",
      },
      swing: {
        meaning:
          "Whether the leaf opens into the room or out of it, and on which side its hinges are, seen from inside the room; none slides.",
        default: "in-left",
        example: "in-left",
      },
    },
  },
  joists: {
    meaning: "Ceiling joists, which no ceiling box may meet.",
    without: "none are known",
    example: { along: "y", spacing: "16 in", first: "8 in", width: "1 1/2 in" },
    keys: {
      along: { meaning: "Axis along which they run.", frame: "room", example: "y" },
      spacing: { meaning: "Centre to centre.", example: "16 in" },
      first: {
        meaning: "Centreline of the first one, from x = 0 where they run along y, from y = 0 where along x.",
        frame: "room",
        example: "8 in",
      },
      width: { meaning: "Width of one joist.", default: 0.045, example: "1 1/2 in" },
    },
  },
  ceilingBox: {
    meaning:
      "Width of the boxes in the ceiling that pendants hang from: joists and keep-outs stay clear of them, canopies are to hide them.",
    default: 0.1016,
    example: "68 mm",
  },
  keepOuts: {
    meaning: "Parts of the ceiling where no box may go: ducts, beams.",
    without: "none",
    example: [{ name: "duct", from: [0, 1.9], size: [0.5, 0.4] }],
    keys: {
      name: { meaning: "Name in messages and drawings.", without: "numbered", example: "duct" },
      from: {
        meaning: "Corner of least x and y; with `size`.",
        frame: "room",
        without: "`polygon` gives the place",
        example: [0, 1.9],
      },
      size: {
        meaning: "Extent along x and along y; with `from`.",
        frame: "room",
        without: "`polygon` gives the place",
        example: [0.5, 0.4],
      },
      polygon: {
        meaning: "Corners in plan, in place of `from` and `size`.",
        frame: "room",
        without: "`from` and `size` give the place",
        example: [
          [5, 0],
          [5.2, 0],
          [5.2, 4.2],
          [5, 4.2],
        ],
      },
    },
  },
};

export const BODY_KEYS: Keys<BodyDocument> = {
  name: { meaning: "Name in messages and drawings.", example: "tall pantry" },
  box: {
    meaning: "Two opposite corners of the solid before it is turned.",
    frame: "room",
    example: [
      [4.9, 0, 0],
      [5.4, 1.2, 2.2],
    ],
  },
  turn: {
    meaning: "Turned about the box's own vertical axis, counter-clockwise from above.",
    frame: "room",
    default: 0,
    example: 15,
  },
  reflectance: { meaning: "Reflectance of its faces.", default: 0.5, example: 0.6 },
  transmittance: {
    meaning: "Share of light that goes through, undeviated; 0 is solid.",
    default: 0,
    example: 0,
  },
  finish: { meaning: "Finish in words, for the look of things.", without: "not known", example: "matt" },
  colour: { meaning: "Colour in words or as #rrggbb.", without: "not known", example: "oak" },
};

export const PERSON_KEYS: Keys<PersonDocument> = {
  name: { meaning: "Name in messages and drawings.", example: "cook" },
  stature: { meaning: "Height of the person, shoes off.", default: 1.7, example: "1.72 m" },
  at: { meaning: "Between the feet.", frame: "room", example: [2.3, 1.35] },
  facing: {
    meaning: "Direction in which the person faces, counter-clockwise from +x.",
    frame: "room",
    without: "the middle of the island, or of the room",
    example: 90,
  },
  posture: {
    meaning: "Standing upright, leaning 15° towards `facing`, or seated.",
    without: "leaning at preparation, sink and hob, seated at eating, else standing",
    example: "leaning",
  },
  seat: {
    meaning: "Height of the seat above the floor.",
    without: "0.28 m below the top, or a chair where there is no island",
    example: "0.65 m",
  },
  age: {
    meaning: "Age, on which the light asked depends; the verdict stays the target's.",
    without: "not known; nothing is said of it",
    example: 52,
  },
  hand: { meaning: "The hand that works.", without: "not known", example: "right" },
};
