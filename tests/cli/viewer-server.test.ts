/** The viewer's own server: to this machine only, from one folder only, with the policy on every answer. */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { serveViewer, type ViewerServer } from "../../src/cli/viewer-server.ts";

let folder: string;
let server: ViewerServer;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "viewer-"));
  mkdirSync(join(folder, "site/assets"), { recursive: true });
  writeFileSync(join(folder, "secret.txt"), "secret");
  writeFileSync(join(folder, "site/index.html"), "<!doctype html>");
  writeFileSync(join(folder, "site/assets/a-1.js"), "export {};\n".repeat(100));
  symlinkSync(join(folder, "secret.txt"), join(folder, "site/link.txt"));
  server = await serveViewer(join(folder, "site"), 0);
});

afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

function ask(
  path: string,
  headers: Record<string, string> = {},
  method = "GET",
): Promise<{ status: number; headers: Record<string, unknown>; body: string }> {
  const { hostname, port } = new URL(server.address);
  return new Promise((resolve, reject) => {
    const asked = request({ hostname, port, path, headers, method }, (response) => {
      let body = "";
      response.on("data", (chunk) => {
        body += chunk;
      });
      response.on("end", () =>
        resolve({ status: response.statusCode ?? 0, headers: response.headers, body }),
      );
    });
    asked.on("error", reject);
    asked.end();
  });
}

it("serves the page and its parts with the policy", async () => {
  const page = await ask("/");
  expect(page.status).toBe(200);
  expect(page.headers["content-security-policy"]).toMatch(/default-src 'none'.*frame-ancestors 'self'/);
  expect(page.headers["cache-control"]).toBe("no-cache");
  const part = await ask("/assets/a-1.js?x#y", { "Accept-Encoding": "gzip" });
  expect(part.headers["content-type"]).toMatch(/^text\/javascript/);
  expect(part.headers["content-encoding"]).toBe("gzip");
  expect(part.headers["cache-control"]).toMatch(/immutable/);
});

it("leads nowhere outside its folder, by letter, by code or by link", async () => {
  for (const path of [
    "/../secret.txt",
    "/%2e%2e/secret.txt",
    "/..%2fsecret.txt",
    "/link.txt",
    "/%00",
    "/assets",
    "/%zz",
  ]) {
    const answer = await ask(path);
    expect([400, 404]).toContain(answer.status);
    expect(answer.body).not.toContain("secret\n");
  }
});

it("answers no other name, so that no foreign page can borrow it", async () => {
  expect((await ask("/", { Host: "evil.example" })).status).toBe(421);
  expect((await ask("/", { Host: `localhost:${new URL(server.address).port}` })).status).toBe(200);
});

it("only reads", async () => {
  expect((await ask("/", {}, "POST")).status).toBe(405);
  const head = await ask("/", {}, "HEAD");
  expect([head.status, head.body]).toEqual([200, ""]);
});

it("says when the port is taken", async () => {
  await expect(serveViewer(folder, Number(new URL(server.address).port))).rejects.toMatchObject({
    code: "EADDRINUSE",
  });
});
