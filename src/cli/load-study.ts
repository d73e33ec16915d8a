/** A study from disk, its photometric files beside it, resolved: what every command that takes a STUDY starts with. */

import { dirname, join } from "node:path";
import { PUBLISHED_TARGETS_BY_ID } from "../assessment/targets-published.ts";
import { orThrow } from "../diagnostics/candlespan-error.ts";
import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import type { Photometry } from "../photometry/photometry.ts";
import { readPhotometry } from "../photometry/readers/read-photometry.ts";
import { resolveStudy } from "../scene/resolve.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { StudyContext } from "../scene/study-context.ts";
import { type PhotometryPath, photometryPaths } from "../study/photometry-paths.ts";
import type { StudyDocument } from "../study/study.ts";
import { placeIssues, readStudy } from "../study/study-text.ts";
import { PHOTOMETRY_LIMIT, type Reach, reachOf, readUtf8, readWithin, STUDY_LIMIT } from "./files.ts";

export interface LoadedStudy {
  readonly document: StudyDocument;
  readonly study: ResolvedStudy;
  /** What resolving it needed, for documents made from it. */
  readonly context: StudyContext;
  /** The document as it was written, for its fingerprint. */
  readonly written: unknown;
}

/** Reads and resolves the study at `path` (`-` for standard input), `extended` first where asked. Throws what is wrong
 * with it. */
export function loadStudy(
  path: string,
  allowOutside: readonly string[] = [],
  extended: (document: StudyDocument) => StudyDocument = (document) => document,
): LoadedStudy {
  const file = path === "-" ? "standard input" : path;
  const text = orThrow(readUtf8(path, STUDY_LIMIT));
  const document = extended(orThrow(readStudy(text, file)));
  const reach = reachOf(path, allowOutside);
  const photometry = new Map<string, Outcome<Photometry>>();
  for (const named of photometryPaths(document))
    photometry.set(named.luminaire, readNamed(document, named, reach, file));
  const context: StudyContext = { photometry, publishedTargets: PUBLISHED_TARGETS_BY_ID, file };
  const resolved = resolveStudy(document, context);
  // What is wrong with the photometric files has its own file and line; the rest gets its place in the study.
  const study = orThrow(
    resolved.ok ? resolved : failure<ResolvedStudy>(...placeIssues(resolved.issues, text, file)),
  );
  return { document, study, context, written: JSON.parse(text) };
}

/** The photometry of one luminaire: the file carried inside the study, else the one on disk. */
function readNamed(
  document: StudyDocument,
  named: PhotometryPath,
  reach: Reach,
  file: string,
): Outcome<Photometry> {
  const where = { file, path: named.where };
  const fetched = fetch(document, named.path, reach, where);
  if (!fetched.ok) return fetched;
  const flux = document.luminaires?.[named.luminaire]?.flux;
  return readPhotometry(fetched.value, {
    file: named.path,
    lampSet: named.lampSet,
    flux,
    // A tilt file stands beside the photometric file that names it; the study's folder bounds it as well.
    tilt: (name) =>
      fetch(document, join(dirname(named.path), name), reach, { file: named.path, path: `TILT=${name}` }),
  });
}

function fetch(
  document: StudyDocument,
  path: string,
  reach: Reach,
  where: Issue["where"],
): Outcome<Uint8Array> {
  const { embedded } = document;
  if (embedded !== undefined && Object.hasOwn(embedded, path)) {
    const { text, base64 } = embedded[path];
    return success(text === undefined ? Buffer.from(base64 ?? "", "base64") : new TextEncoder().encode(text));
  }
  const found = readWithin(reach, path, PHOTOMETRY_LIMIT, where);
  return found.ok ? success(found.value.bytes) : failure(...found.issues);
}
