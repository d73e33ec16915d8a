/** The rooms of the options as they were last looked at, for the client's sheet: a picture holds for the study it was made of. */

import { type Picture, pictureOf } from "../../src/app.ts";
import type { AppView } from "../app-view.ts";

type Shown = Pick<AppView, "study" | "withPeople">;

interface KeptPicture extends Shown {
  readonly picture: Picture;
}

const pictures = new Map<number, KeptPicture>();

/** Keeps the PNG of an option's room; one that is not read is none. */
export async function keepPictureOfRoom(
  { study, withPeople, arrangement }: Shown & Pick<AppView, "arrangement">,
  png: Blob,
): Promise<void> {
  const read = pictureOf(new Uint8Array(await png.arrayBuffer()));
  if (read.ok) pictures.set(arrangement, { study, withPeople, picture: read.value });
}

/** The picture of an option's room, where one was made of the study as it stands. */
export function pictureOfRoom({ study, withPeople }: Shown, arrangement: number): Picture | undefined {
  const picture = pictures.get(arrangement);
  return picture?.study === study && picture.withPeople === withPeople ? picture.picture : undefined;
}
