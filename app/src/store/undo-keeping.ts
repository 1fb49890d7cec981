/**
 * Keeps one's own undo list beside the document, so that a reload does not lose it. Every entry is a few
 * rows of its own and written once; the small head row says which entries stand in which list.
 */
import { createStore, delMany, getMany, keys, set, setMany, get, type UseStore } from "idb-keyval";
import { NOTHING_DONE, type Entry, type UndoState } from "./undo.ts";
import { breath, runs, SLICE } from "./slices.ts";

interface Kept {
  readonly number: number;
  readonly parts: number;
}

interface Head {
  readonly done: readonly Kept[];
  readonly undone: readonly Kept[];
  readonly next: number;
}

export interface UndoKeeping {
  readonly state: UndoState;
  /** Writes what is new in the list; calls are written in order. */
  keep(state: UndoState): void;
  settled(): Promise<void>;
}

/** Opens the list kept for this tab under the show's name. */
export async function openUndo(name: string, tab: string): Promise<UndoKeeping> {
  const store = createStore(`${name}-undo`, "entries");
  const head = (await get<Head>(`${tab}/head`, store)) ?? { done: [], undone: [], next: 0 };
  const known = new Map<Entry, Kept>();
  const state = await readState(store, { tab, head, known });
  await sweep(store, tab, head);
  let next = head.next;
  let meanings = state.meanings;
  let last = Promise.resolve();
  const write = async (now: UndoState): Promise<void> => {
    for (const entry of [...now.done, ...now.undone]) {
      if (!known.has(entry)) known.set(entry, await writeEntry(store, { tab, number: next++, entry }));
    }
    const listed = (entries: readonly Entry[]): Kept[] => entries.flatMap((entry) => known.get(entry) ?? []);
    if (now.meanings !== meanings) await set(`${tab}/meanings`, now.meanings, store);
    meanings = now.meanings;
    await set(
      `${tab}/head`,
      { done: listed(now.done), undone: listed(now.undone), next } satisfies Head,
      store,
    );
    await forget(store, { tab, known, now });
  };
  return {
    state,
    keep: (now) => {
      // A list that cannot be kept costs only the undo after a reload; the document's keeper tells the person.
      last = last.then(() => write(now)).catch(() => undefined);
    },
    settled: () => last,
  };
}

interface Where {
  readonly tab: string;
  readonly head: Head;
  readonly known: Map<Entry, Kept>;
}

async function readState(store: UseStore, { tab, head, known }: Where): Promise<UndoState> {
  const list = async (kept: readonly Kept[]): Promise<Entry[]> => {
    const read: Entry[] = [];
    for (const row of kept) {
      const entry = joined(await getMany<Entry | undefined>(partKeys(tab, row), store));
      if (entry === undefined) continue;
      known.set(entry, row);
      read.push(entry);
    }
    return read;
  };
  const meanings = (await get<UndoState["meanings"]>(`${tab}/meanings`, store)) ?? NOTHING_DONE.meanings;
  return { done: await list(head.done), undone: await list(head.undone), meanings };
}

/** The entry its parts make, undefined where one is lost: then nothing of it may be undone. */
function joined(parts: readonly (Entry | undefined)[]): Entry | undefined {
  const whole = parts.filter((part) => part !== undefined);
  const [first] = whole;
  if (first === undefined || whole.length < parts.length) return undefined;
  return {
    label: first.label,
    edits: whole.flatMap((part) => part.edits),
    found: whole.flatMap((part) => part.found),
    left: whole.flatMap((part) => part.left),
  };
}

async function writeEntry(
  store: UseStore,
  { tab, number, entry }: { readonly tab: string; readonly number: number; readonly entry: Entry },
): Promise<Kept> {
  const pieces = runs(entry.edits, SLICE);
  const kept = { number, parts: pieces.length };
  const at = partKeys(tab, kept);
  for (const [i, edits] of pieces.entries()) {
    const [from, to] = [i * SLICE, (i + 1) * SLICE];
    const part = {
      label: entry.label,
      edits,
      found: entry.found.slice(from, to),
      left: entry.left.slice(from, to),
    };
    await setMany([[at[i] ?? "", part]], store);
    if (pieces.length > 1) await breath();
  }
  return kept;
}

/** Lets go of entries that are in neither list any more. */
async function forget(
  store: UseStore,
  { tab, known, now }: { readonly tab: string; readonly known: Map<Entry, Kept>; readonly now: UndoState },
): Promise<void> {
  const wanted = new Set([...now.done, ...now.undone]);
  const gone = [...known].filter(([entry]) => !wanted.has(entry));
  if (gone.length === 0) return;
  for (const [entry] of gone) known.delete(entry);
  await delMany(
    gone.flatMap(([, kept]) => partKeys(tab, kept)),
    store,
  );
}

/** Removes parts that no head speaks of: a tab closed between two writes. */
async function sweep(store: UseStore, tab: string, head: Head): Promise<void> {
  const wanted = new Set([...head.done, ...head.undone].flatMap((kept) => partKeys(tab, kept)));
  const all = await keys<string>(store);
  const stray = all.filter((key) => key.startsWith(`${tab}/part/`) && !wanted.has(key));
  if (stray.length > 0) await delMany(stray, store);
}

function partKeys(tab: string, { number, parts }: Kept): string[] {
  return Array.from({ length: parts }, (_, i) => `${tab}/part/${number}/${i}`);
}
