/** What a view sees of the app: the study, its light, and the few things that may be done to them. */

import type { ArrangementAssessment } from "../src/app.ts";
import type { LightAnswer } from "../src/workers/browser.ts";
import type { DefaultValue } from "./edits/defaults.ts";
import type { LuminaireKey } from "./edits/luminaires.ts";
import type { NamedEdit } from "./edits/named-edit.ts";
import type { RawStudy } from "./edits/raw-study.ts";
import type { Lighting, LightState } from "./light/lighting.ts";
import type { SecondaryResults } from "./light/secondary-results.ts";
import type { GivenAt, GivenFiles } from "./storage/given-files.ts";
import type { StudyHistory } from "./store/history.ts";
import type { Json, Path } from "./store/pointer.ts";
import type { Draft, SheetContent } from "./store/screen-store.ts";

export interface Display {
  readonly length: "mm" | "m" | "ft-in";
  readonly illuminance: "lx" | "fc";
}

export interface EditOptions {
  /** Edits of one hand movement share a mark and become one change. */
  readonly gesture?: string;
  /** The hand is still moving: coarse light will do. */
  readonly moving?: boolean;
}

/** The last exchange of a layer's luminaire, or of a luminaire's body, for its before and after. */
export interface Swap {
  readonly arrangement: number;
  readonly layer?: number;
  /** The luminaire whose body changed. */
  readonly body?: string;
  /** What was there before. */
  readonly luminaire: string;
  readonly assessment: ArrangementAssessment;
}

export interface AppView {
  readonly study: RawStudy;
  readonly display: Display;
  readonly history: StudyHistory;
  /** Index of the option on screen. */
  readonly arrangement: number;
  /** The setting whose light is shown; undefined for the layers' own levels. */
  readonly setting: string | undefined;
  showSetting(name: string | undefined): void;
  readonly selection: readonly LuminaireKey[];
  readonly lighting: Lighting;
  /** The light on screen; undefined before the first. */
  readonly light: LightAnswer | undefined;
  readonly lightState: LightState;
  readonly drafts: ReadonlyMap<string, Draft>;

  read(path: Path): Json | undefined;
  /** The default that stands at a place the study leaves open. */
  defaultAt(path: Path): DefaultValue | undefined;
  /** What the study's check says of a place, in one sentence. */
  issueAt(path: Path): string | undefined;
  edit(edit: NamedEdit, options?: EditOptions): void;
  keepDraft(id: string, draft: Draft): void;
  dropDraft(id: string): void;
  /** The last swap of a luminaire, while it is still the latest change. */
  lastSwap: Swap | undefined;
  /** Photometric files that were read and wait to be hung or kept. */
  readonly given: GivenFiles;

  /** Whether people are asked to stand in the light. */
  readonly withPeople: boolean | undefined;
  standPeople(stand: boolean): void;
  readonly showPeople: boolean;
  turnPeople(show: boolean): void;
  /** What stands on the sheet. */
  readonly sheetContent: SheetContent;
  showOnSheet(content: SheetContent): void;
  /** What is asked beside the light; undefined before the first light. */
  readonly results: SecondaryResults | undefined;
  /** Shows another option; with an edit, as part of making it. */
  showArrangement(index: number, edit?: NamedEdit): void;
  select(keys: readonly LuminaireKey[]): void;
  /** Says one line, on screen and to a screen reader. */
  say(line: string): void;
  /** Asks for files: studies or photometry; what was read is answered at the list of luminaires or over the page. */
  openFile(at?: GivenAt): void;
  /** Takes files as dropped or chosen. */
  takeFiles(files: readonly File[], at?: GivenAt): void;
  /** The luminaire whose fields are open in the list. */
  readonly shownLuminaire: string | undefined;
  showLuminaire(name: string | undefined): void;
  /** Shows the field of a path, with the option or the luminaire it belongs to. */
  showField(path: Path): void;
  printToScale(): void;
  /** The sheet alone, without panels, for a client to look at. */
  showClient(isForClient: boolean): void;
  /** Drawn again when something outside the study changed. */
  redraw(): void;
}

/** What a field needs of the app: the document it edits, and where a text that cannot be read is kept. */
export type FieldsView = Pick<
  AppView,
  "study" | "display" | "drafts" | "read" | "defaultAt" | "issueAt" | "edit" | "keepDraft" | "dropDraft"
> &
  // Of what stands in no study yet nothing is on hold.
  Partial<Pick<AppView, "lighting">>;
