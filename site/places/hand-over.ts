import { html } from "lit";
import type { Place } from "./place.ts";

export const handOver: Place = { controls: () => html`` };
