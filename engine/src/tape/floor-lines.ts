/** Lines about what lies and stands in the room besides pieces: coverings, trim and a neighbour's work. */
import type { Covering, Neighbour, Trim } from "../document/tables.ts";
import { nameBeforeSize, readClauses, seesSizes, sizesAt, sizesOrNothingAt } from "./clauses.ts";
import type { Clauses } from "./clauses.ts";
import { roomOf } from "./corners.ts";
import type { Cursor } from "./cursor.ts";
import { keyOf, trimKey } from "./draft.ts";
import type { Draft } from "./draft.ts";
import { slug } from "./names.ts";
import { placeAt } from "./room-lines.ts";
import { stockAt } from "./stock-lines.ts";

type Place = { x: number; y: number };

type Said<T> = { -readonly [K in keyof T]?: T[K] };

/**
 * `covering NAME 18' x 9' 6" x 3/16" thick, border 6", at 12' along, 9' in, turn 0, walkable`; the place is its
 * middle. `from Board` names its sheets, `panels to 60" x 40"` the largest panel.
 */
export function readCovering(cursor: Cursor, draft: Draft): void {
  const room = roomOf(cursor, draft);
  const start = cursor.skip();
  const name = nameBeforeSize(cursor);
  const said: Said<Covering> & { place?: Place } = {};
  readClauses(cursor, coveringClauses(cursor, draft, said));
  const { place, width, depth, thickness, turn = 0, border = 0, walkable = false, ...cut } = said;
  if (width === undefined || depth === undefined)
    cursor.fail("How big is it? Say it like: 18' x 9' 6\" x 3/16\" thick");
  if (thickness === undefined) cursor.fail('How thick is it? Say it like: thick 3/16"');
  if (place === undefined) cursor.fail("Where is its middle? Say it like: at 12' along, 9' in");
  const taken = (): never => cursor.fail(`There is a covering ${name} already.`, start);
  const known = draft.known("coverings", keyOf(room.id, name), taken);
  const id = known?.id ?? draft.freshId("coverings", `${room.id}.covering.${slug(name, 32, "covering")}`);
  const order = known?.order ?? draft.nextOrder("coverings", room.id);
  const fields = { width, depth, thickness, border, walkable, ...cut };
  const called = draft.called("coverings", known, name);
  draft.put("coverings", { id, room: room.id, name: called, order, ...place, turn, ...fields });
}

function coveringClauses(cursor: Cursor, draft: Draft, said: Said<Covering> & { place?: Place }): Clauses {
  return {
    before: {
      at: () => {
        said.place = placeAt(cursor, draft);
      },
      turn: () => {
        said.turn = cursor.angle();
      },
      border: () => {
        said.border = cursor.length({ zero: true });
      },
      thick: () => {
        said.thickness ??= cursor.length({ zero: true });
      },
      walkable: () => {
        said.walkable = true;
      },
      from: () => {
        said.stock = stockAt(cursor, draft, "sheet").id;
      },
      "panels to": () => panelsTo(cursor, said),
    },
    after: {
      thick: (mm) => {
        said.thickness = mm;
      },
      border: (mm) => {
        said.border = mm;
      },
    },
    sizesHere: () => {
      const [width, depth, thickness] = sizesOrNothingAt(cursor);
      if (width === undefined || depth === undefined || depth === 0) {
        cursor.fail("A length of nothing cannot be measured. Is a number missing?");
      }
      Object.assign(said, { width, depth });
      if (thickness === undefined) return;
      said.thickness = thickness;
      cursor.takeWord("thick");
    },
  };
}

/** `panels to 60" x 40"`, or one of the two alone: `60" wide`, `40" deep`. */
function panelsTo(cursor: Cursor, said: Said<Covering>): void {
  if (seesSizes(cursor)) {
    [said.panelWidth, said.panelDepth] = sizesAt(cursor) as [number, number];
    return;
  }
  const mm = cursor.length();
  if (cursor.takeWord("wide")) said.panelWidth = mm;
  else if (cursor.takeWord("deep")) said.panelDepth = mm;
  else cursor.fail('Panels to how much by how much? Say it like: panels to 60" x 40"');
}

/**
 * `trim base 7 1/4" x 3/4"`, `trim rail 2 1/2" x 3/4" up 3' 6"`, `trim crown 4 5/8" x 3", spring 38`: height by how
 * far it stands out. `from Pine base` names the sticks it is cut from.
 */
export function readTrim(cursor: Cursor, draft: Draft): void {
  const room = roomOf(cursor, draft);
  const kind = cursor.take(/base|rail|crown/iuy)?.[0].toLowerCase() as Trim["kind"] | undefined;
  if (kind === undefined) cursor.fail("Trim is base, rail or crown.");
  cursor.separators();
  if (!seesSizes(cursor)) {
    cursor.length();
    cursor.fail('How high, and how far does it stand out? Say it like: 7 1/4" x 3/4"');
  }
  const [height = 0, depth = 0] = sizesOrNothingAt(cursor);
  const said: Said<Trim> = {};
  readClauses(cursor, {
    before: {
      up: () => {
        said.up = cursor.length({ zero: true });
      },
      spring: () => {
        said.spring = springAt(cursor, kind);
      },
      from: () => {
        said.stock = stockAt(cursor, draft, "stick").id;
      },
    },
  });
  const { up, ...cut } = said;
  if (kind === "rail" && up === undefined)
    cursor.fail("How high above the floor is its underside? Say it like: up 3' 6\"");
  const key = { room: room.id, kind, up: kind === "rail" ? (up ?? 0) : 0 };
  const taken = (): never => cursor.fail("There is such a trim already.", 0);
  const known = draft.known("trims", trimKey(key), taken);
  const id = known?.id ?? draft.freshId("trims", `${room.id}.trim.${kind}`);
  const order = known?.order ?? draft.nextOrder("trims", room.id);
  const raised = kind === "crown" ? 0 : (up ?? 0);
  draft.put("trims", { id, room: room.id, order, kind, height, depth, up: raised, ...cut });
}

function springAt(cursor: Cursor, kind: Trim["kind"]): number {
  const start = cursor.skip();
  if (kind !== "crown")
    cursor.fail("Only a crown springs from the wall; a base or rail stands flat on it.", start);
  const spring = cursor.angle();
  if (spring <= 0 || spring >= 90)
    cursor.fail("A spring angle lies between 0 and 90 degrees, like 38.", start);
  return spring;
}

/** `neighbour Bronze, 3' x 2' x 6', plinth 2' 6" high, at 4' along, 12' in, seen from Door 1`; `across` makes it round. */
export function readNeighbour(cursor: Cursor, draft: Draft): void {
  const room = roomOf(cursor, draft);
  const start = cursor.skip();
  const name = nameBeforeSize(cursor);
  const said: { place?: Place; turn?: number; low?: number; seenFrom?: string } = {};
  let size: Pick<Neighbour, "width" | "depth" | "round" | "height"> | undefined;
  readClauses(cursor, {
    before: {
      at: () => {
        said.place = placeAt(cursor, draft);
      },
      turn: () => {
        said.turn = cursor.angle();
      },
      plinth: () => {
        said.low = cursor.length({ zero: true });
        cursor.takeWord("high");
      },
      "seen from": () => {
        said.seenFrom = openingAt(cursor, draft);
      },
    },
    after: {
      across: (mm) => {
        if (cursor.take(/(?:x|×|by)(?!\p{L})/iuy) === undefined)
          cursor.fail("How high is it? Say it like: 2' across x 5'");
        size = { width: mm, depth: mm, round: true, height: cursor.length() };
      },
    },
    sizes: (sizes) => {
      const [width, depth, height] = sizes;
      if (width === undefined || depth === undefined || height === undefined) {
        cursor.fail("It has three sizes: how wide by how deep by how high, plinth and all.");
      }
      size = { width, depth, round: false, height };
    },
  });
  if (size === undefined) cursor.fail("How big is it, plinth and all? Say it like: 3' x 2' x 6'");
  const { place, turn = 0, low = 0, seenFrom } = said;
  if (place === undefined) cursor.fail("Where is its middle? Say it like: at 4' along, 12' in");
  if (low >= size.height)
    cursor.fail("The plinth is as high as the whole work. The height is from the floor up.");
  const taken = (): never => cursor.fail(`There is a neighbour ${name} already.`, start);
  const known = draft.known("neighbours", keyOf(room.id, name), taken);
  const id = known?.id ?? draft.freshId("neighbours", `${room.id}.neighbour.${slug(name, 32, "neighbour")}`);
  const order = known?.order ?? draft.nextOrder("neighbours", room.id);
  draft.put("neighbours", {
    id,
    room: room.id,
    name: draft.called("neighbours", known, name),
    order,
    ...place,
    turn,
    ...size,
    low,
    ...(seenFrom === undefined ? {} : { seenFrom }),
  });
}

/** A door or window of the room by its name. */
function openingAt(cursor: Cursor, draft: Draft): string {
  const room = roomOf(cursor, draft);
  const start = cursor.skip();
  const comma = cursor.rest().search(/[,;]/);
  const name = cursor.nameUntil(comma < 0 ? cursor.raw.length : start + comma);
  const found =
    draft.find("openings", keyOf(room.id, "any", name)) ??
    draft.all("openings").find((opening) => opening.name === name);
  return (
    found?.id ?? cursor.fail(`There is no door or window "${name}" yet. Name it in a line above.`, start)
  );
}
