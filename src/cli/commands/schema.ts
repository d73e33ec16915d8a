import { studyJsonSchema } from "../../study/study-json-schema.ts";
import { type Command, EXIT } from "../command.ts";

export const schema: Command = {
  name: "schema",
  usage: "schema",
  summary: "The JSON Schema of a study: every key with its unit, frame, default and an example.",
  arguments: [0, 0],
  options: {},
  async run(_, io) {
    io.out(`${JSON.stringify(studyJsonSchema(), null, 2)}\n`);
    return EXIT.met;
  },
};
