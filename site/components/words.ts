import { formatIlluminance, formatLength } from "../../src/app.ts";
import type { Display } from "../app-view.ts";

export function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

export function lengthText(app: { readonly display: Display }, metres: number): string {
  return formatLength(metres, app.display.length);
}

export function lightText(app: { readonly display: Display }, lux: number): string {
  return formatIlluminance(lux, app.display.illuminance);
}
