/**
 * Builds the committed sources twice, each from nothing in a folder of its own, and compares every byte of what would be packed:
 *
 *     npm run same-bytes
 *
 * Folders of different names and lengths, so that no path of the machine can hide in the result. Exit code 1 where the two differ.
 */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "same-bytes-"));

/** Digest of every file that is packed, by path. */
function built(name) {
  const at = join(folder, name);
  mkdirSync(at, { recursive: true });
  const archive = execFileSync("git", ["archive", "HEAD"], { cwd: root, maxBuffer: 1 << 28 });
  execFileSync("tar", ["-x", "-C", at], { input: archive });
  symlinkSync(join(root, "node_modules"), join(at, "node_modules"), "junction");
  execFileSync("npm", ["run", "-s", "prepack"], { cwd: at, stdio: ["ignore", "ignore", "inherit"] });
  const files = ["dist", "dist-site"].flatMap((part) =>
    readdirSync(join(at, part), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && !/\.(tsbuildinfo|map)$/.test(entry.name))
      .map((entry) => join(entry.parentPath ?? entry.path, entry.name)),
  );
  return new Map(
    files.map((path) => [relative(at, path), createHash("sha256").update(readFileSync(path)).digest("hex")]),
  );
}

try {
  const [first, second] = [built("a"), built(join("another", "folder of another name"))];
  const differing = [...new Set([...first.keys(), ...second.keys()])].filter(
    (path) => first.get(path) !== second.get(path),
  );
  for (const path of differing) console.log(`differs: ${path}`);
  console.log(`${first.size} files, ${differing.length} differ; Node ${process.version}`);
  if (differing.length > 0) process.exitCode = 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
