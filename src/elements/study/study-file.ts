/** A study by its address: its text, and the photometric files beside it. */
import type { OpenStudy, Workspace } from "../../app/open-document.ts";
import type { StudyFile } from "../../app/study-files.ts";
import { orThrow } from "../../diagnostics/candlespan-error.ts";
import { failure, type Outcome } from "../../diagnostics/issue.ts";
import { insideFolder } from "../../study/photometry-paths.ts";

/** An open study, and what is remembered of its files and its light. */
export interface StudyAtAddress {
  readonly opened: OpenStudy;
  readonly workspace: Workspace;
}

/** Opens the study at an address, or a study handed over as text or object, whose files are beside that address.
 * Throws `CandlespanError` with every issue. */
export async function openStudyAt(
  address: URL,
  source: unknown,
  signal: AbortSignal,
): Promise<StudyAtAddress> {
  const file = decodeURIComponent(address.pathname.split("/").at(-1) ?? "");
  const text = source ?? new TextDecoder().decode(orThrow(await bytesAt(address, file, signal)));
  // Opening brings the readers and the schema, which no other element needs.
  const [{ openStudy }, { Workspace }] = await Promise.all([
    import("../../app/open-study.ts"),
    import("../../app/open-document.ts"),
  ]);
  const workspace = new Workspace();
  const files: StudyFile[] = [];
  const opened = orThrow(
    await openStudy(text, {
      ...(source === undefined ? { file } : {}),
      workspace,
      async read(path) {
        const content = await photometryBeside(address, path, signal);
        if (content.ok) files.push({ path, content: content.value });
        return content;
      },
    }),
  );
  workspace.files.replace(files);
  return { opened, workspace };
}

/** A path of a study is untrusted: it never leaves the study's folder, nor its server. */
async function photometryBeside(
  address: URL,
  path: string,
  signal: AbortSignal,
): Promise<Outcome<Uint8Array>> {
  if (!insideFolder(path))
    return failure({
      code: "file-outside",
      severity: "error",
      message: "The study names a file outside its own folder.",
      expected: "a path relative to the study, inside its folder",
      received: JSON.stringify(path),
      where: { file: path },
    });
  const relative = path.split(/[\\/]/).map(encodeURIComponent).join("/");
  return bytesAt(new URL(relative, address), path, signal);
}

async function bytesAt(address: URL, file: string, signal: AbortSignal): Promise<Outcome<Uint8Array>> {
  const response = await fetch(address, { signal }).catch((error: unknown) => {
    signal.throwIfAborted();
    return error instanceof Error ? error.message : String(error);
  });
  if (typeof response !== "string" && response.ok)
    return { ok: true, value: new Uint8Array(await response.arrayBuffer()), warnings: [] };
  return failure({
    code: "file-unreachable",
    severity: "error",
    message: "The file could not be fetched.",
    expected: "a file at this address that the page may read",
    received: `${address.href}: ${typeof response === "string" ? response : `status ${response.status}`}`,
    where: { file },
  });
}
