import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import { printable } from "../../diagnostics/printable.ts";
import { studyJsonSchema } from "../../study/study-json-schema.ts";
import { ANSWER_NAMES, type AnswerName, answerSchema } from "../answers/answer-schemas.ts";
import { type Command, EXIT, usageError } from "../command.ts";

export const schema: Command = {
  name: "schema",
  usage: "schema [ANSWER]",
  summary:
    "The JSON Schema of a study: every key with its meaning, unit, frame, default and an example; or of what a command prints.",
  arguments: [0, 1],
  options: {},
  details: `ANSWER is one of ${ANSWER_NAMES.join(", ")}: what that command prints with --json
(targets: \`check --targets\`; as-built: \`boxes --as-built\`; shade-comparison: \`shade --compare\`). Answers may gain keys; those described stay.`,
  async run(args, io) {
    const [name] = args.positionals;
    if (name !== undefined && !ANSWER_NAMES.includes(name as AnswerName))
      throw usageError(
        `There is no such answer.${didYouMean(name, ANSWER_NAMES)}`,
        ANSWER_NAMES.join(", "),
        printable(name, 40),
      );
    const schema = name === undefined ? studyJsonSchema() : answerSchema(name as AnswerName);
    io.out(`${JSON.stringify(schema, null, 2)}\n`);
    return EXIT.met;
  },
};
