/** The study in an address, checked by the worker; the address then goes back to the page's own. */

import { Cancelled } from "../../src/app.ts";
import type { RawStudy } from "../edits/raw-study.ts";
import type { StudySession } from "../session.ts";
import { unpackFragment } from "./share.ts";

/** The link's study, or undefined once it is said why it was not opened. */
export async function sharedStudy(desk: StudySession, fragment: string): Promise<RawStudy | undefined> {
  // The address is a copy of what is now a study of its own; later changes would make it lie.
  history.replaceState(null, "", location.pathname + location.search);
  const unpacked = unpackFragment(fragment);
  if (unpacked.kind === "refused") desk.refuse(unpacked.message, []);
  if (unpacked.kind !== "study") return undefined;
  try {
    const request = { text: unpacked.text, file: "the link's study" };
    const outcome = await desk.lighting.connection.call("read", request).outcome;
    if (outcome.ok) return outcome.value.document as RawStudy;
    desk.refuse("The link's study was not opened; the study on screen is as it was.", outcome.issues);
  } catch (error) {
    if (!(error instanceof Cancelled)) desk.say(error instanceof Error ? error.message : String(error));
  }
  return undefined;
}
