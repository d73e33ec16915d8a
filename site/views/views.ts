/** The views of the app, in the order of their buttons. A new view joins the list; each loads when it is first entered. */

import type { ViewEntry } from "./view.ts";

export const VIEWS: readonly ViewEntry[] = [
  { id: "kitchen", name: "Kitchen", load: async () => (await import("./kitchen.ts")).kitchen },
  { id: "lights", name: "Lights", load: async () => (await import("./lights.ts")).lights },
  { id: "compare", name: "Compare", load: async () => (await import("./compare.ts")).compare },
  { id: "hand-over", name: "Hand-over", load: async () => (await import("./hand-over.ts")).handOver },
];

/** The view the address names, else the one to begin with. */
export function viewInAddress(): string {
  const named = location.hash.slice(1);
  return VIEWS.some(({ id }) => id === named) ? named : "lights";
}
