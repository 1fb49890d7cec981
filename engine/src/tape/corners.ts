/** Corners and walls as a line names them: `A`, `A to B`, `A-B`, `"North east" to A`. */
import type { Corner, Room } from "../document/tables.ts";
import type { Cursor } from "./cursor.ts";
import type { Draft } from "./draft.ts";

/** The room bare lines belong to; fails where none was named yet. */
export function roomOf(cursor: Cursor, draft: Draft): Room {
  return draft.room ?? cursor.fail("Which room is this in? Name it first, like: room Net Loft");
}

/** The corner named here; fails with the names there are. */
export function cornerAt(cursor: Cursor, draft: Draft): Corner {
  const room = roomOf(cursor, draft);
  const corners = draft.corners(room.id);
  const start = cursor.skip();
  if (corners.length === 0) cursor.fail("Name the corners of the room first, like: corners A B C D");
  const quoted = cursor.quoted();
  const found = quoted === undefined ? plainCorner(cursor, corners) : named(corners, quoted);
  if (found !== undefined) return found;
  const names = corners
    .slice(0, 12)
    .map((corner) => corner.name)
    .join(", ");
  const said = quoted ?? /^[\p{L}\p{N}]*/u.exec(cursor.rest())?.[0] ?? "";
  return cursor.fail(
    said === ""
      ? `A corner should stand here: ${names}.`
      : `There is no corner "${said}" in ${room.name}; its corners are ${names}.`,
    start,
  );
}

function named(corners: readonly Corner[], name: string): Corner | undefined {
  return (
    corners.find((corner) => corner.name === name) ??
    corners.find((corner) => corner.name.toLowerCase() === name.toLowerCase())
  );
}

/** The longest corner name that stands here as a whole word; capitals only decide where both are there. */
function plainCorner(cursor: Cursor, corners: readonly Corner[]): Corner | undefined {
  const at = cursor.skip();
  const whole = (corner: Corner): boolean =>
    !/^[\p{L}\p{N}]/u.test(cursor.raw.slice(at + corner.name.length, at + corner.name.length + 2));
  const written = (corner: Corner): string => cursor.raw.slice(at, at + corner.name.length);
  const byLength = corners.toSorted((a, b) => b.name.length - a.name.length);
  const found =
    byLength.find((corner) => written(corner) === corner.name && whole(corner)) ??
    byLength.find((corner) => written(corner).toLowerCase() === corner.name.toLowerCase() && whole(corner));
  if (found !== undefined) cursor.at = at + found.name.length;
  return found;
}

/** Takes what joins two corners; false where nothing does. */
function joined(cursor: Cursor): boolean {
  return cursor.take(/-+>?|\u2192|to(?![\p{L}\p{N}])/iuy) !== undefined;
}

/** Two different corners, in the order they were said. */
export function endsAt(cursor: Cursor, draft: Draft): readonly [Corner, Corner] {
  const from = cornerAt(cursor, draft);
  if (!joined(cursor))
    cursor.fail(`From ${from.name} to which corner? Write it like ${from.name} to B, or ${from.name}-B.`);
  const start = cursor.skip();
  const to = cornerAt(cursor, draft);
  if (to.id === from.id) cursor.fail(`${from.name} to ${to.name} is the same corner twice.`, start);
  return [from, to];
}

/** A wall by its corners, either way said, given back in room order. */
export function wallAt(cursor: Cursor, draft: Draft): readonly [Corner, Corner] {
  const start = cursor.skip();
  const [first, second] = endsAt(cursor, draft);
  const corners = draft.corners(first.room);
  const follows = (a: Corner, b: Corner): boolean => corners[(corners.indexOf(a) + 1) % corners.length] === b;
  if (follows(first, second)) return [first, second];
  if (follows(second, first)) return [second, first];
  return cursor.fail(`No wall runs from ${first.name} to ${second.name}; they are not neighbours.`, start);
}

/** One of the wall's two corners. */
export function endAt(cursor: Cursor, draft: Draft, wall: readonly [Corner, Corner]): Corner {
  const start = cursor.skip();
  const corner = cornerAt(cursor, draft);
  if (!wall.includes(corner)) {
    cursor.fail(`${corner.name} is no end of the wall ${wall[0].name}-${wall[1].name}.`, start);
  }
  return corner;
}
