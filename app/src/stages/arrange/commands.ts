/** What a person does to pieces, as Changes. Pure: a document in, a Change out. */
import {
  type Change,
  type FieldEdit,
  listed,
  type Mount,
  type Piece,
  type Placement,
  type Point,
  put,
  removal,
  type ShowDocument,
} from "@cornerwise/engine";

/** "Bench 2", or "Bench" where there is only one. */
export function copyName(piece: Piece, number: number): string {
  return piece.count > 1 ? `${piece.name} ${number}` : piece.name;
}

function nameOf(document: ShowDocument, placement: Placement): string {
  const piece = document.pieces[placement.piece];
  return piece ? copyName(piece, placement.number) : placement.id;
}

/** Turns are kept from 0 up to 360, to a tenth of a degree. */
export function tidyTurn(degrees: number): number {
  const turn = Math.round((((degrees % 360) + 360) % 360) * 10) / 10;
  return turn === 360 ? 0 : turn;
}

/** Positions are kept to a hundredth of a millimetre: finer than anything is placed. */
function tidy(length: number): number {
  return Math.round(length * 100) / 100;
}

export interface Stand extends Point {
  readonly turn: number;
}

export function standAt(document: ShowDocument, id: string, to: Stand): Change {
  const placement = document.placements[id];
  if (!placement) return { label: "Move", edits: [] };
  const next = { ...placement, x: tidy(to.x), y: tidy(to.y), turn: tidyTurn(to.turn) };
  const turned = next.turn !== placement.turn;
  const moved = next.x !== placement.x || next.y !== placement.y;
  return {
    label: `${turned && !moved ? "Turn" : "Move"} ${nameOf(document, placement)}`,
    edits: put(document, "placements", next),
  };
}

/** The lowest number of a piece that stands nowhere; undefined when all stand. */
export function nextNumber(document: ShowDocument, piece: Piece): number | undefined {
  const taken = new Set(
    [...Object.values(document.placements), ...Object.values(document.mounts)]
      .filter((placement) => placement.piece === piece.id)
      .map((placement) => placement.number),
  );
  for (let number = 1; number <= piece.count; number++) if (!taken.has(number)) return number;
  return undefined;
}

export function placementId(piece: Piece, number: number): string {
  return `${piece.id}~${number}`;
}

/** Where a copy goes: on the floor, hung with its underside so far up, or on another copy in that one's frame. */
export interface Where extends Point {
  readonly room: string;
  readonly up?: number;
  readonly on?: string;
  readonly turn?: number;
}

/** Takes one copy from the tray and stands it in the room. */
export function place(document: ShowDocument, piece: Piece, where: Where): Change {
  const number = nextNumber(document, piece);
  if (number === undefined) return { label: `Place ${piece.name}`, edits: [] };
  const placement: Placement = {
    id: placementId(piece, number),
    piece: piece.id,
    room: where.room,
    number,
    x: tidy(where.x),
    y: tidy(where.y),
    turn: tidyTurn(where.turn ?? 0),
    up: where.up ?? 0,
    ...(where.on === undefined ? {} : { on: where.on }),
  };
  return { label: `Place ${copyName(piece, number)}`, edits: put(document, "placements", placement) };
}

/** Puts a standing copy on another, in that one's frame, or back on the floor where `on` is nothing. */
export function putOn(document: ShowDocument, id: string, to: Stand & { readonly on?: string }): Change {
  const placement = document.placements[id];
  if (!placement) return { label: "Put on", edits: [] };
  const { on: _before, ...rest } = placement;
  const next: Placement = {
    ...rest,
    x: tidy(to.x),
    y: tidy(to.y),
    turn: tidyTurn(to.turn),
    up: 0,
    ...(to.on === undefined ? {} : { on: to.on }),
  };
  const host = to.on === undefined ? undefined : document.placements[to.on];
  const where = host ? `on ${nameOf(document, host)}` : "on the floor";
  return { label: `Put ${nameOf(document, placement)} ${where}`, edits: put(document, "placements", next) };
}

/** Hangs a copy with its underside so far above the floor, mm. */
export function hangAt(document: ShowDocument, id: string, up: number): Change {
  const placement = document.placements[id];
  if (!placement) return { label: "Hang", edits: [] };
  return {
    label: `Hang ${nameOf(document, placement)}`,
    edits: put(document, "placements", { ...placement, up: tidy(up) }),
  };
}

/** Moves a copy on its wall: its middle so far from the corner it is measured from, its underside so far up, mm. */
export function moveMount(
  document: ShowDocument,
  id: string,
  to: { readonly offset: number; readonly up: number },
): Change {
  const mount = document.mounts[id];
  if (!mount) return { label: "Move", edits: [] };
  const piece = document.pieces[mount.piece];
  return {
    label: `Move ${piece ? copyName(piece, mount.number) : id}`,
    edits: put(document, "mounts", { ...mount, offset: tidy(to.offset), up: tidy(Math.max(0, to.up)) }),
  };
}

/** How high a fitting from the tray is fixed at first: about eye height, 60 in or 1.5 m, to be changed on its slip. */
const AT_EYE_HEIGHT = { inches: 1524, metric: 1500 };
/** How high a hung thing from the tray hangs at first: over heads, 7 ft or 2.1 m. */
const OVER_HEADS = { inches: 2133.6, metric: 2100 };

/** How far up a piece from the tray begins, by where such pieces go. mm. */
export function firstUp(piece: Piece, inches: boolean): number {
  const unit = inches ? "inches" : "metric";
  return piece.layer === "fitting" ? AT_EYE_HEIGHT[unit] : piece.layer === "hung" ? OVER_HEADS[unit] : 0;
}

/** Takes one copy of a fitting from the tray and fixes it to a wall. */
export function fix(
  document: ShowDocument,
  piece: Piece,
  where: {
    readonly room: string;
    readonly from: string;
    readonly to: string;
    readonly offset: number;
    readonly up: number;
  },
): Change {
  const number = nextNumber(document, piece);
  if (number === undefined) return { label: `Fix ${piece.name}`, edits: [] };
  const mount: Mount = {
    id: placementId(piece, number),
    piece: piece.id,
    number,
    ...where,
    offset: tidy(where.offset),
    datum: where.from,
  };
  return { label: `Fix ${copyName(piece, number)}`, edits: put(document, "mounts", mount) };
}

/** Takes a copy out of the room; what stood on it goes back to the tray with it. */
export function putBack(document: ShowDocument, id: string): Change {
  const placement = document.placements[id];
  return {
    label: placement ? `Put ${nameOf(document, placement)} back` : "Put back",
    edits: removal(document, "placements", id),
  };
}

/** One more copy of the same piece, standing a square to the right. */
export function duplicate(document: ShowDocument, id: string, step: number): Change {
  const placement = document.placements[id];
  const piece = placement && document.pieces[placement.piece];
  if (!placement || !piece) return { label: "Duplicate", edits: [] };
  const waiting = nextNumber(document, piece);
  const number = waiting ?? piece.count + 1;
  const more: readonly FieldEdit[] = waiting ? [] : put(document, "pieces", { ...piece, count: number });
  const copy = { ...placement, id: placementId(piece, number), number, x: tidy(placement.x + step) };
  return { label: `Duplicate ${piece.name}`, edits: [...more, ...put(document, "placements", copy)] };
}

/** Takes a piece out of the show with everything that is nothing without it. */
export function removePiece(document: ShowDocument, piece: Piece): Change {
  return { label: `Remove ${piece.name}`, edits: removal(document, "pieces", piece.id) };
}

/** How a piece looks from above, mm: for the tray's cut-outs. */
export interface Footprint {
  readonly width: number;
  readonly depth: number;
  readonly round: boolean;
}

/** The footprints of some pieces, by piece id, in one walk over the solids: a show may hold ten thousand. */
export function footprints(
  solids: ShowDocument["solids"],
  pieces: ReadonlySet<string>,
): ReadonlyMap<string, Footprint> {
  const found = new Map<string, Footprint>();
  for (const solid of Object.values(solids)) {
    if (!pieces.has(solid.piece)) continue;
    const before = found.get(solid.piece) ?? { width: 0, depth: 0, round: false };
    found.set(solid.piece, {
      width: Math.max(before.width, Math.abs(solid.x) * 2 + solid.width),
      depth: Math.max(before.depth, Math.abs(solid.y) * 2 + solid.depth),
      round: before.round || solid.shape === "cylinder",
    });
  }
  return found;
}

/** The room new pieces go to: the first. */
export function firstRoom(document: ShowDocument): string | undefined {
  return listed(document.rooms)[0]?.id;
}
