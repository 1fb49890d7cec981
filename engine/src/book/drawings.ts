/** The drawings of the book: cover, plans, elevations. */
import { showOf, type ShowDocument } from "../document/tables.ts";
import { ELEVATION_SURROUND, wallElevation } from "../measure/elevation.ts";
import { facingWall } from "../measure/facing.ts";
import { PLAN_SURROUND } from "../measure/sheet.ts";
import { boxOf, boxOfPoints, letters, type Box } from "../sheet/drafting.ts";
import { gridPaper } from "../sheet/grid.ts";
import { labelField, widened } from "../sheet/labels.ts";
import { type Paper } from "../sheet/papers.ts";
import { setInOrder } from "../sheet/rows.ts";
import { gridScales, largestThatFits, type GridScale } from "../sheet/scales.ts";
import { leafBox, type Leaf } from "../sheet/stamp.ts";
import { titleOf } from "../sheet/tables.ts";
import { shortenedTo, wrapped } from "../sheet/type.ts";
import type { Frame, Item, Stamp } from "../sheet/vocabulary.ts";
import type { Snag } from "../snags/snag.ts";
import { printArea } from "../units/figures.ts";
import { seenBefore } from "../arrange/facing.ts";
import type { Arrangement } from "../arrange/model.ts";
import { arrangedPlan } from "../arrange/plan.ts";
import type { Installing } from "../install/model.ts";
import type { Making } from "../make/model.ts";
import { stripItems } from "../make/strip-items.ts";
import type { CardModel } from "../model/model.ts";

/** What every page of a book is made from. */
export interface BookWish {
  readonly arrangements: readonly Arrangement[];
  readonly making: Making;
  readonly models: readonly CardModel[];
  readonly installing: Installing;
  readonly document: ShowDocument;
  readonly snags: readonly Snag[];
  readonly stamp: Stamp;
  readonly paper: Paper;
}

/** The cover: name, rooms, snags counted, date and state, and a small plan of the first room with a shape. */
export function coverLeaf(wish: BookWish): Leaf {
  const { arrangements, document, snags, stamp, paper } = wish;
  const { units } = showOf(document);
  const box = leafBox(paper);
  const half = (box.right - box.left) * 0.36;
  const title = wrapped(stamp.show, "sans-bold", 9, half).slice(0, 6);
  const count = (level: Snag["level"]): number => snags.filter((snag) => snag.level === level).length;
  const facts = [
    ...arrangements
      .slice(0, 12)
      .map(
        ({ room }) =>
          `${room.room.name}: ${room.walls.length} walls${room.walls.length > 0 ? `, ${printArea(room.area, units)}` : ""}`,
      ),
    "",
    `Snags: ${count("stop")} to stop for, ${count("mind")} to mind, ${count("know")} to know`,
    "",
    stamp.date,
    `State: ${stamp.state}`,
  ];
  const first = arrangements.find(({ room }) => room.walls.length > 0);
  const picture = first ? planOn(wish, first, { ...box, left: box.left + half + 8 }, false) : undefined;
  return {
    id: "cover",
    title: "Cover",
    paper,
    ...(picture ? { scale: picture.squares.scale } : {}),
    items: [
      ...title.map((row, index) =>
        letters({ x: box.left, y: box.top + 22 + index * 10.5 }, row, 9, {
          face: "sans-bold",
          part: "title",
        }),
      ),
      ...facts.map((fact, index) =>
        letters(
          { x: box.left, y: box.top + 30 + title.length * 10.5 + index * 6 },
          shortenedTo(fact, "sans", 3.6, half),
          3.6,
        ),
      ),
      ...(picture?.items ?? []),
    ],
    known: picture?.known ?? [],
    frames: [],
  };
}

/** The plan with its snags numbered; a line of words for a room without a shape. */
export function planLeaf(wish: BookWish, arrangement: Arrangement): Leaf {
  const { paper } = wish;
  const { room } = arrangement.room;
  const box = leafBox(paper);
  const title = `${room.name}: plan`;
  if (arrangement.room.walls.length === 0) {
    const words = letters(
      { x: box.left, y: box.top + 16 },
      "This room has no shape yet: three corners with their readings give it one.",
      3.4,
    );
    return {
      id: `plan.${room.id}`,
      title,
      paper,
      items: [titleOf(title, box), words],
      known: [],
      frames: [],
    };
  }
  const drawn = planOn(wish, arrangement, { ...box, top: box.top + 8 }, true);
  return {
    id: `plan.${room.id}`,
    title,
    paper,
    scale: drawn.squares.scale,
    scaleSentence: drawn.squares.sentence,
    items: [...drawn.items, titleOf(title, box)],
    known: drawn.known,
    frames: [drawn.frame],
  };
}

/** The plan in the middle of a box at the largest grid scale that fits, on its grid. */
export function planOn(wish: BookWish, arrangement: Arrangement, box: Box, marked: boolean) {
  const bounds = boxOfPoints(arrangement.room.corners);
  const { document } = wish;
  const sized = (scale: number) => ({
    width: (bounds.right - bounds.left) / scale + 2 * PLAN_SURROUND,
    height: (bounds.bottom - bounds.top) / scale + 2 * PLAN_SURROUND,
  });
  const squares = largestThatFits(gridScales(showOf(document)), ({ scale }) => {
    const { width, height } = sized(scale);
    return width <= box.right - box.left && height <= box.bottom - box.top;
  });
  const { scale, pitch } = squares;
  const frame: Frame = {
    room: arrangement.room.room.id,
    scale,
    origin: {
      x: (box.left + box.right) / 2 - (bounds.left + bounds.right) / 2 / scale,
      y: (box.top + box.bottom) / 2 + (bounds.top + bounds.bottom) / 2 / scale,
    },
  };
  const { width, height } = sized(scale);
  const [middleX, middleY] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const gridBox = {
    left: middleX - width / 2,
    right: middleX + width / 2,
    top: middleY - height / 2,
    bottom: middleY + height / 2,
  };
  const drawn = arrangedPlan({
    arrangement,
    document,
    frame,
    field: labelField(),
    ...(marked ? { snags: wish.snags } : { names: "none" as const }),
  });
  return {
    squares,
    frame,
    items: [...gridPaper({ box: gridBox, pitch, through: frame.origin }), ...drawn.items],
    known: drawn.known,
  };
}

/** As many elevations a page as the scale allows that holds the longest wall. */
export function elevationLeaves(wish: BookWish, arrangement: Arrangement): readonly Leaf[] {
  const { paper, document } = wish;
  const { room } = arrangement;
  const box = leafBox(paper);
  const free = { ...box, top: box.top + 9 };
  const walls = room.walls.flatMap(({ id }) => facingWall(room, id) ?? []);
  if (walls.length === 0) return [];
  const sized = ({ scale }: GridScale) =>
    walls.map((facing) => ({
      width: facing.length / scale + ELEVATION_SURROUND.left + ELEVATION_SURROUND.right,
      height:
        Math.max(facing.leftHeight, facing.rightHeight) / scale +
        ELEVATION_SURROUND.top +
        ELEVATION_SURROUND.bottom,
    }));
  const squares = largestThatFits(gridScales(showOf(document)), (scale) =>
    sized(scale).every(
      ({ width, height }) => width <= free.right - free.left && height <= free.bottom - free.top,
    ),
  );
  const leaves: Leaf[] = [];
  let left = walls.map((facing, index) => ({
    facing,
    size: sized(squares)[index] ?? { width: 0, height: 0 },
  }));
  while (left.length > 0) {
    const places = setInOrder(
      left.map(({ size }) => size),
      free,
      2,
    );
    const here = left.flatMap((one, index) => (places[index] ? [{ ...one, place: places[index] }] : []));
    if (here.length === 0) break;
    leaves.push(elevationLeaf(wish, arrangement, squares, here, leaves.length));
    left = left.filter((_, index) => !places[index]);
  }
  return leaves;
}

/** Over a strip's number nothing can be read: as dear as any lettering. */
const STRIP_NUMBER = 3;

interface SetElevation {
  readonly facing: NonNullable<ReturnType<typeof facingWall>>;
  readonly size: { readonly height: number };
  readonly place: { readonly x: number; readonly y: number };
}

function elevationLeaf(
  wish: BookWish,
  arrangement: Arrangement,
  squares: GridScale,
  set: readonly SetElevation[],
  index: number,
): Leaf {
  const { room } = arrangement;
  const title = `${room.room.name}: elevations`;
  const field = labelField();
  const frames = set.map(({ facing, size, place }): Frame => ({
    room: room.room.id,
    wall: facing.line.wall.id,
    origin: { x: place.x + ELEVATION_SURROUND.left, y: place.y + size.height - ELEVATION_SURROUND.bottom },
    scale: squares.scale,
  }));
  const drawn = set.map(({ facing }, at) => {
    const frame = frames[at];
    if (!frame) return { items: [], known: [] };
    const strips = stripItems(wish.making.walls, frame, room);
    // Their numbers are set first, and names of other things keep clear of them.
    for (const item of strips)
      if (item.kind === "lettering") field.keepClear(widened(boxOf(item)), STRIP_NUMBER);
    const face = wallElevation({
      room,
      document: wish.document,
      frame,
      field,
      before: seenBefore(arrangement, facing),
    });
    // Strips lie under everything on the wall's face, so that what is kept clear stays in sight.
    return { items: [...strips, ...face.items], known: face.known };
  });
  return {
    id: `elevations.${room.room.id}.${index + 1}`,
    title,
    paper: wish.paper,
    scale: squares.scale,
    scaleSentence: squares.sentence,
    items: [titleOf(title, leafBox(wish.paper)), ...drawn.flatMap(({ items }): readonly Item[] => items)],
    known: drawn.flatMap(({ known }) => known),
    frames,
  };
}
