/** The rooms of the options as they were last looked at, for the client's sheet: a picture holds while nothing changes that it shows. */

import { arrangementLetters, type Picture, pictureOf } from "../../src/app.ts";
import type { AppView } from "../app-view.ts";
import type { RawStudy } from "../edits/raw-study.ts";

type Shown = Pick<AppView, "study" | "withPeople">;

interface KeptPicture extends Shown {
  readonly arrangement: number;
  readonly picture: Picture;
}

/** By the letters of the options, which they keep for life, until the next picture of that letter; whether one is of the study as it
 * stands is found when it is asked for. */
const pictures = new Map<string, KeptPicture>();

/** Keys of a study that no picture shows. */
const UNSEEN: ReadonlySet<string> = new Set(["title", "note", "project", "display", "targets"]);

/** Keeps the PNG of an option's room; one that is not read is none. */
export async function keepPictureOfRoom(
  { study, withPeople, arrangement }: Shown & Pick<AppView, "arrangement">,
  png: Blob,
): Promise<void> {
  const read = pictureOf(new Uint8Array(await png.arrayBuffer()));
  if (read.ok)
    pictures.set(letterOf(study, arrangement), { study, withPeople, arrangement, picture: read.value });
}

/** The picture of an option's room, where one was made of the study as it stands. */
export function pictureOfRoom(shown: Shown, arrangement: number): Picture | undefined {
  const kept = pictures.get(letterOf(shown.study, arrangement));
  return kept !== undefined && isAsPictured(kept, shown, arrangement) ? kept.picture : undefined;
}

/** Whether an option's room was pictured, and changed since. */
export function isPictureEarlier(shown: Shown, arrangement: number): boolean {
  const kept = pictures.get(letterOf(shown.study, arrangement));
  if (kept === undefined || kept.study.title !== shown.study.title) return false;
  return !isAsPictured(kept, shown, arrangement);
}

function letterOf({ arrangements }: RawStudy, arrangement: number): string {
  return arrangementLetters(arrangements)[arrangement];
}

function isAsPictured(kept: KeptPicture, { study, withPeople }: Shown, arrangement: number): boolean {
  if (kept.withPeople !== withPeople) return false;
  if (kept.study === study) return true;
  // What no edit touched is the same object in both.
  const [a, b] = [kept.study, study] as unknown as readonly Readonly<Record<string, unknown>>[];
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  const isSame = [...keys].every((key) => key === "arrangements" || UNSEEN.has(key) || a[key] === b[key]);
  return isSame && seenOf(kept.study, kept.arrangement) === seenOf(study, arrangement);
}

/** What a picture shows of an option, under which name. */
function seenOf({ arrangements }: RawStudy, arrangement: number): string {
  const { letter: _letter, note: _note, ...seen } = arrangements[arrangement];
  return JSON.stringify(seen);
}
