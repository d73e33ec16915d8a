/**
 * Steps that lift a study of an older version to the present one. Each takes a document of its version and
 * returns one of the next; the present version is the number of steps plus one.
 */

export type Migration = (document: Readonly<Record<string, unknown>>) => Record<string, unknown>;

/** `MIGRATIONS[0]` lifts version 1 to 2, and so on. Version 1 is the first, so there is none yet. */
export const MIGRATIONS: readonly Migration[] = [];

export const PRESENT_VERSION = MIGRATIONS.length + 1;

/** The document lifted to the present version; anything that is not an older study is returned as it is, for the
 * schema to judge. */
export function migrate(document: unknown, migrations: readonly Migration[] = MIGRATIONS): unknown {
  if (typeof document !== "object" || document === null || Array.isArray(document)) return document;
  let lifted = document as Record<string, unknown>;
  const version = lifted.version;
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1) return document;
  for (let step = version; step <= migrations.length; step++) {
    lifted = { ...migrations[step - 1](lifted), version: step + 1 };
  }
  return lifted;
}
