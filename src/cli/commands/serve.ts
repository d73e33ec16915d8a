import { fileURLToPath } from "node:url";
import { refused } from "../../diagnostics/candlespan-error.ts";
import { FILE_LIMITS } from "../../diagnostics/file-limits.ts";
import { printable } from "../../diagnostics/printable.ts";
import { type Command, EXIT, type Io, oneValue, usageError } from "../command.ts";
import { exists } from "../files/folder.ts";
import { readBytes } from "../files/read.ts";
import { whileWaiting } from "../progress.ts";
import { serveViewer } from "../viewer-server.ts";

/** Where the built viewer lies, seen from the emitted command: beside `dist`. */
const VIEWER = fileURLToPath(new URL("../../../dist-site", import.meta.url));

/** Its sources, where the command runs in the project and not in an installed package. */
const VIEWER_CONFIG = fileURLToPath(new URL("../../../site/vite.config.ts", import.meta.url));

function isBuilt(): boolean {
  return readBytes(`${VIEWER}/index.html`, FILE_LIMITS.served).ok;
}

/** Builds the viewer where its sources and the bundler are at hand; elsewhere nothing happens. */
async function buildViewer(io: Io): Promise<void> {
  if (!exists(VIEWER_CONFIG)) return;
  await whileWaiting(
    io,
    `Building the viewer into ${printable(VIEWER, 200)}, once; it takes seconds, or minutes on a busy machine.`,
    import("vite").then(({ build }) => build({ configFile: VIEWER_CONFIG, logLevel: "error" })),
  );
}

export const serve: Command = {
  name: "serve",
  usage: "serve [options]",
  summary: "The viewer on a local port, for this machine only.",
  arguments: [0, 0],
  options: {
    port: oneValue("PORT", "port to listen on; 0 takes any", "8420"),
  },
  details:
    "In a clone of the project it builds the viewer into dist-site first, where that is not done. Nothing leaves this machine. Stop it with Ctrl+C.",
  async run(args, io) {
    const text = args.text("port") ?? "";
    const port = Number(text);
    if (!/^\d+$/.test(text) || port > 65_535)
      throw usageError("--port is not a port.", "a whole number from 0 to 65535", text);
    if (!isBuilt()) await buildViewer(io);
    if (!isBuilt())
      throw refused({
        code: "viewer-missing",
        message: "The viewer is not built.",
        expected: "`npm run site:build` to have been run",
        where: { file: VIEWER },
      });
    const server = await serveViewer(VIEWER, port).catch((error: NodeJS.ErrnoException) => {
      throw refused({
        code: "port-taken",
        message: "The port cannot be listened on.",
        expected: "a free port, such as --port 0 finds",
        received: `${port} (${error.code ?? error.message})`,
      });
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
