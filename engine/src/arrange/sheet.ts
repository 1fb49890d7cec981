/**
 * The one big sheet of the screen: the plan, the elevations under it at the same scale, on the person's own
 * grid paper. It is as large as what it holds. The frames say where the plan and every wall lie on it.
 */
import { showOf, type ShowDocument } from "../document/tables.ts";
import { ELEVATION_SURROUND, wallElevation } from "../measure/elevation.ts";
import { facingWall } from "../measure/facing.ts";
import { PLAN_SURROUND } from "../measure/sheet.ts";
import type { TrueRoom } from "../measure/model.ts";
import { boxOfPoints, letters, type Box } from "../sheet/drafting.ts";
import { gridPaper } from "../sheet/grid.ts";
import { labelField } from "../sheet/labels.ts";
import { gridScale, type GridScale } from "../sheet/scales.ts";
import type { Frame, Item, KnownLength, Sheet, Stamp } from "../sheet/vocabulary.ts";
import type { Snag } from "../snags/snag.ts";
import { seenBefore } from "./facing.ts";
import type { Arrangement } from "./model.ts";
import { arrangedPlan } from "./plan.ts";

export interface RoomSheetOptions {
  /** Snags to draw as numbered marks; the app lays slips over the sheet instead and gives none. */
  readonly snags?: readonly Snag[];
  /** Date and state to letter on the sheet. */
  readonly stamp?: Stamp;
  /** Ellipses of doubt, this many times their size; none where it is not said. */
  readonly doubtTimes?: number;
}

/** Room round the plan on the screen sheet, mm, and the most a screen sheet may measure before its squares are doubled. */
const EDGE = 14;
const LARGEST = 4000;
const TITLE = 12;

/** The screen sheet of a room. A room without a shape gives an empty sheet of grid paper with a plan frame. */
export function roomSheet(
  arrangement: Arrangement,
  document: ShowDocument,
  options: RoomSheetOptions = {},
): Sheet {
  const { room } = arrangement;
  const squares = screenScale(room, document);
  const { frame, plan, elevations, width, height } = layOut(room, squares);
  const field = labelField();
  const drawn = arrangedPlan({ ...options, arrangement, document, frame, field });
  const walls = elevations.map((wallFrame) => {
    const facing = facingWall(room, wallFrame.wall ?? "");
    const before = facing ? seenBefore(arrangement, facing) : [];
    return wallElevation({ room, document, frame: wallFrame, field, before });
  });
  const known: readonly KnownLength[] = [drawn, ...walls].flatMap((one) => one.known);
  return {
    id: `room.${room.room.id}`,
    title: room.room.name,
    width,
    height,
    scale: squares.scale,
    items: [
      ...gridPaper({
        box: { left: 0, top: 0, right: width, bottom: height },
        pitch: squares.pitch,
        through: frame.origin,
      }),
      ...titleItems(arrangement, squares, options.stamp),
      ...(room.walls.length === 0 ? [noShapeYet(plan)] : []),
      ...drawn.items,
      ...walls.flatMap((one) => one.items),
    ],
    known,
    frames: [frame, ...elevations],
  };
}

/** The show's own squares, doubled until a very large room still makes a sheet that can be drawn. */
function screenScale(room: TrueRoom, document: ShowDocument): GridScale {
  const show = showOf(document);
  const box = boxOfPoints(room.corners);
  const extent = room.corners.length > 0 ? Math.max(box.right - box.left, box.bottom - box.top) : 0;
  let square = show.gridSquare;
  while ((extent / square) * show.gridPitch > LARGEST) square *= 2;
  return gridScale(show.gridPitch, square, show.units);
}

interface RoomLayout {
  readonly frame: Frame;
  readonly plan: Box;
  readonly elevations: readonly Frame[];
  readonly width: number;
  readonly height: number;
}

function layOut(room: TrueRoom, { scale, pitch }: GridScale): RoomLayout {
  const bounds =
    room.corners.length > 0 ? boxOfPoints(room.corners) : { left: 0, top: -3000, right: 4000, bottom: 0 };
  const around = EDGE + PLAN_SURROUND;
  const planWidth = (bounds.right - bounds.left) / scale + 2 * around;
  const planHeight = (bounds.bottom - bounds.top) / scale + 2 * around;
  const longest = Math.max(0, ...room.walls.map((wall) => wall.length)) / scale;
  const rows = elevationRows(room, scale, Math.max(planWidth * 1.4, 2 * longest + 60));
  const rowWidth = Math.max(0, ...rows.map((row) => row.width));
  const width = upTo(Math.max(planWidth, rowWidth + 2 * EDGE), pitch);
  const onGrid = (value: number): number => Math.round(value / pitch) * pitch;
  const origin = {
    x: onGrid(width / 2 - (bounds.left + bounds.right) / 2 / scale),
    y: onGrid(TITLE + around + bounds.bottom / scale),
  };
  let y = TITLE + planHeight;
  const elevations = rows.flatMap((row) => {
    let x = (width - row.width) / 2;
    const floor = onGrid(y + ELEVATION_SURROUND.top + row.height);
    y = floor + ELEVATION_SURROUND.bottom;
    return row.walls.map((wall): Frame => {
      const at = { x: onGrid(x + ELEVATION_SURROUND.left), y: floor };
      x += wall.width;
      return { room: room.room.id, wall: wall.id, origin: at, scale };
    });
  });
  const plan = { left: 0, top: TITLE, right: width, bottom: TITLE + planHeight };
  return {
    frame: { room: room.room.id, origin, scale },
    plan,
    elevations,
    width,
    height: upTo(y + EDGE, pitch),
  };
}

const upTo = (value: number, pitch: number): number => Math.ceil(value / pitch) * pitch;

interface ElevationRow {
  readonly walls: readonly { readonly id: string; readonly width: number }[];
  readonly width: number;
  /** Height of the tallest wall, mm on paper. */
  readonly height: number;
}

/** The walls in room order, filled into rows no wider than asked (a wall that is wider has a row of its own). */
function elevationRows(room: TrueRoom, scale: number, widest: number): readonly ElevationRow[] {
  const rows: ElevationRow[] = [];
  for (const { id } of room.walls) {
    const facing = facingWall(room, id);
    if (!facing) continue;
    const width = facing.length / scale + ELEVATION_SURROUND.left + ELEVATION_SURROUND.right;
    const height = Math.max(facing.leftHeight, facing.rightHeight) / scale;
    const last = rows.at(-1);
    if (last && last.width + width <= widest) {
      rows[rows.length - 1] = {
        walls: [...last.walls, { id, width }],
        width: last.width + width,
        height: Math.max(last.height, height),
      };
    } else rows.push({ walls: [{ id, width }], width, height });
  }
  return rows;
}

function titleItems(arrangement: Arrangement, squares: GridScale, stamp: Stamp | undefined): readonly Item[] {
  const words = stamp ? [squares.sentence, stamp.date, stamp.state] : [squares.sentence];
  return [
    letters({ x: EDGE, y: 10 }, arrangement.room.room.name, 5.5, {
      face: "sans-bold",
      record: arrangement.room.room.id,
      part: "title",
    }),
    letters({ x: EDGE, y: 15.5 }, words.join(" · "), 3, { ink: "graphite-soft", part: "scale" }),
  ];
}

function noShapeYet(plan: Box): Item {
  return letters(
    { x: (plan.left + plan.right) / 2, y: (plan.top + plan.bottom) / 2 },
    "The room has no shape yet: three corners give it one.",
    3.6,
    {
      align: "middle",
      ink: "graphite-soft",
    },
  );
}
