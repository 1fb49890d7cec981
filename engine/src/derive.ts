/**
 * The whole pipeline in reading order: what was said becomes the true rooms, the pieces standing in them and
 * everything wrong, risky or unknown about it. Pure; memoised by the identity of the tables a step reads, so
 * that a moved piece does not measure the room again.
 */
import { createArrange } from "./arrange/derive.ts";
import type { Arrangement } from "./arrange/model.ts";
import { arrangeSnags } from "./arrange/rules.ts";
import type { ShowDocument } from "./document/tables.ts";
import { createInstall } from "./install/derive.ts";
import type { Installing } from "./install/model.ts";
import { installSnags } from "./install/rules.ts";
import { createMake } from "./make/derive.ts";
import type { Making } from "./make/model.ts";
import { makeSnags } from "./make/rules.ts";
import { measureRooms } from "./measure/derive.ts";
import type { TrueRoom } from "./measure/model.ts";
import { measureSnags } from "./measure/rules.ts";
import type { CardModel } from "./model/model.ts";
import { createModels } from "./model/parts.ts";
import { modelSnags } from "./model/rules.ts";
import { fontSnags } from "./sheet/type.ts";
import type { Level, Snag } from "./snags/snag.ts";

/** The true rooms, what stands in them, and what is wrong with that. */
export interface Arranged {
  readonly rooms: readonly TrueRoom[];
  readonly arrangements: readonly Arrangement[];
  /** Worst first. */
  readonly snags: readonly Snag[];
}

/** Everything derived from one document. */
export interface Derived extends Arranged {
  readonly making: Making;
  /** One for each room that has a shape. */
  readonly models: readonly CardModel[];
  readonly installing: Installing;
}

/** A derivation with a memory of the last document. */
export interface Derivation {
  (document: ShowDocument): Derived;
  /** As far as Arrange and no further: what a piece under the finger needs. */
  readonly arranged: (document: ShowDocument) => Arranged;
}

const GRAVITY: { readonly [L in Level]: number } = { stop: 0, mind: 1, know: 2 };

/** A derivation with a memory: keep one for each live document. `progress` is told of plans that take long, each from 0 to 1. */
export function createDerive(progress?: (share: number) => void): Derivation {
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
    document.wallCoverings,
    document.stocks,
    document.chores,
    document.questions,
    document.neighbours,
    document.notes,
  ]);
  const arrange = createArrange();
  const make = createMake(progress);
  const model = createModels();
  const install = createInstall(progress);
  const arrangedOf = (document: ShowDocument): Arranged => {
    const arrangements = arrange(document, rooms(document));
    const snags = [...measured(document), ...arrangeSnags(arrangements, document), ...lettered(document)];
    return { rooms: rooms(document), arrangements, snags };
  };
  const whole = (document: ShowDocument): Derived => {
    const arranged = arrangedOf(document);
    const making = make(document, arranged.rooms);
    const models = model(document, arranged.rooms, making);
    const installing = install(document, arranged.arrangements, making);
    const snags = [
      ...arranged.snags,
      ...makeSnags(making, arranged.rooms, document),
      ...modelSnags(models, document),
      ...installSnags(installing, arranged.arrangements, document),
    ];
    return { ...arranged, making, models, installing, snags: worstFirst(snags) };
  };
  return Object.assign(whole, {
    arranged: (document: ShowDocument): Arranged => {
      const arranged = arrangedOf(document);
      return { ...arranged, snags: worstFirst(arranged.snags) };
    },
  });
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
