/** A view of the app, named by the job. */

import type { TemplateResult } from "lit";
import type { AppView } from "../app-view.ts";

export interface View {
  /** What stands beside the sheet. */
  controls(app: AppView): TemplateResult;
  /** What stands instead of the sheet, for views that show something else. */
  sheet?(app: AppView): TemplateResult;
  /** Called when the view is entered. */
  entered?(app: AppView): void;
  /** Called when the view is left. */
  left?(): void;
}

export interface ViewEntry {
  readonly id: string;
  readonly name: string;
  load(): Promise<View>;
}
