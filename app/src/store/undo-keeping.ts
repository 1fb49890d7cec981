/**
 * Keeps one's own undo list beside the document, so that a reload does not lose it. Every entry and every
 * layer of meanings is written once, in a few rows of its own; the small head row says which stand where.
 */
import { createStore, delMany, get, getMany, keys, set, type UseStore } from "idb-keyval";
import { breath, runs, SLICE } from "./slices.ts";
import type { Entry, Layer, Meaning, UndoState } from "./undo.ts";

/** Where a thing stands: its number, and in how many rows. */
interface Kept {
  readonly number: number;
  readonly parts: number;
}

interface Head {
  readonly done: readonly Kept[];
  readonly undone: readonly Kept[];
  readonly meanings: readonly Kept[];
  readonly next: number;
}

type Thing = Entry | Layer;
type Join<Part, T> = (parts: readonly Part[]) => T;

export interface UndoKeeping {
  /** The list as it was found. */
  readonly state: UndoState;
  /** Writes what is new in the list; calls are written in order. */
  keep(state: UndoState): void;
  settled(): Promise<void>;
}

/** Opens the list kept for this tab under the show's name. */
export async function openUndo(name: string, tab: string): Promise<UndoKeeping> {
  const shelf = new Shelf(createStore(`${name}-undo`, "entries"), tab);
  const state = await shelf.read();
  let last = Promise.resolve();
  return {
    state,
    keep: (now) => {
      // A list that cannot be kept costs only the undo after a reload; the document's keeper tells the person.
      last = last.then(() => shelf.write(now)).catch(() => undefined);
    },
    settled: () => last,
  };
}

class Shelf {
  readonly #store: UseStore;
  readonly #tab: string;
  readonly #known = new Map<Thing, Kept>();
  #next = 0;

  constructor(store: UseStore, tab: string) {
    this.#store = store;
    this.#tab = tab;
  }

  async read(): Promise<UndoState> {
    const found = await get<Head>(`${this.#tab}/head`, this.#store);
    const head = found ?? { done: [], undone: [], meanings: [], next: 0 };
    this.#next = head.next;
    const state = {
      done: await this.#list(head.done, joinedEntry),
      undone: await this.#list(head.undone, joinedEntry),
      meanings: await this.#list(head.meanings, joinedLayer),
    };
    await this.#sweep();
    return state;
  }

  async write({ done, undone, meanings }: UndoState): Promise<void> {
    const wanted = new Set<Thing>([...done, ...undone, ...meanings]);
    for (const thing of wanted)
      if (!this.#known.has(thing)) this.#known.set(thing, await this.#writeThing(thing));
    const where = (things: readonly Thing[]): Kept[] =>
      things.flatMap((thing) => this.#known.get(thing) ?? []);
    const head: Head = {
      done: where(done),
      undone: where(undone),
      meanings: where(meanings),
      next: this.#next,
    };
    await set(`${this.#tab}/head`, head, this.#store);
    const gone = [...this.#known].filter(([thing]) => !wanted.has(thing));
    for (const [thing] of gone) this.#known.delete(thing);
    if (gone.length === 0) return;
    await delMany(
      gone.flatMap(([, kept]) => this.#rows(kept)),
      this.#store,
    );
  }

  async #writeThing(thing: Thing): Promise<Kept> {
    const parts = "edits" in thing ? entryParts(thing) : runs([...thing], SLICE);
    const kept = { number: this.#next++, parts: parts.length };
    const rows = this.#rows(kept);
    for (const [i, part] of parts.entries()) {
      await set(rows[i] ?? "", part, this.#store);
      if (parts.length > 1) await breath();
    }
    return kept;
  }

  async #list<Part, T extends Thing>(kept: readonly Kept[], join: Join<Part, T>): Promise<readonly T[]> {
    const read: T[] = [];
    for (const place of kept) {
      const parts = (await getMany<Part | undefined>(this.#rows(place), this.#store)).filter(
        (part) => part !== undefined,
      );
      // Of an entry of which a part is lost nothing may be undone.
      if (parts.length < place.parts) continue;
      const thing = join(parts);
      this.#known.set(thing, place);
      read.push(thing);
    }
    return read;
  }

  /** Removes rows that the head does not speak of: a tab that closed between two writes. */
  async #sweep(): Promise<void> {
    const wanted = new Set([...this.#known.values()].flatMap((kept) => this.#rows(kept)));
    const all = await keys<string>(this.#store);
    const stray = all.filter((key) => key.startsWith(`${this.#tab}/part/`) && !wanted.has(key));
    if (stray.length > 0) await delMany(stray, this.#store);
  }

  #rows({ number, parts }: Kept): string[] {
    return Array.from({ length: parts }, (_, i) => `${this.#tab}/part/${number}/${i}`);
  }
}

function entryParts({ label, edits, found, left }: Entry): readonly Entry[] {
  return runs(edits, SLICE).map((part, i) => {
    const [from, to] = [i * SLICE, (i + 1) * SLICE];
    return { label, edits: part, found: found.slice(from, to), left: left.slice(from, to) };
  });
}

function joinedEntry(parts: readonly Entry[]): Entry {
  return {
    label: parts[0]?.label ?? "",
    edits: parts.flatMap((part) => part.edits),
    found: parts.flatMap((part) => part.found),
    left: parts.flatMap((part) => part.left),
  };
}

function joinedLayer(parts: readonly (readonly (readonly [string, Meaning])[])[]): Layer {
  return new Map(parts.flat());
}
