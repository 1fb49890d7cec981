/**
 * Steps that carry an older show file forward, one version at a time. A file of every version is kept for ever
 * in the cases, and a test reads them all. A step takes and gives the `tables` of a file as plain JSON; what it
 * gives is checked like any other file, so a step need not check.
 */
import { DOCUMENT_VERSION } from "./schema.ts";

/** The tables of a file as they were parsed, before any check. */
export type RawTables = { readonly [table: string]: unknown };

/** `STEPS[n]` carries version n to n + 1. Version 1 is the first, so there is none yet. */
export const STEPS: { readonly [version: number]: (tables: RawTables) => RawTables } = {};

/** The tables carried from the file's version to the newest. Throws where a step is missing: a slip of the build. */
export function carriedForward(tables: RawTables, version: number): RawTables {
  let carried = tables;
  for (let at = version; at < DOCUMENT_VERSION; at++) {
    const step = STEPS[at];
    if (step === undefined) throw new Error(`no step carries version ${at} forward`);
    carried = step(carried);
  }
  return carried;
}
