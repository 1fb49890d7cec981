/**
 * The whole pipeline in reading order: what was said becomes the true rooms, the pieces standing in them and
 * everything wrong, risky or unknown about it. Pure; memoised by the identity of the tables a step reads, so
 * that a moved piece does not measure the room again.
 */
import { createArrange } from "./arrange/derive.ts";
import type { Arrangement } from "./arrange/model.ts";
import { arrangeSnags } from "./arrange/rules.ts";
import type { ShowDocument } from "./document/tables.ts";
import { measureRooms } from "./measure/derive.ts";
import type { TrueRoom } from "./measure/model.ts";
import { measureSnags } from "./measure/rules.ts";
import { fontSnags } from "./sheet/type.ts";
import type { Level, Snag } from "./snags/snag.ts";

/** Everything derived from one document. */
export interface Derived {
  readonly rooms: readonly TrueRoom[];
  readonly arrangements: readonly Arrangement[];
  /** Worst first. */
  readonly snags: readonly Snag[];
}

const GRAVITY: { readonly [L in Level]: number } = { stop: 0, mind: 1, know: 2 };

/** A derivation with a memory of the last document: keep one for each live document. */
export function createDerive(): (document: ShowDocument) => Derived {
  const rooms = remember(measureRooms, (document) => [
    document.rooms,
    document.corners,
    document.walls,
    document.readings,
    document.openings,
    document.fixtures,
    document.trims,
    document.shows,
  ]);
  const measured = remember(
    (document: ShowDocument) => measureSnags(rooms(document), document),
    (document) => [rooms(document), document.shows],
  );
  const lettered = remember(fontSnags, (document) => [
    document.shows,
    document.rooms,
    document.corners,
    document.openings,
    document.fixtures,
    document.pieces,
    document.coverings,
    document.neighbours,
    document.notes,
  ]);
  const arrange = createArrange();
  return (document) => {
    const arrangements = arrange(document, rooms(document));
    const snags = [...measured(document), ...arrangeSnags(arrangements, document), ...lettered(document)];
    return { rooms: rooms(document), arrangements, snags: worstFirst(snags) };
  };
}

/** Everything derived from a document, with no memory kept. */
export function derive(document: ShowDocument): Derived {
  return createDerive()(document);
}

/** Stops before minds before things to know; in the order they were found within a level. */
export function worstFirst(snags: readonly Snag[]): readonly Snag[] {
  return snags.toSorted((a, b) => GRAVITY[a.level] - GRAVITY[b.level]);
}

/** The function again, answering from memory while the parts it reads are the very same. */
function remember<Result>(
  compute: (document: ShowDocument) => Result,
  parts: (document: ShowDocument) => readonly unknown[],
): (document: ShowDocument) => Result {
  let last: { readonly parts: readonly unknown[]; readonly result: Result } | undefined;
  return (document) => {
    const now = parts(document);
    if (!last || last.parts.some((part, index) => part !== now[index]))
      last = { parts: now, result: compute(document) };
    return last.result;
  };
}
