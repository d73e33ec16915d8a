/** Where the light of a luminaire from flux and beam leaves: from one point, or from the whole underside of its body. */

import { html, nothing, type TemplateResult } from "lit";
import { formatLength, metresOf } from "../../../src/app.ts";
import type { FieldsView } from "../../app-view.ts";
import type { RawLuminaire } from "../../edits/raw-study.ts";
import type { Json, Path } from "../../store/pointer.ts";

const KEYS = ["diameter", "length", "width"] as const;

export function luminaireOpening(
  app: FieldsView,
  name: string,
  { beam, body, opening }: RawLuminaire,
): TemplateResult | typeof nothing {
  const underside = sizeOf(body);
  if (beam === undefined || (opening === undefined && Object.keys(underside).length === 0)) return nothing;
  const path: Path = ["luminaires", name, "opening"];
  const choose = (what: string, value: Json | undefined) => () =>
    app.edit({ name: `${name} lit ${what}`, edits: [{ path, value }] });
  if (opening === undefined)
    return html`<p class="hint">Its light is calculated from one point.
      <button type="button" class="text" @click=${choose("from its whole underside", underside)}>It leaves the whole underside</button></p>`;
  const sides = Object.values(sizeOf(opening)).map((side) =>
    formatLength(metresOf(side) ?? 0, app.display.length),
  );
  return html`<p class="hint">Its light leaves ${sides.join(" × ")} of its underside.
    <button type="button" class="text" @click=${choose("from one point", undefined)}>It leaves one point</button></p>`;
}

/** What is given of the plan size of a body or an opening. */
function sizeOf(of: unknown): { readonly [key: string]: Json } {
  const given = (of ?? {}) as { readonly [key: string]: Json };
  return Object.fromEntries(KEYS.flatMap((key) => (given[key] === undefined ? [] : [[key, given[key]]])));
}
