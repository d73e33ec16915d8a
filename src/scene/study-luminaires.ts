/** The luminaires of a study, from file, beam, or lamp and shade, and what each still lacks. */

import type { Issue, Outcome } from "../diagnostics/issue.ts";
import { pathTo } from "../diagnostics/json-path.ts";
import type { Ledger } from "../diagnostics/ledger.ts";
import { type BuiltLuminaire, buildLuminaire, furnishLuminaire } from "../luminaire/build-luminaire.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { buildShadeLuminaire } from "../luminaire/shade/build.ts";
import { isShadeLamp } from "../luminaire/shade/shade-document.ts";
import type { StudyDocument } from "../study/study-schema.ts";
import type { StudyContext } from "./study-context.ts";

/** Whether resolving needs the tracing of shades. */
export function namesShades(study: StudyDocument): boolean {
  return Object.values(study.luminaires ?? {}).some(
    ({ lamp, shade }) => isShadeLamp(lamp) && shade !== undefined,
  );
}

/** Whether resolving needs {@link StudyContext.buildBeam}. */
export function namesBeams(study: StudyDocument): boolean {
  return Object.values(study.luminaires ?? {}).some(({ beam }) => beam !== undefined);
}

export function luminairesOf(
  study: StudyDocument,
  context: StudyContext,
  buildShade: typeof buildShadeLuminaire,
  ledger: Ledger,
): Map<string, Luminaire> {
  const luminaires = new Map<string, Luminaire>();
  const keep = (built: Outcome<BuiltLuminaire>, path: string) => {
    ledger.take(built.ok ? built.warnings : built.issues, path);
    if (!built.ok) return;
    const { luminaire, defaults } = built.value;
    for (const { path: at, value, why } of defaults) ledger.note(at, value, why);
    luminaires.set(luminaire.name, luminaire);
  };
  for (const [name, document] of Object.entries(study.luminaires ?? {})) {
    const path = pathTo("/luminaires", name);
    const { photometry, beam, lamp, shade } = document;
    const traced = isShadeLamp(lamp) || shade !== undefined;
    const lights = [
      ...(photometry === undefined ? [] : ['"photometry"']),
      ...(beam === undefined ? [] : ['"beam"']),
      ...(traced ? ['"lamp" or "shade"'] : []),
    ];
    if (lights.length !== 1) {
      const expected = '"photometry", "beam", or "lamp" with "shade"';
      const none = lights.length === 0;
      const message = none ? "The luminaire has no light." : "The luminaire's light is given twice.";
      ledger.error(
        "luminaire-light",
        path,
        message,
        `one of ${expected}`,
        none ? "none" : lights.join(" and "),
      );
      continue;
    }
    if (traced) {
      if (!isShadeLamp(lamp) || shade === undefined) {
        ledger.error("luminaire-light", path, "Lamp and shade belong together.", '"lamp" with "shade"');
        continue;
      }
      const where = {
        path,
        ...(context.file === undefined ? {} : { file: context.file }),
        ...(study.display?.length === undefined ? {} : { unit: study.display.length }),
      };
      const built = buildShade(name, lamp, shade, where, context.observer);
      ledger.take(built.ok ? built.warnings : built.issues, path);
      if (!built.ok) continue;
      for (const each of built.value.assumptions) ledger.note(`${path}${each.path}`, each.value, each.why);
      keep(furnishLuminaire(built.value.luminaire, document, path), path);
      continue;
    }
    const file = photometry === undefined ? undefined : readPhotometry(name, context);
    if (photometry !== undefined && file === undefined) {
      ledger.error(
        "photometry-unread",
        `${path}/photometry`,
        "The photometric file was not read.",
        undefined,
        JSON.stringify(photometry),
      );
      continue;
    }
    if (file !== undefined)
      ledger.take(file.ok ? unsettledWarnings(file.warnings, document) : file.issues, `${path}/photometry`);
    if (file !== undefined && !file.ok) continue;
    keep(buildLuminaire(name, document, file?.value, path, context.buildBeam), path);
  }
  return luminaires;
}

/** What `fluxFrom` has settled is no warning any more. */
function unsettledWarnings(
  warnings: readonly Issue[],
  { fluxFrom }: { readonly fluxFrom?: string },
): readonly Issue[] {
  return fluxFrom === undefined ? warnings : warnings.filter(({ code }) => code !== "flux-mismatch");
}

function readPhotometry(name: string, { photometry }: StudyContext) {
  return typeof photometry === "function" ? photometry(name) : photometry.get(name);
}

/** Says where a layer names a luminaire that the study has not. */
export function checkReference(name: string, study: StudyDocument, path: string, ledger: Ledger): void {
  const names = Object.keys(study.luminaires ?? {});
  if (names.includes(name)) return;
  ledger.unknown("luminaire", path, name, names, names.length === 0 ? 'an entry in "luminaires"' : undefined);
}
