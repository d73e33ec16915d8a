/**
 * What a page and its workers say to each other: a typed map from a name to its request and its response, the type of
 * what a worker answers. Host-free: browsers and Node spawn workers differently but speak this.
 */

import type { Issue } from "../diagnostics/issue.ts";
import type { Answers } from "./answers.ts";
import type { SearchQuestion, VerifyQuestion } from "./side-answers.ts";

export type { PeopleInLight as PeopleAnswer } from "../app/beside-the-verdict.ts";
export type { InterreflectedLight, LightAnswer, LightRequest } from "../app/light-answer.ts";
export type { ArrangementRequest } from "../app/open-document.ts";
export type { RoomAnswer, RoomRequest as RoomQuestion } from "../app/room-light.ts";
export type { StudyFile } from "../app/study-files.ts";
export type { FileReading } from "./photometry-summary-line.ts";
export type { SearchQuestion, VerifyQuestion };

/** Every request may be cancelled. */
export type MessageName = keyof Answers;
export type RequestOf<N extends MessageName> = Parameters<Answers[N]>[0];
export type ResponseOf<N extends MessageName> =
  Extract<Awaited<ReturnType<Answers[N]>>, { readonly ok: true }> extends { readonly value: infer T }
    ? T
    : never;

export type SearchAnswer = ResponseOf<"search">;
export type VerifyAnswer = ResponseOf<"verify">;

export interface Progress {
  /** In words. */
  readonly stage: string;
  /** 0…1 */
  readonly fraction: number;
}

/** Page to worker. */
export type Call =
  | { readonly kind: "call"; readonly id: number; readonly name: MessageName; readonly request: unknown }
  | { readonly kind: "cancel"; readonly id: number }
  /** Shared memory by which a running calculation hears that it is cancelled: slot `id % length` holds `id`. */
  | { readonly kind: "stop-flags"; readonly flags: Int32Array };

/** Worker to page. */
export type Reply =
  | {
      readonly kind: "response";
      readonly id: number;
      readonly response: unknown;
      readonly warnings: readonly Issue[];
    }
  | { readonly kind: "progress"; readonly id: number; readonly progress: Progress }
  | { readonly kind: "issues"; readonly id: number; readonly issues: readonly Issue[] }
  | { readonly kind: "cancelled"; readonly id: number }
  | { readonly kind: "fault"; readonly id: number; readonly message: string };
