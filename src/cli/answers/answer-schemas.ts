/** The JSON Schema of what each command prints with --json, by the command. */

import type { JsonSchema } from "../../study/study-json-schema.ts";
import { CHECK_ANSWER } from "./check-schema.ts";
import {
  INSPECT_ANSWER,
  SHADE_ANSWER,
  SHADE_COMPARISON_ANSWER,
  TARGETS_ANSWER,
  VERIFY_ANSWER,
} from "./file-schemas.ts";
import { ARRANGE_ANSWER, AS_BUILT_ANSWER, BOXES_ANSWER, SWAP_ANSWER } from "./search-schemas.ts";

const ANSWERS = {
  check: CHECK_ANSWER,
  targets: TARGETS_ANSWER,
  inspect: INSPECT_ANSWER,
  arrange: ARRANGE_ANSWER,
  boxes: BOXES_ANSWER,
  "as-built": AS_BUILT_ANSWER,
  swap: SWAP_ANSWER,
  verify: VERIFY_ANSWER,
  shade: SHADE_ANSWER,
  "shade-comparison": SHADE_COMPARISON_ANSWER,
} as const;

export type AnswerName = keyof typeof ANSWERS;
export const ANSWER_NAMES = Object.keys(ANSWERS) as AnswerName[];

/** Dialect 2020-12; `unit` is an annotation. */
export function answerSchema(name: AnswerName): JsonSchema {
  return { $schema: "https://json-schema.org/draft/2020-12/schema", ...ANSWERS[name] };
}
