/**
 * Serves the built viewer to this machine and to no other.
 *
 * It listens on the loopback address alone and answers only requests that name it, so that a page from elsewhere
 * cannot reach it by pointing a name of its own here. Files come from one folder, read once and kept.
 */

import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { extname } from "node:path";
import { gzipSync } from "node:zlib";
import { FILE_LIMITS } from "../diagnostics/file-limits.ts";
import { HEADERS } from "./content-security.ts";
import { readWithin } from "./files/reach.ts";

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".svg": "image/svg+xml",
  ".woff2": "font/woff2",
};
const LOOPBACK = "127.0.0.1";

interface Kept {
  readonly type: string;
  readonly plain: Uint8Array;
  readonly packed: Uint8Array;
}

export interface ViewerServer {
  readonly address: string;
  close(): Promise<void>;
}

/** Starts serving `folder`; port 0 takes any free one. `seen` hears of every request answered with a file.
 * Rejects when the port is taken. */
export function serveViewer(
  folder: string,
  port: number,
  seen: (path: string, packedBytes: number) => void = () => {},
): Promise<ViewerServer> {
  const kept = new Map<string, Kept | undefined>();
  const server = createServer((request, response) => answer(request, response, server, folder, kept, seen));
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, LOOPBACK, () => {
      resolve({
        address: `http://${LOOPBACK}:${portOf(server)}/`,
        close: () =>
          new Promise((done) => {
            server.close(() => done());
            server.closeAllConnections();
          }),
      });
    });
  });
}

function portOf(server: Server): number {
  const address = server.address();
  return typeof address === "object" && address !== null ? address.port : 0;
}

function answer(
  request: IncomingMessage,
  response: ServerResponse,
  server: Server,
  folder: string,
  kept: Map<string, Kept | undefined>,
  seen: (path: string, packedBytes: number) => void,
): void {
  const refuse = (status: number, words: string): void => {
    response.writeHead(status, { ...HEADERS, "Content-Type": "text/plain; charset=utf-8" });
    response.end(`${words}\n`);
  };
  const port = portOf(server);
  if (![`${LOOPBACK}:${port}`, `localhost:${port}`].includes(request.headers.host ?? "")) {
    refuse(421, "This server answers only to its own address.");
    return;
  }
  if (request.method !== "GET" && request.method !== "HEAD") {
    refuse(405, "Only reading is possible.");
    return;
  }
  const path = pathOf(request.url ?? "/");
  if (path === undefined) {
    refuse(400, "The address cannot be read.");
    return;
  }
  if (!kept.has(path)) kept.set(path, fileAt(folder, path));
  const file = kept.get(path);
  if (file === undefined) {
    refuse(404, "There is no such file.");
    return;
  }
  const packs = /\bgzip\b/.test(String(request.headers["accept-encoding"] ?? ""));
  const body = packs ? file.packed : file.plain;
  response.writeHead(200, {
    ...HEADERS,
    "Content-Type": file.type,
    "Content-Length": body.length,
    Vary: "Accept-Encoding",
    // Built names hold their content's hash; the rest must be asked for again.
    "Cache-Control": path.startsWith("assets/") ? "public, max-age=31536000, immutable" : "no-cache",
    ...(packs ? { "Content-Encoding": "gzip" } : {}),
  });
  response.end(request.method === "HEAD" ? undefined : body);
  seen(path, file.packed.length);
}

/** The file an address names, relative to the folder; undefined when it names none. */
function pathOf(url: string): string | undefined {
  try {
    const { pathname } = new URL(url, `http://${LOOPBACK}`);
    const path = decodeURIComponent(pathname).replace(/^\/+/, "");
    return path === "" || path.endsWith("/") ? `${path}index.html` : path;
  } catch {
    return undefined;
  }
}

function fileAt(folder: string, path: string): Kept | undefined {
  const read = readWithin({ folder, allowed: [] }, path, FILE_LIMITS.served, { file: path });
  if (!read.ok) return undefined;
  const plain = read.value.bytes;
  const type = TYPES[extname(path)] ?? "application/octet-stream";
  return { type, plain, packed: gzipSync(plain, { level: 9 }) };
}
