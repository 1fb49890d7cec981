/** Pieces where they stand: said solids become upright convex blocks in room axes. */
import type { Piece, Placement, ShowDocument, Solid } from "../document/tables.ts";
import { listed } from "../document/tables.ts";
import { united } from "../plane/clip.ts";
import { convexParts } from "../plane/convex.ts";
import {
  circle,
  counterclockwise,
  direction,
  inRing,
  placed,
  rectangle,
  type Stand,
} from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { CHORD_ERROR } from "../tolerances.ts";
import type { Block, Standing, TrayRow } from "./model.ts";

/** A piece in its own frame; of a piece without a size, no blocks and no height. */
export interface Form {
  readonly blocks: readonly Block[];
  readonly outline: readonly (readonly Point[])[];
  readonly height: number;
}

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
  const outline = blocks.length === 1 ? [blocks[0]!.outline] : united(blocks.map((block) => block.outline));
  return { blocks, outline, height: blocks.reduce((most, block) => Math.max(most, block.high), 0) };
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
 * block of the host under its middle; where there is none under it, at the host's top.
 */
function onHost({ x, y, turn }: Placement, host: Standing): Footing {
  const [at] = placed([{ x, y }], host.stand);
  const middle = at ?? host.stand;
  const under = host.blocks.filter(({ outline }) => inRing(outline, middle)).map(({ high }) => high);
  const low = under.length === 0 ? host.height : Math.max(...under);
  return { stand: { ...middle, turn: host.stand.turn + turn }, low, on: host.placement.id };
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

/** Stands everything, keeping what it stood last time wherever it and all it stands on are the very same. */
export function createStand(): (document: ShowDocument) => Stood {
  let forms: FormsByPiece = new Map();
  let stood = new Map<string, Standing>();
  const madeFrom = new WeakMap<Standing, { readonly form: Form; readonly host: Standing | undefined }>();
  let last: { readonly from: readonly unknown[]; readonly stood: Stood } | undefined;
  let solidTable: ShowDocument["solids"] | undefined;
  return (document) => {
    const from = [document.pieces, document.solids, document.placements, document.mounts];
    if (last?.from.every((table, index) => table === from[index])) return last.stood;
    if (solidTable !== document.solids) {
      forms = formsOf(document, forms);
      solidTable = document.solids;
    }
    const next = new Map<string, Standing>();
    const under = new Set<string>();
    const standingFor = (placement: Placement): Standing | undefined => {
      const known = next.get(placement.id);
      if (known) return known;
      const piece = document.pieces[placement.piece];
      // What stands on something lost, or on itself in the end, has no place: it waits in the tray.
      if (!piece || under.has(placement.id)) return undefined;
      let host: Standing | undefined;
      if (placement.on !== undefined) {
        const below = document.placements[placement.on];
        under.add(placement.id);
        host = below && standingFor(below);
        under.delete(placement.id);
        if (!host) return undefined;
      }
      const form = forms.get(piece.id)?.form ?? NOTHING;
      const before = stood.get(placement.id);
      const made = before && madeFrom.get(before);
      const same =
        before?.placement === placement &&
        before.piece === piece &&
        made?.form === form &&
        made.host === host;
      const standing = same
        ? before
        : standingOf(placement, piece, form, host ? onHost(placement, host) : onItsOwn(placement));
      madeFrom.set(standing, { form, host });
      next.set(placement.id, standing);
      return standing;
    };
    const byRoom = new Map<string, Standing[]>();
    for (const placement of Object.values(document.placements)) {
      const standing = standingFor(placement);
      if (!standing) continue;
      const home = roomOf(standing, next);
      const room = byRoom.get(home);
      if (room) room.push(standing);
      else byRoom.set(home, [standing]);
    }
    stood = next;
    last = { from, stood: { byRoom, tray: trayOf(document, next), forms } };
    return last.stood;
  };
}

/** The room a copy is in: that of what it stands on in the end. */
function roomOf(standing: Standing, all: ReadonlyMap<string, Standing>): string {
  let lowest = standing;
  for (let host = all.get(lowest.on ?? ""); host; host = all.get(lowest.on ?? "")) lowest = host;
  return lowest.placement.room;
}

type FormsByPiece = ReadonlyMap<string, { readonly solids: readonly Solid[]; readonly form: Form }>;

const NOTHING: Form = { blocks: [], outline: [], height: 0 };

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

function trayOf(document: ShowDocument, standing: ReadonlyMap<string, Standing>): readonly TrayRow[] {
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
