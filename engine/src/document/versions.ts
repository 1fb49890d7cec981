/**
 * Steps that carry an older show file forward, one version at a time. A file of every version is kept for ever
 * in the cases, and a test reads them all. A step takes and gives the `tables` of a file as plain JSON; what it
 * gives is checked like any other file, so a step need not check.
 */
import { DOCUMENT_VERSION } from "./schema.ts";

/** The tables of a file as they were parsed, before any check. */
export type RawTables = { readonly [table: string]: unknown };

/** `STEPS[n]` carries version n to n + 1. */
export const STEPS: { readonly [version: number]: (tables: RawTables) => RawTables } = {
  1: (tables) =>
    filled(tables, {
      shows: { zone: "", currency: "", wage: 0, cardThickness: 1.5 },
      rooms: { entered: true },
      walls: { glass: false, refused: false },
      placements: { up: 0 },
      ...Object.fromEntries(NEW_IN_2.map((table) => [table, {}])),
    }),
};

/** Tables that version 2 brought: making, the calendar and what is asked of the venue. */
const NEW_IN_2 = [
  "parts",
  "mounts",
  "stocks",
  "wallCoverings",
  "shifts",
  "rates",
  "chores",
  "questions",
] as const;

/** The tables with what a version brought: fields every record of a table begins with, and tables not there yet. */
function filled(tables: RawTables, brought: { readonly [table: string]: object }): RawTables {
  const entries = Object.entries(brought).map(([name, fields]) => {
    const table = tables[name] ?? {};
    if (!isTable(table)) return [name, table] as const;
    const records = Object.entries(table).map(([id, record]) => [
      id,
      isTable(record) ? { ...fields, ...record } : record,
    ]);
    return [name, Object.fromEntries(records)] as const;
  });
  return { ...tables, ...Object.fromEntries(entries) };
}

function isTable(value: unknown): value is { readonly [key: string]: unknown } {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

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
