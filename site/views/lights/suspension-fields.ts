/** Where a long luminaire hangs and where its supply comes down, from its middle. */

import { html, nothing, type TemplateResult } from "lit";
import { formatLength, metresOf, type SuspensionPoints } from "../../../src/app.ts";
import type { FieldsView } from "../../app-view.ts";
import { choiceField, lengthField } from "../../components/fields.ts";
import { tidy } from "../../edits/raw-study.ts";
import type { Json, Path } from "../../store/pointer.ts";

interface Choice {
  readonly words: string;
  readonly points: Json;
}

const MIDDLE: Json = [0, 0];

/** @param hung as it hangs now, with what is assumed */
export function suspensionFields(app: FieldsView, name: string, hung: SuspensionPoints): TemplateResult {
  const path: Path = ["luminaires", name];
  const { axis } = hung;
  const points = hung.points.map(([x, y]): Json => [tidy(x), tidy(y)]);
  const suspended = app.read([...path, "suspensions"]);
  const byLength = [...hung.points.keys()].sort((a, b) => alongOf(hung, a) - alongOf(hung, b));
  const place = (at: Path, what: string, change: string): TemplateResult =>
    placeFields(app, { path: at, axis, what, change });
  return html`
    ${pointsField(app, {
      path: [...path, "feed"],
      label: "Fed",
      change: `${name} fed`,
      unsaid: "assumed: point 1",
      choices: [
        { words: "at its middle", points: MIDDLE },
        { words: "at its left point", points: points[byLength[0]] },
        { words: "at its right point", points: points[byLength[byLength.length - 1]] },
      ],
      other: "as below",
    })}
    ${app.read([...path, "feed"]) === undefined ? nothing : place([...path, "feed"], "Feed", `${name} fed`)}
    ${pointsField(app, {
      path: [...path, "suspensions"],
      label: "Suspension points",
      change: `${name} hangs by`,
      unsaid: `assumed: ${points.length}`,
      choices: [
        { words: "one, at its middle", points: [MIDDLE] },
        ...(points.length === 1
          ? []
          : [{ words: suspended === undefined ? `${points.length}, where assumed` : "as below", points }]),
      ],
      other: "as below",
    })}
    ${
      Array.isArray(suspended)
        ? suspended.map((_, i) =>
            place([...path, "suspensions", i], `Point ${i + 1}`, `${name} point ${i + 1}`),
          )
        : nothing
    }
    ${
      hung.assumed
        ? html`<p class="hint">${assumedWords(app, hung)}</p>`
        : html`<p class="hint">Below 0 is left of its middle, above 0 right, as its row hangs.</p>`
    }`;
}

/** How far right of the middle a point is, as the luminaire hangs in a row (m). */
function alongOf({ points, axis }: SuspensionPoints, i: number): number {
  return axis === 0 ? points[i][0] : -points[i][1];
}

function assumedWords(app: FieldsView, hung: SuspensionPoints): string {
  const places = hung.points.map((_, i) => formatLength(Math.abs(alongOf(hung, i)), app.display.length));
  return `Its points are ${places.join(" and ")} from its middle, left to right. Choose where it is fed and hangs, as its maker says.`;
}

interface PointsOptions {
  readonly path: Path;
  readonly label: string;
  readonly change: string;
  readonly unsaid: string;
  readonly choices: readonly Choice[];
  readonly other: string;
}

function pointsField(
  app: FieldsView,
  { path, label, change, unsaid, choices, other }: PointsOptions,
): TemplateResult {
  const now = app.read(path);
  // Of places that are the same one is offered.
  const offered = choices.filter(
    ({ points }, i) => choices.findIndex((each) => String(each.points) === String(points)) === i,
  );
  const isOther = now !== undefined && !offered.some(({ points }) => String(points) === String(now));
  return choiceField(app, {
    label,
    path,
    change,
    choices: [
      { value: "", words: unsaid },
      ...offered.map(({ words, points }) => ({ value: String(points), words })),
      ...(isOther ? [{ value: String(now), words: other }] : []),
    ],
    fallback: "",
    optional: true,
    edits: (value) => {
      if (isOther && value === String(now)) return [];
      return [{ path, value: offered.find(({ points }) => String(points) === value)?.points }];
    },
  });
}

interface PlaceOptions {
  readonly path: Path;
  readonly axis: SuspensionPoints["axis"];
  readonly what: string;
  readonly change: string;
}

/** A place by the luminaire's own length and side, whichever axis of its file is the long one. */
function placeFields(app: FieldsView, { path, axis, what, change }: PlaceOptions): TemplateResult {
  const [x, y] = [0, 1].map((i) => metresOf(app.read([...path, i])) ?? 0);
  const along: Path = [...path, axis];
  const beside: Path = [...path, 1 - axis];
  return html`${lengthField(app, {
    label: `${what}, along it from its middle`,
    path: along,
    change,
    derived: axis === 0 ? x : -y || 0,
    edits: (value) => [{ path: along, value: axis === 0 ? value : tidy(-(metresOf(value) ?? 0)) }],
  })}
    ${lengthField(app, { label: `${what}, to the far side`, path: beside, change })}`;
}
