/** The floor plan on the sheet: what stands in the room taken, moved, sized and removed, and its fields shown beside it. */

import { html, type TemplateResult } from "lit";
import type { ResolvedStudy } from "../../src/app.ts";
import type {
  ItemMoveDetail,
  ItemRemoveDetail,
  ItemSelectDetail,
  UnderlayMoveDetail,
  UnderlayPointsDetail,
} from "../../src/elements.ts";
import "../../src/elements/floor-plan/floor-plan.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";
import { type KitchenItem, moveItem } from "../edits/kitchen-moves.ts";
import { sizeItem } from "../edits/kitchen-sizes.ts";
import { openingName, type RawOpening } from "../edits/raw-study.ts";
import type { StudySession } from "../session.ts";
import type { Path } from "../store/pointer.ts";
import { moveUnderlay, putPoints, underlayOf, underlayPart } from "./underlay-part.ts";

/** Of the verdict over the plan and the line under it (px). */
const ROUND_IT = 150;
/** Of the tools of a drawing underneath (px). */
const UNDERLAY_TOOLS = 120;
const LEAST_HEIGHT = 260;

/** Where the items of a kind are in the document. */
const LISTS: Readonly<Record<Exclude<KitchenItem["kind"], "island">, Path>> = {
  body: ["bodies"],
  opening: ["room", "openings"],
  person: ["people"],
  zone: ["island", "zones"],
};

export function roomPlan(
  session: StudySession,
  study: ResolvedStudy,
  light: LightAnswer,
  height: number | undefined,
): TemplateResult {
  const { image, tool, points } = underlayOf(session);
  return html`<candlespan-floor-plan
      .study=${study}
      .assessment=${light.assessment}
      .display=${session.display}
      .item=${session.screen.item}
      .largestHeight=${Math.max(LEAST_HEIGHT, (height ?? innerHeight) - ROUND_IT - (image === undefined ? 0 : UNDERLAY_TOOLS))}
      .underlay=${image}
      .underlayTool=${tool}
      .underlayPoints=${points}
      @underlay-points=${(event: CustomEvent<UnderlayPointsDetail>) => putPoints(session, event.detail)}
      @underlay-move=${(event: CustomEvent<UnderlayMoveDetail>) => moveUnderlay(session, event.detail)}
      @item-move=${(event: CustomEvent<ItemMoveDetail>) =>
        session.moveItem(event.detail, (raw, { move, side, distance, ...item }) =>
          side === undefined ? moveItem(raw, item, move) : sizeItem(raw, item, side, distance),
        )}
      @item-select=${(event: CustomEvent<ItemSelectDetail>) => {
        session.screen.item = event.detail.item;
        session.redraw();
      }}
      @item-remove=${(event: CustomEvent<ItemRemoveDetail>) => removeItem(session, event.detail.item)}
    ></candlespan-floor-plan>
    ${remarkOn(session)} ${underlayPart(session)}`;
}

function pathOf({ kind, index }: KitchenItem): Path {
  return kind === "island" ? ["island", "length"] : [...LISTS[kind], index];
}

/** What is selected, and its fields; how it is done while nothing is. */
function remarkOn(session: StudySession): TemplateResult {
  const { item } = session.screen;
  const isThere = item !== undefined && (item.kind === "island" || session.read(pathOf(item)) !== undefined);
  if (!isThere)
    return html`<p class="hint">
      Take a cupboard, a window, a person, a zone or the island's edge and move it; of what is selected, its sides too.
    </p>`;
  const name = nameOf(session, item);
  return html`<p class="row-of-actions">
    <button type="button" @click=${() => session.showField(pathOf(item))}>Fields of ${name}</button>
    ${
      item.kind === "island"
        ? ""
        : html`<button type="button" @click=${() => removeItem(session, item)}>Remove ${name}</button>`
    }
  </p>`;
}

function nameOf(session: StudySession, item: KitchenItem): string {
  if (item.kind === "island") return "the island";
  const opening = session.read(pathOf(item)) as unknown as RawOpening & { readonly name: string };
  return item.kind === "opening" ? openingName(opening, item.index) : opening.name;
}

function removeItem(session: StudySession, item: KitchenItem): void {
  const path = pathOf(item);
  if (item.kind === "island" || session.read(path) === undefined) return;
  session.screen.item = undefined;
  session.edit({ name: `remove ${nameOf(session, item)}`, edits: [{ path, value: undefined }] });
}
