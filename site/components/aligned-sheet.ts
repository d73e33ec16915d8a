/** The aligned sheet of the option on screen, and on a narrow page its elevation apart, after the light. */

import { html, nothing, type TemplateResult } from "lit";
import type { ResolvedStudy } from "../../src/app.ts";
import type {
  LuminaireMoveDetail,
  LuminaireRemoveDetail,
  LuminaireSelectDetail,
  ZoneOpenDetail,
} from "../../src/elements.ts";
import "../../src/elements/sheet/sheet.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";
import type { PaperScale } from "../light/print-scale.ts";
import type { StudySession } from "../session.ts";
import type * as BelowTheSheet from "./below-the-sheet.ts";
import { alsoDrawn, drawingsOrRoom, roomPart, roomPlanPart } from "./drawings-or-room.ts";
import { stateWords } from "./state-words.ts";

export interface SheetState {
  readonly paper: PaperScale | undefined;
  readonly isNarrow: boolean;
  /** px the pane can show; undefined where the page scrolls as a whole */
  readonly height: number | undefined;
  readonly below: typeof BelowTheSheet | undefined;
}

const ALL_DRAWINGS = "elevation plan profile legend";

export function alignedSheet(session: StudySession, state: SheetState): TemplateResult {
  const { light } = session;
  if (light === undefined) {
    return html`<p class="waiting" role="status">${stateWords(session.lighting)}</p>`;
  }
  const study = asStudy(session, light);
  const { people } = session.lights;
  const content = state.paper === undefined ? session.sheetContent : "drawings";
  const isRoom = content === "room";
  const isDrawn = content === "drawings";
  // What is said of the last study lies over a verdict that no longer holds: nothing of it is pressed.
  const isStale = session.lightState.kind === "issues";
  const { height } = state;
  const elevationApart = state.isNarrow && state.paper === undefined && isDrawn;
  const move = (event: CustomEvent<LuminaireMoveDetail>): void => session.move(event.detail);
  const select = (event: CustomEvent<LuminaireSelectDetail>): void => session.select(event.detail.selection);
  const remove = (event: CustomEvent<LuminaireRemoveDetail>): void => session.remove(event.detail.luminaires);
  return html`
    ${state.paper === undefined ? drawingsOrRoom(session) : nothing}
    <div @pointerdown=${(event: PointerEvent) => letGo(session, event)} class=${isRoom ? "sheet-area room" : "sheet-area"} .style=${isRoom && height !== undefined ? `--sheet-height:${height}px` : ""}>
    <candlespan-sheet
      .availableHeight=${height}
      .perMetre=${state.paper?.perMetre}
      .hide=${!isDrawn ? ALL_DRAWINGS : elevationApart ? "elevation" : ""}
      .study=${study}
      .assessment=${light.assessment}
      .display=${session.display}
      .selection=${session.selection}
      .shadows=${people?.shadows ?? []}
      .images=${people?.images ?? []}
      .also=${alsoDrawn(session)}
      .clashes=${light.clashes}
      .stale=${isStale}
      .zonesOpen=${state.paper === undefined && !session.screen.isForClient && !isStale}
      @zone-open=${({ detail }: CustomEvent<ZoneOpenDetail>) => session.showField(["island", "zones", detail.index, detail.isTarget === true ? "target" : "name"])}
      @luminaire-move=${move}
      @luminaire-select=${select}
      @luminaire-remove=${remove}
    >${isStale || state.paper !== undefined ? nothing : state.below?.betterRows(session, light)}</candlespan-sheet>
    ${isRoom ? roomPart(session) : content === "floor plan" ? roomPlanPart(session, study, light, height) : nothing}
    </div>
    ${
      elevationApart
        ? html`<candlespan-elevation
            .study=${study}
            .assessment=${light.assessment}
            .display=${session.display}
            .selection=${session.selection}
            @luminaire-move=${move}
            @luminaire-select=${select}
          ></candlespan-elevation>`
        : nothing
    }
    ${state.below?.belowTheSheet(session, study, light)}
  `;
}

/** A press on empty paper lets go of what is selected. */
function letGo(session: StudySession, event: PointerEvent): void {
  if (session.selection.length === 0 || event.pointerType !== "mouse") return;
  const isOnDrawing = event.composedPath().some((each) => each instanceof SVGElement);
  if (!isOnDrawing) session.select([]);
}

const studies = new WeakMap<LightAnswer, ResolvedStudy>();

/** The answer as the elements take it: a study of the one scene it holds. */
function asStudy(session: StudySession, answer: LightAnswer): ResolvedStudy {
  let study = studies.get(answer);
  if (study === undefined) {
    study = {
      title: answer.title,
      display: session.display,
      scenes: [answer.scene],
      luminaires: new Map(
        answer.scene.layers.flatMap((layer) =>
          layer.luminaires.map(({ luminaire }) => [luminaire.name, luminaire] as const),
        ),
      ),
      targets: answer.targets,
      options: answer.options,
      defaults: answer.defaults,
      warnings: answer.warnings,
    };
    studies.set(answer, study);
  }
  return study;
}
