/**
 * Where copies on other copies, under ceilings and on walls must be, worked out a second way: each host's frame is
 * turned into room axes as one complex number after another, and walls by vectors from corner to corner. No
 * derivation has a part in it.
 */
import type { Mount, Placement, ShowDocument } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";

/** A turn and a shift of the plane: z ↦ by · z + shift, all of them complex. */
interface Motion {
  readonly by: Point;
  readonly shift: Point;
}

const times = (p: Point, q: Point): Point => ({ x: p.x * q.x - p.y * q.y, y: p.x * q.y + p.y * q.x });
const plus = (p: Point, q: Point): Point => ({ x: p.x + q.x, y: p.y + q.y });

function motionOf({ x, y, turn }: Pick<Placement, "x" | "y" | "turn">): Motion {
  const radians = (turn * Math.PI) / 180;
  return { by: { x: Math.cos(radians), y: Math.sin(radians) }, shift: { x, y } };
}

/** Where a point of a copy's own frame is in the room; undefined where a host is lost or stands on itself. */
export function inRoom(document: ShowDocument, placementId: string, point: Point): Point | undefined {
  let at = point;
  const met = new Set<string>();
  for (let id: string | undefined = placementId; id !== undefined;) {
    const placement: Placement | undefined = document.placements[id];
    if (!placement || met.has(id)) return undefined;
    met.add(id);
    const { by, shift } = motionOf(placement);
    at = plus(times(by, at), shift);
    id = placement.on;
  }
  return at;
}

/** Places of boxes in a piece's own frame, and of their tops, by piece id. Solids that are no boxes are passed over. */
function boxesOf(document: ShowDocument, piece: string) {
  return Object.values(document.solids).filter((solid) => solid.piece === piece && solid.shape === "box");
}

/**
 * How high a copy's underside is: on the floor or hung as said; on a copy made of boxes, the highest of their tops
 * under the copy's origin, or the highest of all where it is under none. Asked only of copies that have a place.
 */
export function undersideOf(document: ShowDocument, placementId: string): number {
  const placement = document.placements[placementId]!;
  if (placement.on === undefined) return placement.up;
  const host = document.placements[placement.on]!;
  const under = boxesOf(document, host.piece).filter((box) => {
    const radians = (-box.turn * Math.PI) / 180;
    const [dx, dy] = [placement.x - box.x, placement.y - box.y];
    const x = dx * Math.cos(radians) - dy * Math.sin(radians);
    const y = dx * Math.sin(radians) + dy * Math.cos(radians);
    return Math.abs(x) <= box.width / 2 && Math.abs(y) <= box.depth / 2;
  });
  const tops = (under.length > 0 ? under : boxesOf(document, host.piece)).map((box) => box.z + box.height);
  return undersideOf(document, placement.on) + Math.max(0, ...tops);
}

/**
 * Where a point of a fitting's own frame is in the room, its back (the largest y of the piece) being `back`.
 * `corners` is the room in its order, `inside` any point that lies before the wall.
 */
export function onWall(
  mount: Pick<Mount, "from" | "to" | "datum" | "offset">,
  point: Point,
  {
    corners,
    back,
    inside,
  }: {
    readonly corners: readonly (Point & { readonly id: string })[];
    readonly back: number;
    readonly inside: Point;
  },
): Point {
  const from = corners.find(({ id }) => id === mount.from)!;
  const to = corners.find(({ id }) => id === mount.to)!;
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  let inward = { x: along.y, y: -along.x };
  if ((inside.x - from.x) * inward.x + (inside.y - from.y) * inward.y < 0)
    inward = { x: -inward.x, y: -inward.y };
  // Facing its front, one looks out of the room: right is a quarter turn clockwise from that.
  const right = { x: -inward.y, y: inward.x };
  const middle = mount.datum === mount.from ? mount.offset : length - mount.offset;
  const out = back - point.y;
  return {
    x: from.x + along.x * middle + right.x * point.x + inward.x * out,
    y: from.y + along.y * middle + right.y * point.x + inward.y * out,
  };
}
