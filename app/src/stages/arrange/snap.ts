/**
 * What holds a piece that is pushed about: a wall's face (less its base trim) or another piece's edge when it
 * comes near, else the finger step (an inch or a centimetre). Says which, in words.
 */
import type { Arrangement, Point, Standing, TrueRoom } from "@cornerwise/engine";
import type { Stand } from "./commands.ts";

export interface Held extends Stand {
  readonly holds?: string;
}

interface Face {
  readonly name: string;
  /** A point on the face and its unit normal, pointing to where pieces stand. */
  readonly at: Point;
  readonly normal: Point;
  readonly from: Point;
  readonly to: Point;
}

/** Pieces are drawn to a face when they come this near it, mm. */
const REACH = 70;
/** Edges within this of parallel count as parallel: sine of the angle. */
const PARALLEL = 0.02;

export function held(arrangement: Arrangement, moving: Standing, wanted: Stand, step: number): Held {
  const outline = outlineAt(moving, wanted);
  const faces = [...wallFaces(arrangement.room), ...pieceFaces(arrangement, moving)];
  let best: { readonly shift: Point; readonly name: string; readonly size: number } | undefined;
  let second: typeof best;
  for (const face of faces) {
    const found = shiftTo(face, outline);
    if (!found) continue;
    if (!best || found.size < best.size) best = { ...found, name: face.name };
  }
  if (!best) return { ...wanted, x: rounded(wanted.x, step), y: rounded(wanted.y, step) };
  const first = best;
  for (const face of faces) {
    const found = shiftTo(face, outline);
    const across = found && Math.abs(found.shift.x * first.shift.y - found.shift.y * first.shift.x);
    const square = found && across !== undefined && across > 0.9 * found.size * first.size;
    if (found && square && face.name !== first.name && (!second || found.size < second.size)) {
      second = { ...found, name: face.name };
    }
  }
  return {
    ...wanted,
    x: wanted.x + first.shift.x + (second?.shift.x ?? 0),
    y: wanted.y + first.shift.y + (second?.shift.y ?? 0),
    holds: second ? `${first.name} and ${second.name}` : first.name,
  };
}

/** The outline of a standing piece, were it to stand there. */
export function outlineAt(moving: Standing, to: Stand): readonly Point[] {
  const turn = ((to.turn - moving.stand.turn) * Math.PI) / 180;
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  return moving.outline.flat().map((point) => {
    const x = point.x - moving.stand.x;
    const y = point.y - moving.stand.y;
    return { x: to.x + x * cos - y * sin, y: to.y + x * sin + y * cos };
  });
}

/** The shift along the normal that brings the outline against the face, if it is near and lies flat to it. */
function shiftTo(
  face: Face,
  outline: readonly Point[],
): { readonly shift: Point; readonly size: number } | undefined {
  const along = { x: face.to.x - face.from.x, y: face.to.y - face.from.y };
  const length = Math.hypot(along.x, along.y);
  const away = outline.map((p) => (p.x - face.at.x) * face.normal.x + (p.y - face.at.y) * face.normal.y);
  const run = outline.map((p) => ((p.x - face.from.x) * along.x + (p.y - face.from.y) * along.y) / length);
  const nearest = Math.min(...away);
  const flat = away.filter((distance) => distance - nearest < PARALLEL * 200 + 0.5).length >= 2;
  const beside = Math.max(...run) > 0 && Math.min(...run) < length;
  if (!flat || !beside || Math.abs(nearest) > REACH) return undefined;
  return {
    shift: { x: -nearest * face.normal.x, y: -nearest * face.normal.y },
    size: Math.abs(nearest) || 1e-9,
  };
}

function wallFaces(room: TrueRoom): readonly Face[] {
  const inward = room.room.turn === "clockwise" ? 1 : -1;
  return room.walls.flatMap((wall, index) => {
    const from = room.corners[index];
    const to = room.corners[(index + 1) % room.corners.length];
    if (!from || !to || wall.open) return [];
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    if (length === 0) return [];
    const normal = { x: (inward * (to.y - from.y)) / length, y: (-inward * (to.x - from.x)) / length };
    const at = { x: from.x + normal.x * room.baseDepth, y: from.y + normal.y * room.baseDepth };
    return [{ name: `wall ${wall.name}`, at, normal, from, to }];
  });
}

function pieceFaces(arrangement: Arrangement, moving: Standing): readonly Face[] {
  return arrangement.standing
    .filter((other) => other.placement.id !== moving.placement.id && other.outline.length > 0)
    .flatMap((other) =>
      other.outline.flatMap((ring) =>
        ring.length > 8
          ? []
          : ring.map((from, index) => {
              const to = ring[(index + 1) % ring.length] ?? from;
              const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
              const normal = { x: (to.y - from.y) / length, y: -(to.x - from.x) / length };
              return { name: other.name, at: from, normal, from, to };
            }),
      ),
    );
}

function rounded(value: number, step: number): number {
  return Math.round(value / step) * step;
}
