/** Settings of an option: added, removed, their levels; and what becomes of them when a layer or zone changes its name. */

import type { Edit } from "../store/history.ts";
import type { Json, Path } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import { freshName, type RawSetting, type RawStudy } from "./raw-study.ts";

/** The usual levels of a new setting: soft. */
const SOFT = 0.3;

/** Another setting of an option, every layer dimmed, what is asked as in the zones. */
export function addSetting(study: RawStudy, arrangement: number): NamedEdit {
  const { settings = [], layers } = study.arrangements[arrangement];
  const name = freshName(
    settings.length === 0 ? "dinner" : "setting",
    settings.map((each) => each.name),
  );
  const dim = Object.fromEntries(layers.map((layer) => [layer.name, SOFT]));
  return {
    name: `add setting ${name}`,
    edits: [{ path: settingsPath(arrangement), value: [...settings, { name, dim }] as unknown as Json }],
  };
}

export function removeSetting(study: RawStudy, arrangement: number, index: number): NamedEdit {
  const { settings = [] } = study.arrangements[arrangement];
  const kept = settings.filter((_, i) => i !== index);
  return {
    name: `remove setting ${settings[index].name}`,
    edits: [
      {
        path: settingsPath(arrangement),
        value: kept.length === 0 ? undefined : (kept as unknown as Json),
      },
    ],
  };
}

/** The levels given, from those that light it now; or left to be found. @param levels by layer, as they are */
export function levelsBy(
  { name }: RawSetting,
  arrangement: number,
  index: number,
  way: "given" | "least power" | "evenest",
  levels: Readonly<Record<string, number>>,
): NamedEdit {
  const path = [...settingsPath(arrangement), index];
  return {
    name: `levels of ${name} ${way}`,
    edits: [
      { path: [...path, "dim"], value: way === "given" ? levels : undefined },
      { path: [...path, "find"], value: way === "given" ? undefined : way },
    ],
  };
}

/** What settings need when a layer or zone is called otherwise, or some are no more.
 * @param of key of the settings that names it @param after undefined where it is removed */
export function renamedInSettings(
  study: RawStudy,
  of: "dim" | "zones",
  before: string | readonly string[],
  after: string | undefined,
  arrangements: readonly number[] = study.arrangements.map((_, i) => i),
): Edit[] {
  const names = [before].flat();
  return arrangements.flatMap((arrangement) =>
    (study.arrangements[arrangement].settings ?? []).flatMap((setting, index): Edit[] => {
      const named = setting[of];
      if (named === undefined || !names.some((name) => Object.hasOwn(named, name))) return [];
      const entries = Object.entries(named).flatMap(([name, value]) =>
        !names.includes(name)
          ? [[name, value] as const]
          : after === undefined
            ? []
            : [[after, value] as const],
      );
      return [{ path: [...settingsPath(arrangement), index, of], value: Object.fromEntries(entries) }];
    }),
  );
}

export function settingsPath(arrangement: number): Path {
  return ["arrangements", arrangement, "settings"];
}
