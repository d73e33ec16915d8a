import { curvedSide, graded, type ShadeForm } from "../shade-form.ts";

/** A cosine flare: wide and slack at the rim, narrow and steep above. */
export const bell: ShadeForm = {
  heightShare: 0.75,
  topShare: 0.2,
  openTop: false,
  lampInMiddle: false,
  closed: false,
  rings: ({ radius, top, height }) =>
    curvedSide(
      (t) => height * graded(t),
      (z) => top + (radius - top) * (1 - Math.sin(((z / height) * Math.PI) / 2)) ** 1.2,
    ),
};
