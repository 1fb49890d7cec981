/** Long work cut into slices with a breath between, so that the screen is never held. */
import { recordEdits, TABLE_NAMES, type FieldEdit, type ShowDocument } from "@cornerwise/engine";

/** Edits written in one go; at about 20 µs an edit, and with a slow phone in mind, this stays near 20 ms. */
export const SLICE = 1000;

/** Work that stops now and then to let others in; what it returns is its result. */
export type Work<T> = Generator<void, T>;

/** Lets the browser draw and take input before going on. Works in a tab that is out of sight, too. */
export function breath(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port2.addEventListener("message", () => {
      port1.close();
      resolve();
    });
    port2.start();
    port1.postMessage(undefined);
  });
}

/** Does all of the work at once. */
export function atOnce<T>(work: Work<T>): T {
  let step = work.next();
  while (step.done !== true) step = work.next();
  return step.value;
}

/** Does the work with a breath wherever it stops. */
export async function withBreaths<T>(work: Work<T>): Promise<T> {
  let step = work.next();
  while (step.done !== true) {
    await breath();
    step = work.next();
  }
  return step.value;
}

/** The list in runs of at most `size`. */
export function runs<T>(list: readonly T[], size: number): readonly (readonly T[])[] {
  return Array.from({ length: Math.ceil(list.length / size) }, (_, i) =>
    list.slice(i * size, (i + 1) * size),
  );
}

/** One edit a field, the last said, and the edits of a record side by side. */
export function* grouped(edits: readonly FieldEdit[]): Work<readonly FieldEdit[]> {
  const records = new Map<string, Map<string, FieldEdit>>();
  for (const run of runs(edits, SLICE)) {
    for (const edit of run) {
      const record = `${edit.table}\u0000${edit.id}`;
      const fields = records.get(record) ?? new Map<string, FieldEdit>();
      records.set(record, fields);
      fields.set(edit.field, edit);
    }
    yield;
  }
  const out: FieldEdit[] = [];
  for (const fields of records.values()) out.push(...fields.values());
  return out;
}

/** Where grouped edits can be cut into slices of about `SLICE` without cutting a record: [from, to) each. */
export function cuts(edits: readonly FieldEdit[]): readonly (readonly [number, number])[] {
  const out: [number, number][] = [];
  for (let from = 0, to = 0; from < edits.length; from = to) {
    to = Math.min(from + SLICE, edits.length);
    while (to < edits.length && edits[to]?.id === edits[to - 1]?.id) to++;
    out.push([from, to]);
  }
  return out;
}

/** The edits that turn one document into another, found a run of records at a time. */
export function* differences(before: ShowDocument, after: ShowDocument): Work<readonly FieldEdit[]> {
  const out: FieldEdit[] = [];
  for (const table of TABLE_NAMES) {
    const [old, now] = [before[table], after[table]];
    if (old === now) continue;
    for (const ids of runs([...new Set([...Object.keys(old), ...Object.keys(now)])], SLICE / 4)) {
      for (const id of ids) if (old[id] !== now[id]) out.push(...recordEdits(table, id, old[id], now[id]));
      if (ids.length === SLICE / 4) yield;
    }
  }
  return out;
}
