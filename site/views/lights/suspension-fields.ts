/** Where a long luminaire hangs and where its supply comes down, from its middle. */

import { html, nothing, type TemplateResult } from "lit";
import type { SuspensionPoints } from "../../../src/app.ts";
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
  const points = hung.points.map(([x, y]): Json => [tidy(x), tidy(y)]);
  const suspended = app.read([...path, "suspensions"]);
  const first = points[0];
  const last = points[points.length - 1];
  return html`
    ${pointsField(app, {
      path: [...path, "feed"],
      label: "Fed",
      change: `${name} fed`,
      unsaid: "not said: at its first point, assumed",
      choices: [
        { words: "at the middle", points: MIDDLE },
        { words: "at its first point, to the left", points: first },
        { words: "at its last point, to the right", points: last },
      ],
      other: "as below",
    })}
    ${app.read([...path, "feed"]) === undefined ? nothing : placeFields(app, [...path, "feed"], "Feed", `${name} fed`)}
    ${pointsField(app, {
      path: [...path, "suspensions"],
      label: "Suspension points",
      change: `${name} hangs by`,
      unsaid: `not said: ${points.length} assumed`,
      choices: [
        { words: "one, at the middle", points: [MIDDLE] },
        ...(points.length === 1 ? [] : [{ words: `${points.length}, as listed`, points }]),
      ],
      other: "as below",
    })}
    ${
      Array.isArray(suspended)
        ? suspended.map((_, i) =>
            placeFields(app, [...path, "suspensions", i], `Point ${i + 1}`, `${name} point ${i + 1}`),
          )
        : nothing
    }`;
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

function placeFields(app: FieldsView, path: Path, what: string, change: string): TemplateResult {
  return html`${lengthField(app, { label: `${what}, along from its middle`, path: [...path, 0], change })}
    ${lengthField(app, { label: `${what}, across from its middle`, path: [...path, 1], change })}`;
}
