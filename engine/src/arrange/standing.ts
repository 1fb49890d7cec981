/** Pieces where they stand: said solids become upright convex blocks in room axes. */
import type { Piece, Placement, ShowDocument, Solid } from "../document/tables.ts";
import { listed } from "../document/tables.ts";
import { united } from "../plane/clip.ts";
import { convexParts } from "../plane/convex.ts";
import { circle, counterclockwise, direction, placed, rectangle, type Stand } from "../plane/outline.ts";
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

/** A piece standing somewhere. */
export function standingOf(placement: Placement, piece: Piece, form: Form): Standing {
  const { x: cos, y: sin } = direction(placement.turn);
  return {
    placement,
    piece,
    name: piece.count === 1 ? piece.name : `${piece.name} ${placement.number}`,
    blocks: form.blocks.map((block) => raised(blockAt(block, placement), placement.up)),
    outline: form.outline.map((ring) => placed(ring, placement)),
    height: placement.up + form.height,
    low: placement.up,
    front: { x: sin, y: -cos },
  };
}

/** The block so much higher. */
function raised(block: Block, up: number): Block {
  return up === 0 ? block : { ...block, low: block.low + up, high: block.high + up };
}

function blockAt({ outline, low, high, round }: Block, stand: Stand): Block {
  const there = { outline: counterclockwise(placed(outline, stand)), low, high };
  return round
    ? { ...there, round: { middle: placed([round.middle], stand)[0]!, radius: round.radius } }
    : there;
}

/** Stands everything, keeping what it stood last time wherever the records are the very same. */
export function createStand(): (document: ShowDocument) => Stood {
  let forms = new Map<string, { readonly solids: readonly Solid[]; readonly form: Form }>();
  let stood = new Map<string, Standing>();
  let formOfStanding = new WeakMap<Standing, Form>();
  let last: { readonly from: readonly unknown[]; readonly stood: Stood } | undefined;
  let solidTable: ShowDocument["solids"] | undefined;
  return (document) => {
    const from = [document.pieces, document.solids, document.placements];
    if (last?.from.every((table, index) => table === from[index])) return last.stood;
    if (solidTable !== document.solids) {
      forms = formsOf(document, forms);
      solidTable = document.solids;
    }
    const next = new Map<string, Standing>();
    const byRoom = new Map<string, Standing[]>();
    for (const placement of Object.values(document.placements)) {
      const piece = document.pieces[placement.piece];
      if (!piece) continue;
      const form = forms.get(piece.id)?.form ?? NOTHING;
      const before = stood.get(placement.id);
      const same =
        before?.placement === placement && before.piece === piece && formOfStanding.get(before) === form;
      const standing = same ? before : standingOf(placement, piece, form);
      formOfStanding.set(standing, form);
      next.set(placement.id, standing);
      const room = byRoom.get(placement.room);
      if (room) room.push(standing);
      else byRoom.set(placement.room, [standing]);
    }
    stood = next;
    last = { from, stood: { byRoom, tray: trayOf(document) } };
    return last.stood;
  };
}

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

function trayOf(document: ShowDocument): readonly TrayRow[] {
  const taken = new Map<string, Set<number>>();
  for (const { piece, number } of Object.values(document.placements)) {
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
