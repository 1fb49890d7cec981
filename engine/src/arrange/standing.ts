/** Pieces where they stand: said solids become upright convex blocks in room axes. */
import type { Piece, Placement, ShowDocument, Solid } from "../document/tables.ts";
import { listed } from "../document/tables.ts";
import { united } from "../plane/clip.ts";
import { convexParts } from "../plane/convex.ts";
import { circle, counterclockwise, direction, placed, rectangle, type Stand } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { distanceTo } from "../plane/rounded.ts";
import { CHORD_ERROR, TOUCH } from "../tolerances.ts";
import type { Block, Standing, TrayRow } from "./model.ts";
import { shapeOf } from "./obstacles.ts";

/** A piece in its own frame; of a piece without a size, no blocks and no height. */
export interface Form {
  readonly blocks: readonly Block[];
  readonly outline: readonly (readonly Point[])[];
  readonly height: number;
  /** Middle of the outline's area; the origin of a piece without a size. */
  readonly middle: Point;
}

/** A piece without a size. */
export const NO_FORM: Form = { blocks: [], outline: [], height: 0, middle: { x: 0, y: 0 } };

/** Everything that stands, by room id, and what waits. */
export interface Stood {
  readonly byRoom: ReadonlyMap<string, readonly Standing[]>;
  readonly tray: readonly TrayRow[];
  /** Every piece's form, by piece id; a piece without a size has none. */
  readonly forms: ReadonlyMap<string, { readonly form: Form }>;
}

/** Numbers of waiting copies are listed this far; the count has them all. */
const LISTED = 1000;

/** The form of a piece from its solids. */
export function formOf(solids: readonly Solid[]): Form {
  const blocks = solids.flatMap(blocksOf);
  if (blocks.length === 0) return NO_FORM;
  const outline = blocks.length === 1 ? [blocks[0]!.outline] : united(blocks.map((block) => block.outline));
  const height = blocks.reduce((most, block) => Math.max(most, block.high), 0);
  // Of what is smaller than the grid nothing is left of the outline.
  const middle = middleOfArea(outline.length === 0 ? [blocks[0]!.outline] : outline);
  return { blocks, outline, height, middle };
}

/** Centre of gravity of what rings cover, holes running the other way; the first point where they cover nothing. Throws for no rings. */
export function middleOfArea(rings: readonly (readonly Point[])[]): Point {
  // Taken from a point of the rings, so that places far from the origin lose no digits.
  const origin = rings[0]![0]!;
  let [x, y, area] = [0, 0, 0];
  for (const ring of rings) {
    ring.forEach((p, index) => {
      const q = ring[(index + 1) % ring.length]!;
      const [px, py, qx, qy] = [p.x - origin.x, p.y - origin.y, q.x - origin.x, q.y - origin.y];
      const cross = px * qy - qx * py;
      area += cross / 2;
      x += (cross * (px + qx)) / 6;
      y += (cross * (py + qy)) / 6;
    });
  }
  return area === 0 ? origin : { x: origin.x + x / area, y: origin.y + y / area };
}

function blocksOf(solid: Solid): readonly Block[] {
  const [low, high] = [solid.z, solid.z + solid.height];
  if (solid.shape === "cylinder") {
    const [middle, radius] = [{ x: solid.x, y: solid.y }, solid.width / 2];
    return [{ outline: circle(middle, radius, CHORD_ERROR), low, high, round: { middle, radius } }];
  }
  if (solid.shape === "outline" && solid.outline) {
    const ring = placed(
      solid.outline.map(([x, y]) => ({ x: x ?? 0, y: y ?? 0 })),
      solid,
    );
    return convexParts(ring).map((outline) => ({ outline, low, high }));
  }
  return [{ outline: placed(rectangle(solid.width, solid.depth), solid), low, high }];
}

/** Where a copy is in room axes, how high its underside is, and what it stands on. */
export interface Footing {
  readonly stand: Stand;
  readonly low: number;
  readonly on?: string;
}

/** A piece standing, hanging or lying somewhere. */
export function standingOf(placement: Placement, piece: Piece, form: Form, footing: Footing): Standing {
  const { stand, low, on } = footing;
  const { x: cos, y: sin } = direction(stand.turn);
  return {
    placement,
    piece,
    name: copyName(piece, placement.number),
    blocks: form.blocks.map((block) => raised(blockAt(block, stand), low)),
    outline: form.outline.map((ring) => placed(ring, stand)),
    height: low + form.height,
    low,
    front: { x: sin, y: -cos },
    stand,
    ...(on === undefined ? {} : { on }),
  };
}

/** "Bench 2"; just "Gangplank" where there is one only. */
export function copyName(piece: Piece, number: number): string {
  return piece.count === 1 ? piece.name : `${piece.name} ${number}`;
}

/** The footing of a copy on the floor or under the ceiling, as it was said. */
function onItsOwn({ x, y, turn, up }: Placement): Footing {
  return { stand: { x, y, turn }, low: up };
}

/**
 * The footing of a copy on another: its place is said in the frame of the host's piece, and it lies on the highest
 * block of the host under the middle of its foot; where there is none under it, at the host's top.
 */
function onHost({ x, y, turn }: Placement, { middle }: Form, host: Standing): Footing {
  const [at] = placed([{ x, y }], host.stand);
  const stand = { ...(at ?? host.stand), turn: host.stand.turn + turn };
  const [over] = placed([middle], stand);
  const under = host.blocks.filter((block) => distanceTo(shapeOf(block), over ?? stand) <= TOUCH);
  const low = under.length === 0 ? host.height : Math.max(...under.map(({ high }) => high));
  return { stand, low, on: host.placement.id };
}

/** A place in room axes as a copy on the host would say it: in the frame of the host's piece. */
export function toHost({ x, y, turn }: Stand, host: Pick<Standing, "stand">): Stand {
  const { x: cos, y: sin } = direction(host.stand.turn);
  const [dx, dy] = [x - host.stand.x, y - host.stand.y];
  return { x: dx * cos + dy * sin, y: dy * cos - dx * sin, turn: turn - host.stand.turn };
}

/** The block so much higher. */
export function raised(block: Block, up: number): Block {
  return up === 0 ? block : { ...block, low: block.low + up, high: block.high + up };
}

/** A block of a piece's own frame where the piece stands. */
export function blockAt({ outline, low, high, round }: Block, stand: Stand): Block {
  const there = { outline: counterclockwise(placed(outline, stand)), low, high };
  return round
    ? { ...there, round: { middle: placed([round.middle], stand)[0]!, radius: round.radius } }
    : there;
}

/** A copy as it was stood, all it was made from, and the room of what it stands on in the end. */
interface Kept {
  readonly standing: Standing;
  readonly form: Form;
  readonly host: Standing | undefined;
  readonly room: string;
}

/** Stands everything, keeping what it stood last time wherever it and all it stands on are the very same. */
export function createStand(): (document: ShowDocument) => Stood {
  let forms: FormsByPiece = new Map();
  let kept: ReadonlyMap<string, Kept> = new Map();
  let last: { readonly from: readonly unknown[]; readonly stood: Stood } | undefined;
  let solidTable: ShowDocument["solids"] | undefined;
  return (document) => {
    const from = [document.pieces, document.solids, document.placements, document.mounts];
    if (last?.from.every((table, index) => table === from[index])) return last.stood;
    if (solidTable !== document.solids) {
      forms = formsOf(document, forms);
      solidTable = document.solids;
    }
    kept = stoodUp(document, forms, kept);
    const byRoom = new Map<string, Standing[]>();
    for (const id of Object.keys(document.placements)) {
      const one = kept.get(id);
      if (!one) continue;
      const room = byRoom.get(one.room);
      if (room) room.push(one.standing);
      else byRoom.set(one.room, [one.standing]);
    }
    last = { from, stood: { byRoom, tray: trayOf(document, kept), forms } };
    return last.stood;
  };
}

/**
 * Every placement stood, what carries before what is carried. What stands on something lost, or on itself in the end,
 * has no place. Chains of hosts are walked in a loop: however long one is, it fits.
 */
function stoodUp(
  document: ShowDocument,
  forms: FormsByPiece,
  before: ReadonlyMap<string, Kept>,
): ReadonlyMap<string, Kept> {
  const done = new Map<string, Kept | undefined>();
  for (const placement of Object.values(document.placements)) {
    const chain: Placement[] = [];
    for (let next: Placement | undefined = placement; next && !done.has(next.id);) {
      chain.push(next);
      // Lost until it stands, so that a chain that comes back to itself ends.
      done.set(next.id, undefined);
      next = next.on === undefined ? undefined : document.placements[next.on];
    }
    for (const one of chain.toReversed()) {
      const host = one.on === undefined ? undefined : done.get(one.on);
      const piece = document.pieces[one.piece];
      if (!piece || (one.on !== undefined && !host)) continue;
      const form = forms.get(piece.id)?.form ?? NO_FORM;
      done.set(one.id, keptOr({ placement: one, piece, form, host }, before.get(one.id)));
    }
  }
  return new Map([...done].flatMap(([id, one]) => (one ? [[id, one] as const] : [])));
}

interface ToStand {
  readonly placement: Placement;
  readonly piece: Piece;
  readonly form: Form;
  readonly host: Kept | undefined;
}

function keptOr({ placement, piece, form, host }: ToStand, before: Kept | undefined): Kept {
  const room = host?.room ?? placement.room;
  const same =
    before?.standing.placement === placement &&
    before.standing.piece === piece &&
    before.form === form &&
    before.host === host?.standing &&
    before.room === room;
  if (same) return before;
  const footing = host ? onHost(placement, form, host.standing) : onItsOwn(placement);
  return { standing: standingOf(placement, piece, form, footing), form, host: host?.standing, room };
}

type FormsByPiece = ReadonlyMap<string, { readonly solids: readonly Solid[]; readonly form: Form }>;

function formsOf(
  document: ShowDocument,
  before: ReadonlyMap<string, { readonly solids: readonly Solid[]; readonly form: Form }>,
): Map<string, { readonly solids: readonly Solid[]; readonly form: Form }> {
  const byPiece = new Map<string, Solid[]>();
  for (const solid of listed(document.solids)) {
    const list = byPiece.get(solid.piece);
    if (list) list.push(solid);
    else byPiece.set(solid.piece, [solid]);
  }
  return new Map(
    [...byPiece].map(([piece, solids]) => {
      const old = before.get(piece);
      const same =
        old && old.solids.length === solids.length && solids.every((solid, i) => solid === old.solids[i]);
      return [piece, same ? old : { solids, form: formOf(solids) }];
    }),
  );
}

function trayOf(document: ShowDocument, standing: ReadonlyMap<string, unknown>): readonly TrayRow[] {
  const taken = new Map<string, Set<number>>();
  const placements = Object.values(document.placements).filter(({ id }) => standing.has(id));
  for (const { piece, number } of [...placements, ...Object.values(document.mounts)]) {
    const numbers = taken.get(piece);
    if (numbers) numbers.add(number);
    else taken.set(piece, new Set([number]));
  }
  return listed(document.pieces).flatMap((piece) => {
    const numbers = taken.get(piece.id) ?? new Set<number>();
    const count = piece.count - [...numbers].filter((number) => number <= piece.count).length;
    if (count === 0) return [];
    const waiting: number[] = [];
    for (let number = 1; number <= piece.count && waiting.length < LISTED; number++) {
      if (!numbers.has(number)) waiting.push(number);
    }
    return [{ piece, numbers: waiting, count }];
  });
}
