/** What is on hold of the option on screen, gathered by the place of the study that answers it. */

import { formatPointer, holdsOf, ownerOf } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import type { HeldPlace } from "../../store/hold-visit.ts";
import type { Path } from "../../store/pointer.ts";

type Hold = ReturnType<typeof holdsOf>[number];

export interface HeldHere extends HeldPlace {
  readonly holds: readonly Hold[];
}

const found = new WeakMap<object, Map<string, readonly HeldHere[]>>();

/** By light, unit and option: the page is drawn far more often than they change. */
export function heldPlaces(app: AppView): readonly HeldHere[] {
  const { light, arrangement } = app;
  if (light === undefined) return [];
  const unit = app.display.length === "ft-in" ? "ft-in" : "mm";
  const ofLight = found.get(light) ?? new Map<string, readonly HeldHere[]>();
  found.set(light, ofLight);
  const key = `${unit} ${arrangement}`;
  const places = ofLight.get(key) ?? gathered(holdsOf(light, unit), light.scene.layers, arrangement);
  ofLight.set(key, places);
  return places;
}

/** Where a study says what a hold's field names in its option. */
export function pathOf(field: Hold["field"], arrangement: number): Path {
  return field[0] === "layers" ? ["arrangements", arrangement, ...field] : field;
}

function gathered(
  holds: readonly Hold[],
  layers: readonly { readonly name: string }[],
  arrangement: number,
): HeldHere[] {
  const owners = new Map<string, Hold[]>();
  for (const hold of holds) {
    const owner = formatPointer(ownerOf(hold.field));
    owners.set(owner, [...(owners.get(owner) ?? []), hold]);
  }
  return [...owners.values()].map((held) => {
    const [{ field, missing = [] }] = held;
    return {
      name: nameOf(field, layers),
      path: pathOf(missing[0] ?? field, arrangement),
      missing: held.flatMap((hold) => (hold.missing ?? []).map((each) => pathOf(each, arrangement))),
      unlessSwitched: held.flatMap(({ missing = [], enough }) =>
        enough === undefined
          ? []
          : missing.filter((each) => each !== enough).map((each) => pathOf(each, arrangement)),
      ),
      wrong: held.flatMap((hold) =>
        hold.missing === undefined ? [{ path: pathOf(hold.field, arrangement), words: hold.words }] : [],
      ),
      holds: held,
    };
  });
}

function nameOf([list, of]: Hold["field"], layers: readonly { readonly name: string }[]): string {
  if (list === "layers") return layers[Number(of)].name;
  return list === "luminaires" ? String(of) : list === "bodies" ? "in the way" : String(list);
}
