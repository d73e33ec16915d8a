import { circle, curvedSide, type ShadeForm } from "../shade-form.ts";

export const globe: ShadeForm = {
  heightShare: 1,
  topShare: 0,
  openTop: false,
  lampInMiddle: true,
  closed: true,
  rings: ({ radius, height }) =>
    curvedSide(
      (t) => (height / 2) * (1 - Math.cos(Math.PI * t)),
      (z) => radius * circle((2 * z) / height - 1),
      32,
    ),
};
