/**
 * What a worker answers, host-free; the same functions on the main thread give the same bits. Requests carry the whole
 * document (a few kilobytes), so that no answer depends on an edit whose message was lost; the study's files alone are handed over
 * before. What is dear to compute is remembered in the workspace by what it depends on.
 */

import { lightOfRequest } from "../app/light.ts";
import type { LightAnswer, LightRequest } from "../app/light-answer.ts";
import type { NewStudy } from "../app/new-study.ts";
import { Workspace } from "../app/open-document.ts";
import type { StudyFile } from "../app/study-files.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { type Outcome, success } from "../diagnostics/issue.ts";
import { type Answer, buffersOf } from "./transfer.ts";

type Side = typeof import("./side-answers.ts");

/** An answer that loads when it is first asked for, as nobody's first light waits for it. */
function later<
  N extends "plan" | "people" | "rules" | "beside" | "room" | "search" | "verify" | "tolerances",
>(name: N) {
  return async (
    request: Parameters<Side[N]>[0],
    workspace: Workspace,
    observer: Observer,
  ): Promise<Awaited<ReturnType<Side[N]>>> => {
    const answer = (await import("./side-answers.ts"))[name] as (
      request: Parameters<Side[N]>[0],
      workspace: Workspace,
      observer: Observer,
    ) => ReturnType<Side[N]>;
    return await answer(request, workspace, observer);
  };
}

/** One function a message; issues are answers too, faults are not. The map of messages is their type. */
export const ANSWERS = {
  /** Hands over the files of the study, all of them: those handed over before are forgotten, so that no study ever
   * reads another's. Later documents refer to them by path. */
  async files(
    { files }: { readonly files: readonly StudyFile[] },
    workspace: Workspace,
  ): Promise<Outcome<null>> {
    workspace.files.replace(files);
    return success(null);
  },
  /** Says what photometric files hold; keeps none of them. */
  async describe({ files }: { readonly files: readonly StudyFile[] }) {
    return success((await import("./photometry-summary-line.ts")).readings(files));
  },
  /** Checks the text of a study and lifts it to the present version. Nothing of it is kept. */
  async read({ text, file }: { readonly text: string; readonly file: string }) {
    return (await import("./side-answers.ts")).studyOfText(text, file);
  },
  /** A study to start from, its defaults left open so that the page can mark them. */
  async start(sizes: NewStudy) {
    return (await import("../app/new-study.ts")).newStudy(sizes, "open");
  },
  /** Light of one arrangement. */
  async light(request: LightRequest, workspace: Workspace, observer: Observer): Promise<Answer<LightAnswer>> {
    const light = await lightOfRequest(request, workspace, observer);
    if (!light.ok) return light;
    const { scene, assessment, contours, interreflected } = light.value;
    // A page that lent its interreflected light keeps it; luminaires and points are the worker's.
    const dependencies = [scene, request, contours.map(({ grid, points }) => [grid, points])];
    return { ...light, transfer: buffersOf([assessment, contours, interreflected], dependencies) };
  },
  plan: later("plan"),
  people: later("people"),
  rules: later("rules"),
  beside: later("beside"),
  room: later("room"),
  search: later("search"),
  verify: later("verify"),
  tolerances: later("tolerances"),
};

/** The answers of one worker, with what they remember between questions. */
export function answers(): Answers {
  const workspace = new Workspace();
  const bound = Object.entries(ANSWERS).map(([name, answer]) => [
    name,
    (request: never, observer: Observer) => answer(request, workspace, observer),
  ]);
  return Object.fromEntries(bound) as Answers;
}

export type Answers = {
  readonly [N in keyof typeof ANSWERS]: (
    request: Parameters<(typeof ANSWERS)[N]>[0],
    observer: Observer,
  ) => Promise<Awaited<ReturnType<(typeof ANSWERS)[N]>>> | Awaited<ReturnType<(typeof ANSWERS)[N]>>;
};
