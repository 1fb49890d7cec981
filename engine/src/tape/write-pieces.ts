/** Lines of pieces as they are written: what they are made of, and where their copies are. */
import { listed } from "../document/tables.ts";
import type { Mount, Part, Piece, Placement, Solid } from "../document/tables.ts";
import { plainDecimal } from "../units/length.ts";
import { exactSpan } from "../units/times.ts";
import { turned } from "./writing.ts";
import type { Writing } from "./writing.ts";

const POUND = 0.45359237;

/** Every piece with its solids and lengths. */
export function pieceLines(writing: Writing): readonly string[] {
  const solids = byPiece(listed(writing.document.solids));
  const parts = byPiece(listed(writing.document.parts));
  return listed(writing.document.pieces).flatMap((piece) =>
    pieceBlock(writing, piece, { solids: solids.get(piece.id) ?? [], parts: parts.get(piece.id) ?? [] }),
  );
}

/** One piece with its solids and lengths. */
export function onePiece(writing: Writing, piece: Piece): readonly string[] {
  const own = (made: { readonly piece: string }): boolean => made.piece === piece.id;
  const { solids, parts } = writing.document;
  return pieceBlock(writing, piece, { solids: listed(solids).filter(own), parts: listed(parts).filter(own) });
}

function byPiece<R extends { readonly piece: string }>(
  records: readonly R[],
): ReadonlyMap<string, readonly R[]> {
  const lists = new Map<string, R[]>();
  for (const record of records) {
    const list = lists.get(record.piece) ?? [];
    lists.set(record.piece, list);
    list.push(record);
  }
  return lists;
}

function pieceBlock(
  writing: Writing,
  piece: Piece,
  { solids, parts }: { readonly solids: readonly Solid[]; readonly parts: readonly Part[] },
): readonly string[] {
  const [first] = solids;
  const plain =
    first !== undefined &&
    solids.length === 1 &&
    first.shape !== "outline" &&
    besideMiddle(writing, first) === "";
  const head = [
    `piece ${writing.piece(piece.id)}${piece.count === 1 ? "" : ` x${piece.count}`}`,
    ...(plain ? [solidSize(writing, first)] : []),
    ...(solids.length === 0 ? ["no size yet"] : []),
    ...(piece.sits ? ["sits"] : []),
    ...(piece.weight === undefined ? [] : [`weighs ${weight(piece.weight, writing)}`]),
    ...(piece.layer === "furniture" ? [] : [piece.layer]),
    ...(piece.minutes === undefined ? [] : [`${exactSpan(piece.minutes)} each`]),
  ].join(", ");
  return [
    head,
    ...(plain ? [] : solids.map((solid) => solidLine(writing, solid))),
    ...parts.map(
      (part) => `  part ${part.count} x ${writing.length(part.length)} from ${writing.stock(part.stock)}`,
    ),
  ];
}

function weight(kg: number, { units }: Writing): string {
  const pounds = Math.round((kg / POUND) * 1e4) / 1e4;
  const exact = Math.round(pounds * POUND * 1e6) / 1e6 === kg;
  return exact && (units === "ft-in" || units === "in")
    ? `${plainDecimal(pounds)} lb`
    : `${plainDecimal(kg)} kg`;
}

function solidSize(writing: Writing, solid: Solid): string {
  return solid.shape === "cylinder"
    ? `${writing.length(solid.width)} across x ${writing.length(solid.height)}`
    : `${writing.length(solid.width)} x ${writing.length(solid.depth)} x ${writing.length(solid.height)}`;
}

/** `6" right, 4" back`; "" for the very middle. */
function sides(writing: Writing, at: { readonly x: number; readonly y: number }): string {
  const { x, y } = at;
  return [
    ...(x === 0 ? [] : [x > 0 ? `${writing.length(x)} right` : `${writing.length(-x)} left`]),
    ...(y === 0 ? [] : [y > 0 ? `${writing.length(y)} back` : `${writing.length(-y)} forward`]),
  ].join(", ");
}

/** Where a solid is in its piece, with the comma before it; nothing where it stands in the middle. */
function besideMiddle(writing: Writing, solid: Solid): string {
  const beside = sides(writing, solid);
  const up = solid.z === 0 ? "" : `, up ${writing.length(solid.z)}`;
  return `${beside === "" ? "" : `, at ${beside}`}${up}${turned(solid.turn)}`;
}

function solidLine(writing: Writing, solid: Solid): string {
  const corners = (solid.outline ?? []).map(([x, y]) => `(${writing.length(x)}, ${writing.length(y)})`);
  const outline = corners.length === 0 ? "" : `, corners ${corners.join(" ")}`;
  return `  ${solid.shape} ${solidSize(writing, solid)}${besideMiddle(writing, solid)}${outline}`;
}

/** Where every copy in a room is: first what stands on the floor, then what stands on that, then what is on walls. */
export function placeLines(writing: Writing, room: string): readonly string[] {
  const { placements, mounts } = writing.document;
  const copies = <R extends Placement | Mount>(table: { readonly [id: string]: R }): readonly R[] =>
    Object.values(table)
      .filter((record) => record.room === room)
      .toSorted((a, b) => (a.piece === b.piece ? a.number - b.number : a.piece < b.piece ? -1 : 1));
  const standing = copies(placements)
    .map((placement) => ({ placement, floors: floorsBelow(placements, placement) }))
    .toSorted((a, b) => a.floors - b.floors);
  return [
    ...standing.map(({ placement }) => placementLine(writing, placement)),
    ...copies(mounts).map((mount) => mountLine(writing, mount)),
  ];
}

/** How many copies are between this one and the floor. */
function floorsBelow(placements: { readonly [id: string]: Placement }, placement: Placement): number {
  const seen = new Set<string>();
  let at = placement;
  while (at.on !== undefined && !seen.has(at.id)) {
    seen.add(at.id);
    at = placements[at.on] ?? at;
  }
  return seen.size;
}

function copy(writing: Writing, of: { readonly piece: string; readonly number: number }): string {
  const piece = writing.document.pieces[of.piece];
  const number = piece === undefined || piece.count === 1 ? "" : ` ${of.number}`;
  return `${writing.piece(of.piece)}${number}`;
}

export function placementLine(writing: Writing, placement: Placement): string {
  const { x, y, turn, up, on } = placement;
  const below = on === undefined ? undefined : writing.document.placements[on];
  const raised = up === 0 ? "" : `, up ${writing.length(up)}`;
  if (below === undefined) {
    const room = writing.document.rooms[placement.room];
    return `place ${copy(writing, placement)} at ${writing.where(room, placement)}${raised}${turned(turn)}`;
  }
  const beside = sides(writing, { x, y });
  const at = beside === "" ? `${writing.length(0)} right` : beside;
  return `place ${copy(writing, placement)} on ${carrier(writing, below)} at ${at}${raised}${turned(turn)}`;
}

/** A name with a dash or a number in it stands in quotes, so that it cannot pass for a wall. */
function carrier(writing: Writing, below: Placement): string {
  const written = copy(writing, below);
  const name = writing.document.pieces[below.piece]?.name ?? "";
  if (!/[-\u2010-\u2015\u2192\u2212]/u.test(name) || written.startsWith('"')) return written;
  return `"${writing.piece(below.piece)}"${written.slice(writing.piece(below.piece).length)}`;
}

export function mountLine(writing: Writing, mount: Mount): string {
  const at = `${writing.length(mount.offset)} from ${writing.corner(mount.datum)}`;
  return `place ${copy(writing, mount)} on ${writing.wall(mount)} at ${at}, up ${writing.length(mount.up)}`;
}
