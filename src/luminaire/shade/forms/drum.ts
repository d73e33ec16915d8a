import { type ShadeForm, straightSide } from "../shade-form.ts";

export const drum: ShadeForm = {
  heightShare: 0.7,
  topShare: 0.9,
  openTop: true,
  lampInMiddle: false,
  closed: false,
  rings: ({ radius, top, height }) => straightSide([radius, 0], [top, height]),
};
