import { formatIlluminance, formatLength } from "../../src/app.ts";
import type { Display } from "../app-view.ts";

export function lengthText(app: { readonly display: Display }, metres: number): string {
  return formatLength(metres, app.display.length);
}

export function lightText(app: { readonly display: Display }, lux: number): string {
  return formatIlluminance(lux, app.display.illuminance);
}

/** A bare number gets the unit on screen. */
export function withUnit(text: string, unit: Display["length"]): string {
  const bare = /^-?\d+(?:[.,]\d+)?(?: \d+\/\d+)?$/.test(text.trim());
  return bare ? `${text.trim()} ${unit === "ft-in" ? "in" : unit}` : text;
}
