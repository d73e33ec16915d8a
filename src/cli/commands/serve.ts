import { fileURLToPath } from "node:url";
import { CandlespanError } from "../../diagnostics/candlespan-error.ts";
import { type Command, EXIT, usageError } from "../command.ts";
import { readBytes } from "../files.ts";
import { serveViewer } from "../viewer-server.ts";

/** Where the built viewer lies, seen from the emitted command: beside `dist`. */
const VIEWER = fileURLToPath(new URL("../../../dist-site", import.meta.url));

export const serve: Command = {
  name: "serve",
  usage: "serve [options]",
  summary: "The viewer on a local port, for this machine only.",
  arguments: [0, 0],
  options: {
    port: { type: "string", value: "PORT", default: "8420", description: "port to listen on; 0 takes any" },
  },
  details: "Nothing leaves this machine. Stop it with Ctrl+C.",
  async run(args, io) {
    const text = args.text("port") ?? "";
    const port = Number(text);
    if (!/^\d+$/.test(text) || port > 65_535)
      throw usageError("--port is not a port.", "a whole number from 0 to 65535", text);
    if (!readBytes(`${VIEWER}/index.html`, 1_000_000).ok)
      throw new CandlespanError([
        {
          code: "viewer-missing",
          severity: "error",
          message: "The viewer is not built.",
          expected: "`npm run site:build` to have been run",
          where: { file: VIEWER },
        },
      ]);
    const server = await serveViewer(VIEWER, port).catch((error: NodeJS.ErrnoException) => {
      throw new CandlespanError([
        {
          code: "port-taken",
          severity: "error",
          message: "The port cannot be listened on.",
          expected: "a free port, such as --port 0 finds",
          received: `${port} (${error.code ?? error.message})`,
          where: {},
        },
      ]);
    });
    io.out(`${server.address}\n`);
    await new Promise<void>((resolve) => {
      process.once("SIGINT", resolve);
      process.once("SIGTERM", resolve);
    });
    await server.close();
    return EXIT.met;
  },
};
