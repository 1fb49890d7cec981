/**
 * Keeps a live document on this device: every update is one row of a browser store, written in the order it
 * happened and confirmed before the screen says "kept". Opening reads the rows and takes them up in slices,
 * so that a large show never holds the screen. Many small rows are now and then joined into larger ones, but
 * never into one: the slices must stay small. Two tabs may write and join at once; a row taken up twice
 * changes nothing, and a joined row is written before those it replaces go.
 */
import { createStore, delMany, entries, setMany, type UseStore } from "idb-keyval";
import * as Y from "yjs";
import { LIVE_AUDIENCES, type LiveAudience, type Replica } from "./replica.ts";
import { breath } from "./slices.ts";

/** Rows smaller than this are joined with their neighbours. Bytes. */
const SMALL = 16_384;
/** A joined row is no larger than this. Bytes. */
const JOINED = 65_536;
/** Joining waits until there are this many rows. */
const MANY = 300;

type Row = readonly [key: string, update: Uint8Array<ArrayBuffer>];

/** "keeping" while something waits to be written, "kept" when all is, or why the browser refused. */
export type KeptState = "keeping" | "kept" | Error;

export interface Keeping {
  /** When the newest row that was found had been written; undefined where nothing was kept yet. */
  readonly since: Date | undefined;
  /** Resolves when everything said so far is written; rejects when the browser refused. */
  settled(): Promise<void>;
  close(): void;
}

/** Reads what is kept under `name` into the replica, then keeps every update from then on. */
export async function keep(
  replica: Replica,
  name: string,
  onState: (state: KeptState) => void,
): Promise<Keeping> {
  const stores = new Map(
    LIVE_AUDIENCES.map((audience) => [audience, createStore(`${name}-${audience}`, "updates")]),
  );
  let newest = "";
  for (const [audience, store] of stores) {
    const rows = await inOrder(store);
    await takeUp(replica, audience, rows);
    if (rows.length > MANY) await join(store, rows);
    newest = [newest, rows.at(-1)?.[0] ?? ""].toSorted().at(-1) ?? "";
  }
  const writer = writerFor(stores, onState);
  const stop = replica.onUpdate((audience, update) => writer.write(audience, update));
  const since = newest === "" ? undefined : new Date(Number(newest.slice(0, 14)));
  return { since, settled: writer.settled, close: stop };
}

async function takeUp(replica: Replica, audience: LiveAudience, rows: readonly Row[]): Promise<void> {
  let since = performance.now();
  for (const [, update] of rows) {
    replica.receive(audience, update);
    if (performance.now() - since < 30) continue;
    await breath();
    since = performance.now();
  }
}

async function inOrder(store: UseStore): Promise<readonly Row[]> {
  const rows = await entries<string, Uint8Array<ArrayBuffer>>(store);
  return rows.toSorted(([a], [b]) => (a < b ? -1 : 1));
}

/** Joins runs of small rows. The first key of a run keeps its place in the order. */
async function join(store: UseStore, rows: readonly Row[]): Promise<void> {
  for (const run of smallRuns(rows)) {
    const [first] = run;
    if (first === undefined || run.length < 2) continue;
    await setMany([[`${first[0]}+`, Y.mergeUpdates(run.map(([, update]) => update))]], store);
    await delMany(
      run.map(([key]) => key),
      store,
    );
    await breath();
  }
}

function smallRuns(rows: readonly Row[]): readonly (readonly Row[])[] {
  const found: Row[][] = [];
  let run: Row[] = [];
  let bytes = 0;
  for (const row of rows.filter(([, update]) => update.length < SMALL)) {
    if (bytes + row[1].length > JOINED) {
      found.push(run);
      run = [];
      bytes = 0;
    }
    run.push(row);
    bytes += row[1].length;
  }
  return [...found, run];
}

interface Writer {
  readonly write: (audience: LiveAudience, update: Uint8Array<ArrayBuffer>) => void;
  readonly settled: () => Promise<void>;
}

function writerFor(stores: ReadonlyMap<LiveAudience, UseStore>, onState: (state: KeptState) => void): Writer {
  let waiting: { readonly audience: LiveAudience; readonly row: Row }[] = [];
  let writing: Promise<void> | undefined;
  let count = 0;
  const drain = async (): Promise<void> => {
    onState("keeping");
    while (waiting.length > 0) {
      const batch = waiting;
      waiting = [];
      try {
        await Promise.all([...stores].map(([audience, store]) => setMany(rowsOf(batch, audience), store)));
      } catch (reason) {
        // Nothing said is let go: the rows wait, and the next word tries them all again.
        waiting = [...batch, ...waiting];
        writing = undefined;
        onState(reason instanceof Error ? reason : new Error(String(reason)));
        throw reason;
      }
    }
    writing = undefined;
    onState("kept");
  };
  return {
    write(audience, update) {
      waiting.push({ audience, row: [rowKey(count++), update] });
      if (writing !== undefined) return;
      writing = Promise.resolve().then(drain);
      // Whoever asks `settled` hears of a refusal; nobody asking is no bug.
      writing.catch(() => undefined);
    },
    settled: () => writing ?? Promise.resolve(),
  };
}

function rowsOf(
  batch: readonly { readonly audience: LiveAudience; readonly row: Row }[],
  audience: LiveAudience,
): [string, Uint8Array<ArrayBuffer>][] {
  return batch.filter((one) => one.audience === audience).map(({ row: [key, update] }) => [key, update]);
}

/** Later keys sort later, and no two tabs make the same one. */
function rowKey(count: number): string {
  return `${String(Date.now()).padStart(14, "0")}-${String(count).padStart(8, "0")}-${crypto.getRandomValues(new Uint32Array(1))[0]}`;
}
