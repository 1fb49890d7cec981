/**
 * Copies fixed to the walls: the back of the piece (its largest y) lies on the wall's inside face, its front looks into
 * the room, whichever way round the corners are named.
 */
import { listed, type Mount, type Piece, type ShowDocument } from "../document/tables.ts";
import { alongWall, wallLines, type WallLine } from "../measure/frame.ts";
import type { TrueRoom } from "../measure/model.ts";
import { boundsOf, placed, type Stand } from "../plane/outline.ts";
import type { Mounted } from "./model.ts";
import { blockAt, copyName, NO_FORM, raised, type Form, type Stood } from "./standing.ts";

/** Mounts everything on the walls of rooms, keeping every copy whose room, record and piece are the very same. */
export function createMounting(): (
  document: ShowDocument,
  rooms: readonly TrueRoom[],
  stood: Stood,
) => ReadonlyMap<string, readonly Mounted[]> {
  const keep = createKeeping();
  let last = new Map<string, { readonly from: readonly unknown[]; readonly mounted: readonly Mounted[] }>();
  return (document, rooms, { forms }) => {
    const next: typeof last = new Map();
    for (const room of rooms) {
      const { id } = room.room;
      const from = [room, document.mounts, document.pieces, forms];
      const before = last.get(id);
      const same = before?.from.every((part, index) => part === from[index]);
      next.set(id, before && same ? before : { from, mounted: mountedIn(document, room, { forms, keep }) });
    }
    last = next;
    return new Map([...next].map(([id, { mounted }]) => [id, mounted]));
  };
}

/** What one copy is fixed by. */
interface Fixed {
  readonly mount: Mount;
  readonly piece: Piece;
  readonly form: Form;
  readonly room: TrueRoom;
}

type Keep = (fixed: Fixed, line: WallLine) => Mounted;

/** Mounts one copy, or hands back what it was mounted as before, where it is fixed by the very same. */
function createKeeping(): Keep {
  const known = new WeakMap<Mount, { readonly fixed: Fixed; readonly mounted: Mounted }>();
  return (fixed, line) => {
    const { mount, piece, form, room } = fixed;
    const before = known.get(mount);
    if (before?.fixed.piece === piece && before.fixed.form === form && before.fixed.room === room)
      return before.mounted;
    const mounted = mountedOn(mount, piece, { line, form });
    known.set(mount, { fixed, mounted });
    return mounted;
  };
}

function mountedIn(
  document: ShowDocument,
  room: TrueRoom,
  { forms, keep }: { readonly forms: Stood["forms"]; readonly keep: Keep },
): readonly Mounted[] {
  const lines = new Map(wallLines(room).map((line) => [line.wall.id, line]));
  const order = new Map(listed(document.pieces).map((piece, index) => [piece.id, index]));
  return Object.values(document.mounts)
    .filter((mount) => mount.room === room.room.id)
    .toSorted((a, b) => (order.get(a.piece) ?? 0) - (order.get(b.piece) ?? 0) || a.number - b.number)
    .flatMap((mount) => {
      const piece = document.pieces[mount.piece];
      const line = lines.get(`${mount.from}~${mount.to}`);
      const form = forms.get(mount.piece)?.form ?? NO_FORM;
      return piece && line ? [keep({ mount, piece, form, room }, line)] : [];
    });
}

function mountedOn(
  mount: Mount,
  piece: Piece,
  { line, form }: { readonly line: WallLine; readonly form: Form },
): Mounted {
  const { wall } = line;
  const along = mount.datum === wall.from ? mount.offset : wall.length - mount.offset;
  const points = form.outline.flat();
  const extent = points.length === 0 ? { left: 0, right: 0, bottom: 0, top: 0 } : boundsOf(points);
  const stand = standOn(line, along, extent.top);
  return {
    mount,
    piece,
    name: copyName(piece, mount.number),
    wall: wall.id,
    along,
    width: extent.right - extent.left,
    depth: extent.top - extent.bottom,
    low: mount.up,
    high: mount.up + form.height,
    blocks: form.blocks.map((block) => raised(blockAt(block, stand), mount.up)),
    outline: form.outline.map((ring) => placed(ring, stand)),
  };
}

/** Where the piece's origin is and how it is turned, so that its back is on the wall and its front looks in. */
function standOn(line: WallLine, along: number, back: number): Stand {
  const { x, y } = alongWall(line, along, -back);
  // The front looks along -y at turn 0; here it looks against the wall's way out.
  return { x, y, turn: (Math.atan2(-line.out.x, line.out.y) * 180) / Math.PI };
}
