import { circle, curvedSide, type ShadeForm } from "../shade-form.ts";

/** Open above: a half-ellipse hanging from its rim. */
export const bowl: ShadeForm = {
  heightShare: 0.4,
  topShare: 0,
  openTop: true,
  lampInMiddle: true,
  closed: false,
  rings: ({ radius, height }) =>
    curvedSide(
      (t) => height * (1 - Math.cos((t * Math.PI) / 2)),
      (z) => radius * circle(z / height - 1),
    ),
};
