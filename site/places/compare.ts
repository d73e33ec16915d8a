import { html } from "lit";
import type { Place } from "./place.ts";

export const compare: Place = { controls: () => html`` };
