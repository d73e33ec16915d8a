/** The aligned sheet of the option on screen, and on a narrow page its elevation apart, after the light. */

import { html, nothing, type TemplateResult } from "lit";
import type { ResolvedStudy } from "../../src/app.ts";
import type {
  LuminaireMoveDetail,
  LuminaireRemoveDetail,
  LuminaireSelectDetail,
} from "../../src/elements.ts";
import "../../src/elements/sheet/sheet.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";
import type { PaperScale } from "../light/print-scale.ts";
import type { StudySession } from "../session.ts";
import { drawingsOrRoom, roomPart } from "./drawings-or-room.ts";
import { stateWords } from "./state-words.ts";

export interface SheetState {
  readonly paper: PaperScale | undefined;
  readonly isNarrow: boolean;
  /** px the pane can show; undefined where the page scrolls as a whole */
  readonly height: number | undefined;
  readonly below: ((app: StudySession, study: ResolvedStudy, light: LightAnswer) => unknown) | undefined;
}

const ALL_DRAWINGS = "elevation plan profile legend";

export function alignedSheet(desk: StudySession, state: SheetState): TemplateResult {
  const { light } = desk;
  if (light === undefined) {
    return html`<p class="waiting" role="status">${stateWords(desk.lighting)}</p>`;
  }
  const study = asStudy(desk, light);
  const { people } = desk.lights;
  const isRoom = desk.showRoom && state.paper === undefined;
  const { height } = state;
  const elevationApart = state.isNarrow && state.paper === undefined && !isRoom;
  const move = (event: CustomEvent<LuminaireMoveDetail>): void => desk.move(event.detail);
  const select = (event: CustomEvent<LuminaireSelectDetail>): void => desk.select(event.detail.selection);
  const remove = (event: CustomEvent<LuminaireRemoveDetail>): void => desk.remove(event.detail.luminaires);
  return html`
    ${state.paper === undefined ? drawingsOrRoom(desk) : nothing}
    <div class=${isRoom ? "sheet-area room" : "sheet-area"} .style=${isRoom && height !== undefined ? `height:${height}px` : ""}>
    <candlespan-sheet
      .availableHeight=${height}
      .perMetre=${state.paper?.perMetre}
      .hide=${isRoom ? ALL_DRAWINGS : elevationApart ? "elevation" : ""}
      .study=${study}
      .assessment=${light.assessment}
      .display=${desk.display}
      .selection=${desk.selection}
      .shadows=${people?.shadows ?? []}
      .images=${people?.images ?? []}
      .clashes=${light.clashes}
      @luminaire-move=${move}
      @luminaire-select=${select}
      @luminaire-remove=${remove}
    ></candlespan-sheet>
    ${isRoom ? roomPart(desk) : nothing}
    </div>
    ${
      elevationApart
        ? html`<candlespan-elevation
            .study=${study}
            .assessment=${light.assessment}
            .display=${desk.display}
            .selection=${desk.selection}
            @luminaire-move=${move}
            @luminaire-select=${select}
          ></candlespan-elevation>`
        : nothing
    }
    ${state.below?.(desk, study, light)}
  `;
}

const studies = new WeakMap<LightAnswer, ResolvedStudy>();

/** The answer as the elements take it: a study of the one scene it holds. */
function asStudy(desk: StudySession, answer: LightAnswer): ResolvedStudy {
  let study = studies.get(answer);
  if (study === undefined) {
    study = {
      title: answer.title,
      display: desk.display,
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
