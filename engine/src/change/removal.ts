/**
 * Taking a record away with everything that cannot be without it, and nothing else. Which record needs which is
 * one table: a piece takes its solids, lengths and copies with it; a copy that stood on another goes back to the
 * tray; trim whose sticks are gone stays and has no stock.
 */
import type { ShowDocument, TableName } from "../document/tables.ts";
import type { FieldEdit } from "./change.ts";
import { put, remove } from "./change.ts";

/** What becomes of a record whose named record goes: it goes too, or it lives on without the name. */
type Fate = "goes" | "stays";

type Needs = { readonly [T in TableName]?: { readonly [field: string]: readonly [TableName, Fate] } };

const IN_A_ROOM = { room: ["rooms", "goes"] } as const;
const A_WALL = { ...IN_A_ROOM, from: ["corners", "goes"], to: ["corners", "goes"] } as const;
const ON_A_WALL = { ...A_WALL, datum: ["corners", "goes"] } as const;

/** Every field that names another record. */
export const NEEDS: Needs = {
  corners: IN_A_ROOM,
  walls: A_WALL,
  readings: A_WALL,
  openings: { ...ON_A_WALL, hinge: ["corners", "stays"] },
  fixtures: ON_A_WALL,
  solids: { piece: ["pieces", "goes"] },
  parts: { piece: ["pieces", "goes"], stock: ["stocks", "goes"] },
  placements: { ...IN_A_ROOM, piece: ["pieces", "goes"], on: ["placements", "goes"] },
  mounts: { ...ON_A_WALL, piece: ["pieces", "goes"] },
  coverings: { ...IN_A_ROOM, stock: ["stocks", "stays"] },
  wallCoverings: { ...A_WALL, stock: ["stocks", "goes"], batten: ["stocks", "stays"] },
  trims: { ...IN_A_ROOM, stock: ["stocks", "stays"] },
  neighbours: { ...IN_A_ROOM, seenFrom: ["openings", "stays"] },
  chores: IN_A_ROOM,
};

/** The edits that take a record away, and what goes with it. None where it is not there. */
export function removal(document: ShowDocument, table: TableName, id: string): readonly FieldEdit[] {
  if (document[table][id] === undefined) return [];
  const { gone, bared } = reach(document, { table, id });
  return [
    ...[...bared].flatMap(([key, fields]) => {
      const { table: in_, id: of } = JSON.parse(key) as Named;
      return gone.has(key) ? [] : put(document, in_, without(document[in_][of], fields) as never);
    }),
    ...[...gone].flatMap((key) => {
      const named = JSON.parse(key) as Named;
      return remove(document, named.table, named.id);
    }),
  ];
}

interface Named {
  readonly table: TableName;
  readonly id: string;
}

interface Reach {
  readonly gone: ReadonlySet<string>;
  /** Records that stay without some of their fields. */
  readonly bared: ReadonlyMap<string, ReadonlySet<string>>;
}

/** Everything that goes with a record, following each need until nothing new is found; what was found last goes first. */
function reach(document: ShowDocument, first: Named): Reach {
  const byNeed = needing(document);
  const gone = new Set([keyOf(first)]);
  const bared = new Map<string, Set<string>>();
  // A set is walked on into what is put in on the way, however long a chain of needs is.
  for (const key of gone) {
    for (const { by, field, fate } of byNeed.get(key) ?? []) {
      if (fate === "goes") gone.add(keyOf(by));
      else bared.set(keyOf(by), (bared.get(keyOf(by)) ?? new Set()).add(field));
    }
  }
  return { gone: new Set([...gone].toReversed()), bared };
}

interface Need {
  readonly by: Named;
  readonly field: string;
  readonly fate: Fate;
}

/** Who names a record, by the record's key. */
function needing(document: ShowDocument): ReadonlyMap<string, readonly Need[]> {
  const found = new Map<string, Need[]>();
  for (const [table, fields] of Object.entries(NEEDS) as [TableName, NonNullable<Needs[TableName]>][]) {
    for (const record of Object.values(document[table])) {
      for (const [field, [to, fate]] of Object.entries(fields)) {
        const id = (record as { readonly [field: string]: unknown })[field];
        if (typeof id !== "string") continue;
        const key = keyOf({ table: to, id });
        const list = found.get(key) ?? [];
        found.set(key, list);
        list.push({ by: { table, id: record.id }, field, fate });
      }
    }
  }
  return found;
}

function keyOf({ table, id }: Named): string {
  return JSON.stringify({ table, id });
}

function without(record: unknown, fields: ReadonlySet<string>): object {
  return Object.fromEntries(Object.entries(record as object).filter(([field]) => !fields.has(field)));
}
