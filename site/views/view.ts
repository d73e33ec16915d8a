/** A place of the app, named by the job. New places join the list below; each loads when it is first entered. */

import type { TemplateResult } from "lit";
import type { AppView } from "../app-view.ts";

export interface View {
  /** What stands beside the sheet. */
  controls(app: AppView): TemplateResult;
  /** What stands instead of the sheet, for places that show something else. */
  sheet?(app: AppView): TemplateResult;
  /** Called when the place is left or the light changes under it. */
  left?(): void;
}

export interface ViewEntry {
  readonly id: string;
  readonly name: string;
  load(): Promise<View>;
}

export const VIEWS: readonly ViewEntry[] = [
  { id: "kitchen", name: "Kitchen", load: async () => (await import("./kitchen.ts")).kitchen },
  { id: "lights", name: "Lights", load: async () => (await import("./lights.ts")).lights },
  { id: "compare", name: "Compare", load: async () => (await import("./compare.ts")).compare },
  { id: "hand-over", name: "Hand-over", load: async () => (await import("./hand-over.ts")).handOver },
];
