/**
 * Trim: which lengths of it run along which wall, and how the saw is set for their ends. A run ends where the wall
 * ends or where a casing or a mass of the venue's stands in its way (`trimStretches`); two runs of one trim that meet
 * in a corner are mitred by the true, measured angle there.
 *
 * Lengths go from long point to long point, as they are marked on the stick. At an inside corner the long point is at
 * the wall, so the length is that of the wall; at a corner that comes into the room it is at the trim's face, which
 * stands `out` before the wall and so runs on by out / tan(W / 2):
 *
 *        wall ━━━━━━━━━┓            ░ trim, its long point * at the face
 *        ░░░░░░░░░░░░░╱┃
 *        ────────────*░┃            W  angle of the mass between the two walls,
 *                    │░┃               360 less the room's inside angle
 *
 * Nothing runs along an open side, along glass, or along a wall the venue refuses: there a neighbour's end is square.
 */
import { listed, type ShowDocument, type Stock, type Trim } from "../document/tables.ts";
import { facingWall, type FacingWall } from "../measure/facing.ts";
import { clockwise } from "../measure/frame.ts";
import type { TrueCorner, TrueRoom } from "../measure/model.ts";
import { standsOut, takesTrim, trimStretches, type TrimStretch } from "../measure/trim-stretches.ts";
import { figureOf } from "../snags/catalogue.ts";
import { TOUCH } from "../tolerances.ts";
import { flatCut, sawAngle, standingCut, type SawSetting } from "./mitre.ts";
import type { TrimEnd, TrimRun, TrimWork } from "./model.ts";
import { scarfed } from "./scarf.ts";
import { stockOf } from "./stocks.ts";

/** One for each trim whose room has a shape, in listed order, each with its runs wall by wall, left to right. */
export function trimWorks(
  document: Pick<ShowDocument, "trims" | "stocks">,
  rooms: readonly TrueRoom[],
): readonly TrimWork[] {
  return listed(document.trims).flatMap((trim) => {
    const room = rooms.find((one) => one.room.id === trim.room);
    if (!room || room.walls.length === 0) return [];
    const stock = stockOf(document, trim.stock, "stick");
    const named = rooms.length > 1 ? `, ${room.room.name}` : "";
    const runs = room.walls.flatMap(({ id }) => wallRuns({ room, trim, named, stock }, id));
    return [
      {
        trim,
        ...(stock === undefined ? {} : { stock }),
        name: `${TRIM_NAMES[trim.kind]}${named}`,
        runs,
        length: runs.reduce((sum, run) => sum + run.length, 0),
      },
    ];
  });
}

const TRIM_NAMES: { readonly [K in Trim["kind"]]: string } = { base: "Base", rail: "Rail", crown: "Crown" };

/** A crown's spring angle: as said, else what its depth and height give; 0 for a flat band. Degrees. */
export function springOf({ spring, depth, height }: Trim): number {
  return spring ?? (Math.atan2(depth, height) * 180) / Math.PI;
}

interface Running {
  readonly room: TrueRoom;
  readonly trim: Trim;
  readonly named: string;
  readonly stock: Stock | undefined;
}

function wallRuns(running: Running, wall: string): readonly TrimRun[] {
  const { room, trim } = running;
  const facing = facingWall(room, wall);
  if (!facing) return [];
  return trimStretches(room, facing, trim).map((stretch, index) =>
    runOf(running, facing, stretch, index + 1),
  );
}

function runOf(running: Running, facing: FacingWall, stretch: TrimStretch, number: number): TrimRun {
  const { room, trim, named, stock } = running;
  const { wall } = facing.line;
  const { from, to, meets } = stretch;
  const ends = [endOf(running, facing, "left", from), endOf(running, facing, "right", to)] as const;
  const length = to - from + beyond(trim, ends[0]) + beyond(trim, ends[1]);
  const told = {
    id: `${trim.id}~${wall.id}~${number}`,
    name: `${TRIM_NAMES[trim.kind]} ${wall.name} ${number}${named}`,
    length,
    because: [...new Set([trim.id, ...meets, ends[0].corner, ends[1].corner])].filter(
      (id) => id !== undefined,
    ),
  };
  return {
    ...told,
    wall: wall.id,
    room: room.room.id,
    from,
    to,
    up: undersideOf(trim, facing),
    pieces: tooMany(length, stock) ? [] : scarfed(told, stock),
    ends,
  };
}

/** A crown hangs under the ceiling, so its underside slopes with it: the lower end counts. */
function undersideOf({ kind, height, up }: Trim, facing: FacingWall): number {
  return kind === "crown" ? Math.min(facing.leftHeight, facing.rightHeight) - height : up;
}

/** Whether a run would fall into more pieces than can be told one by one: a slip of the pen in its stock. */
export function tooMany(length: number, stock: Stock | undefined): boolean {
  return stock !== undefined && length / stock.length > figureOf("too-many-to-cut", "most", "");
}

/** How far the long point lies past the corner, at the trim's face. */
function beyond(trim: Trim, { kind, angle }: TrimEnd): number {
  return kind === "outside" ? standsOut(trim) / Math.tan((sawAngle(angle) / 2) * (Math.PI / 180)) : 0;
}

const SQUARE: TrimEnd = { kind: "square", angle: 180, sdAngle: 0, mitre: 0, bevel: 0 };

function endOf({ room, trim }: Running, facing: FacingWall, side: "left" | "right", at: number): TrimEnd {
  const wallEnd = side === "left" ? 0 : facing.length;
  if (Math.abs(at - wallEnd) > TOUCH) return SQUARE;
  const { from, to } = facing.line;
  const corner = (side === "left") === clockwise(room) ? from : to;
  return meetsInCorner(room, trim, facing, corner) ? cornerEnd(trim, corner) : SQUARE;
}

/** Whether the same trim comes up to this corner along the next wall too. */
function meetsInCorner(room: TrueRoom, trim: Trim, facing: FacingWall, corner: TrueCorner): boolean {
  const next = room.walls.find(
    ({ id, from, to }) => id !== facing.line.wall.id && (from === corner.id || to === corner.id),
  );
  const other = next && takesTrim(next) ? facingWall(room, next.id) : undefined;
  if (!other || !next) return false;
  const end = other.x(next.from === corner.id ? 0 : next.length);
  return trimStretches(room, other, trim).some(
    ({ from, to }) => Math.abs(from - end) <= TOUCH || Math.abs(to - end) <= TOUCH,
  );
}

function cornerEnd(trim: Trim, corner: TrueCorner): TrimEnd {
  const { id, angle, sdAngle } = corner;
  const wall = sawAngle(angle);
  // Two walls that lie on one another leave no corner to cut; the room's own snags speak of such a shape.
  if (!(wall > 0)) return SQUARE;
  const cut: SawSetting = trim.kind === "crown" ? flatCut(springOf(trim), wall) : standingCut(wall);
  return { kind: angle > 180 ? "outside" : "inside", corner: id, angle, sdAngle, ...cut };
}
