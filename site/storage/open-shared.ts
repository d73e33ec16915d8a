/** The study in an address, checked by the worker; the address then goes back to the page's own. */

import { Cancelled } from "../../src/app.ts";
import type { RawStudy } from "../edits/raw-study.ts";
import type { StudySession } from "../session.ts";
import type { Json } from "../store/pointer.ts";
import { unpackFragment } from "./share.ts";

/** Begins with the study in the address, before anything else could be shown; says why where it cannot be. */
export async function resumeShared(session: StudySession, fragment: string): Promise<boolean> {
  const study = await sharedStudy(session, fragment);
  if (study !== undefined) session.resume(study);
  return study !== undefined;
}

export async function openShared(session: StudySession, fragment: string): Promise<void> {
  const study = await sharedStudy(session, fragment);
  if (study !== undefined) await session.open(study as unknown as Json, "open the link's study");
}

/** The link's study, or undefined once it is said why it was not opened. */
async function sharedStudy(session: StudySession, fragment: string): Promise<RawStudy | undefined> {
  // The address is a copy of what is now a study of its own; later changes would make it lie.
  history.replaceState(null, "", location.pathname + location.search);
  const unpacked = unpackFragment(fragment);
  if (unpacked.kind === "refused") session.refuse(unpacked.message, []);
  if (unpacked.kind !== "study") return undefined;
  try {
    const request = { text: unpacked.text, file: "the link's study" };
    const outcome = await session.lighting.connection.call("read", request).outcome;
    if (outcome.ok) return outcome.value.document as RawStudy;
    const { asFarAsRead } = await import("./open-files.ts");
    session.refuse(
      "The link's study was not opened; the study on screen is as it was.",
      outcome.issues,
      asFarAsRead(unpacked.text),
    );
  } catch (error) {
    if (!(error instanceof Cancelled)) session.say(error instanceof Error ? error.message : String(error));
  }
  return undefined;
}
