/**
 * The book: every sheet of a show in the order a crew reads it. Cover, then for each room the plan with its
 * snags numbered, the elevations, the readings, the corners; then the list of snags and the cautions.
 */
import { showOf, type ShowDocument } from "../document/tables.ts";
import { ELEVATION_SURROUND, wallElevation } from "../measure/elevation.ts";
import { facingWall } from "../measure/facing.ts";
import type { ReadingResult, TrueRoom } from "../measure/model.ts";
import { PLAN_SURROUND } from "../measure/sheet.ts";
import { boxOfPoints, letters, type Box } from "../sheet/drafting.ts";
import { gridPaper } from "../sheet/grid.ts";
import { labelField } from "../sheet/labels.ts";
import { PAPERS, sideways, type Paper, type PaperName } from "../sheet/papers.ts";
import { setInOrder } from "../sheet/rows.ts";
import { gridScales, largestThatFits, type GridScale } from "../sheet/scales.ts";
import { bound, leafBox, type Leaf } from "../sheet/stamp.ts";
import { proseSheets, tableSheets, titleOf } from "../sheet/tables.ts";
import { shortenedTo, wrapped } from "../sheet/type.ts";
import type { Frame, Item, Sheet, Stamp } from "../sheet/vocabulary.ts";
import { figureOf, ruleOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { SURE, TOUCH } from "../tolerances.ts";
import { printAngle, printArea, printDoubt } from "../units/figures.ts";
import { printLength } from "../units/length.ts";
import { CAUTIONS } from "./cautions.ts";
import { seenBefore } from "./facing.ts";
import type { Arrangement } from "./model.ts";
import { arrangedPlan } from "./plan.ts";

export interface BookOptions {
  readonly stamp: Stamp;
  /** Letter for inches and A4 for metric shows where it is not said. Pages lie on their long side. */
  readonly paper?: PaperName;
}

interface BookWish {
  readonly arrangements: readonly Arrangement[];
  readonly document: ShowDocument;
  readonly snags: readonly Snag[];
  readonly stamp: Stamp;
  readonly paper: Paper;
}

/** All sheets, bound and counted. A show without a room still has a cover, a list of snags and the cautions. */
export function book(
  arrangements: readonly Arrangement[],
  document: ShowDocument,
  snags: readonly Snag[],
  options: BookOptions,
): readonly Sheet[] {
  const { units } = showOf(document);
  const name = options.paper ?? (units === "ft-in" || units === "in" ? "letter" : "a4");
  const wish: BookWish = {
    arrangements,
    document,
    snags,
    stamp: options.stamp,
    paper: sideways(PAPERS[name]),
  };
  return bound(
    [
      coverLeaf(wish),
      ...arrangements.flatMap((arrangement) => [
        planLeaf(wish, arrangement),
        ...elevationLeaves(wish, arrangement),
        ...readingLeaves(wish, arrangement.room),
        ...cornerLeaves(wish, arrangement.room),
      ]),
      ...snagLeaves(wish),
      ...proseSheets({ id: "cautions", title: "Cautions", paper: wish.paper, paragraphs: CAUTIONS }),
    ],
    options.stamp,
  );
}

function coverLeaf(wish: BookWish): Leaf {
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

function planLeaf(wish: BookWish, arrangement: Arrangement): Leaf {
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
function planOn(wish: BookWish, arrangement: Arrangement, box: Box, marked: boolean) {
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
function elevationLeaves(wish: BookWish, arrangement: Arrangement): readonly Leaf[] {
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
    return frame
      ? wallElevation({
          room,
          document: wish.document,
          frame,
          field,
          before: seenBefore(arrangement, facing),
        })
      : { items: [], known: [] };
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

function readingLeaves(wish: BookWish, room: TrueRoom): readonly Leaf[] {
  const { freedom, passes, closure } = room.test;
  const { units } = showOf(wish.document);
  const closed =
    closure === undefined || closure < TOUCH
      ? ""
      : ` Laid end to end the walls miss their start by ${printLength(closure, units)}.`;
  const together =
    freedom <= 0
      ? "There are just enough readings: nothing checks them."
      : passes
        ? `The readings agree as well as their tapes promise (${freedom} to spare).`
        : `The readings disagree by more than their tapes promise (${freedom} to spare).`;
  return tableSheets({
    id: `readings.${room.room.id}`,
    title: `${room.room.name}: readings`,
    lead: `${together}${closed} Difference is adjusted less measured.`,
    paper: wish.paper,
    columns: [
      { head: "As measured", share: 5, face: "mono" },
      { head: "Adjusted", share: 3, face: "mono", align: "end" },
      { head: "Difference", share: 2.4, face: "mono", align: "end" },
      { head: "Checked by others", share: 2.6, face: "mono", align: "end" },
      { head: "In deviations", share: 2.2, face: "mono", align: "end" },
      { head: "In words", share: 4.4 },
    ],
    rows: room.readings.map((result) => readingRow(result, units)),
    empty: "Nothing is measured yet.",
  });
}

function readingRow(result: ReadingResult, units: Parameters<typeof printLength>[1]): readonly string[] {
  const { reading, text, adjusted, residual, redundancy, standardised } = result;
  const angle = reading.kind === "angle";
  const inch = units === "ft-in" || units === "in";
  const sign = residual < 0 ? "−" : "+";
  const size = Math.abs(residual);
  const difference = angle
    ? `${size.toFixed(2)}°`
    : inch
      ? `${(size / 25.4).toFixed(3)} in`
      : `${size.toFixed(1)} mm`;
  return [
    text,
    angle ? printAngle(adjusted) : printLength(adjusted, units),
    `${sign}${difference}`,
    redundancy < 0.001 ? "–" : `${Math.round(redundancy * 100)} %`,
    redundancy < 0.001 ? "–" : standardised.toFixed(2).replace("-", "−"),
    readingWords(result),
  ];
}

function readingWords({ suspect, redundancy, standardised }: ReadingResult): string {
  if (suspect) return "suspect: measure this one again";
  if (redundancy < 0.001) return "nothing checks it";
  const half = figureOf("reading-suspect", "critical", "") / 2;
  return Math.abs(standardised) > half ? "agrees, though not well" : "agrees";
}

function cornerLeaves(wish: BookWish, room: TrueRoom): readonly Leaf[] {
  const { units } = showOf(wish.document);
  const good = (sd: number): string => printDoubt(sd * SURE, units);
  const assumed = room.assumptions.map(({ sentence }) => sentence);
  return tableSheets({
    id: `corners.${room.room.id}`,
    title: `${room.room.name}: corners`,
    lead: [
      `Places count from corner ${room.corners[0]?.name ?? "one"}: along the first wall, then square to it into the room.`,
      ...assumed,
    ].join(" "),
    paper: wish.paper,
    columns: [
      { head: "Corner", share: 1.4, face: "sans-bold" },
      { head: "Along", share: 2.4, face: "mono", align: "end" },
      { head: "Into the room", share: 2.6, face: "mono", align: "end" },
      { head: "Place", share: 3.2 },
      { head: "Angle inside", share: 2.2, face: "mono", align: "end" },
      { head: "Height", share: 2.2, face: "mono", align: "end" },
      { head: "Height is", share: 3.4 },
    ],
    rows: room.corners.map((corner) => [
      corner.name,
      printLength(corner.x, units),
      printLength(room.room.turn === "clockwise" ? -corner.y : corner.y, units),
      good(Math.max(corner.sdX, corner.sdY)),
      printAngle(corner.angle),
      printLength(corner.height, units),
      corner.heightSaid ? good(corner.sdHeight) : "taken, not measured",
    ]),
    empty: "No corner has a place yet.",
  });
}

const LEVEL_WORDS: { readonly [L in Snag["level"]]: string } = { stop: "STOP", mind: "mind", know: "know" };

function snagLeaves(wish: BookWish): readonly Leaf[] {
  return tableSheets({
    id: "snags",
    title: "Snags",
    lead: "STOP cannot be built or is unsafe; mind asks for a decision; know is worth knowing. Numbers are those on the plan. Codes are quoted as commonly published; the local authority decides.",
    paper: wish.paper,
    columns: [
      { head: "No.", share: 0.8, face: "mono", align: "end" },
      { head: "", share: 1.1, face: "sans-bold" },
      { head: "What", share: 6 },
      { head: "Measured", share: 2.2, face: "mono", align: "end" },
      { head: "Wanted", share: 2.2, face: "mono", align: "end" },
      { head: "Doubt", share: 2.2 },
      { head: "Source", share: 5.2 },
    ],
    rows: wish.snags.map((snag, index) => snagRow(wish.document, snag, index + 1)),
    empty: "There are none.",
  });
}

/** Rules whose figures are no lengths. */
const NO_LENGTHS: ReadonlySet<string> = new Set([
  "reading-suspect",
  "readings-disagree",
  "neighbour-hidden",
  "square-assumed",
]);

function snagRow(document: ShowDocument, snag: Snag, number: number): readonly string[] {
  const { units } = showOf(document);
  const bare = NO_LENGTHS.has(snag.rule);
  const figure = (value: number | undefined): string =>
    value === undefined ? "" : bare ? `${Number(value.toFixed(2))}` : printLength(value, units);
  const doubt =
    snag.doubt === undefined || bare || snag.doubt === 0 ? "" : printDoubt(snag.doubt * SURE, units);
  const mend = snag.mend === undefined ? "" : ` ${snag.mend}`;
  return [
    `${number}`,
    LEVEL_WORDS[snag.level],
    `${snag.sentence}${mend}`,
    figure(snag.measured),
    figure(snag.wanted),
    doubt,
    ruleOf(snag.rule).source,
  ];
}
