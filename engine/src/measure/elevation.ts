/**
 * One wall seen square-on from inside the room: floor, sloping ceiling, openings with casing, the venue's
 * things at their heights, trim, and the dimensions. x runs from the wall's left end as seen from inside
 * (in a room named clockwise its first corner), y is the height above the floor.
 */
import { listed, showOf, type ShowDocument, type Trim } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import {
  boxOf,
  boxOfPoints,
  dimensionLine,
  letteringAlong,
  letters,
  line,
  moved,
  plateUnder,
  ring,
  shape,
  shownBy,
  type DimensionWish,
} from "../sheet/drafting.ts";
import { placesAround, type LabelField, type LabelPlace } from "../sheet/labels.ts";
import { textWidth } from "../sheet/type.ts";
import type { Frame, Item } from "../sheet/vocabulary.ts";
import { printLength } from "../units/length.ts";
import { clockwise, onPaper, wallLines, type WallLine } from "./frame.ts";
import type { TrueFixture, TrueOpening, TrueRoom } from "./model.ts";
import { spans, type Drawn } from "./sheet.ts";
import { fixtureSign, SIGN_RADIUS } from "./signs.ts";

/** Paper an elevation needs round the wall itself for its dimensions and its title, mm. */
export const ELEVATION_SURROUND = { left: 10, right: 10, top: 3, bottom: 15.5 } as const;

/** A thing further out than this is not the wall's any more: a sprinkler in mid-room. Common practice, no source. mm. */
const CLOSE_TO_THE_WALL = 600;

/** What stands before the wall, as it is seen on it: an upright rectangle (mm, elevation axes). */
export interface SeenBefore {
  readonly record: string;
  readonly name: string;
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

export interface ElevationWish {
  readonly room: TrueRoom;
  readonly document: ShowDocument;
  /** Its `wall` says which. */
  readonly frame: Frame;
  readonly field: LabelField;
  readonly before?: readonly SeenBefore[];
}

/** A wall turned to face the reader: distances along it become x from the left. */
export interface FacingWall {
  readonly line: WallLine;
  readonly length: number;
  readonly leftHeight: number;
  readonly rightHeight: number;
  readonly leftName: string;
  readonly rightName: string;
  /** x from the left of a distance along the wall. */
  readonly x: (along: number) => number;
}

/** The wall as seen from inside; undefined where the room has no such wall. */
export function facingWall(room: TrueRoom, wall: string): FacingWall | undefined {
  const found = wallLines(room).find((candidate) => candidate.wall.id === wall);
  if (!found) return undefined;
  const { length } = found.wall;
  const [left, right] = clockwise(room) ? [found.from, found.to] : [found.to, found.from];
  return {
    line: found,
    length,
    leftHeight: left.height,
    rightHeight: right.height,
    leftName: left.name,
    rightName: right.name,
    x: left === found.from ? (along) => along : (along) => length - along,
  };
}

interface Scene {
  readonly wish: ElevationWish;
  readonly facing: FacingWall;
  /** Paper point of a place on the wall. */
  readonly at: (x: number, y: number) => Point;
}

/** The elevation with all its lettering. Empty where the frame names no wall of the room. */
export function wallElevation(wish: ElevationWish): Drawn {
  const facing = facingWall(wish.room, wish.frame.wall ?? "");
  if (!facing) return { items: [], known: [] };
  const scene: Scene = { wish, facing, at: (x, y) => onPaper(wish.frame, { x, y }) };
  const wall = facing.line.wall.id;
  const openings = wish.room.openings.filter((opening) => opening.wall === wall);
  const fixtures = wish.room.fixtures.filter(
    ({ wall: on, fixture }) => on === wall && fixture.out < CLOSE_TO_THE_WALL,
  );
  const dimensions = elevationDimensions(scene, openings);
  const drawn = openings.map((opening) => openingFace(scene, opening));
  return {
    items: [
      ...trimLines(scene, openings),
      ...drawn.flatMap((one) => one.items),
      ...fixtures.flatMap((fixture) => fixtureFace(scene, fixture)),
      ...standingBefore(scene),
      wallFace(scene),
      ...dimensions.items,
      ...elevationWords(scene, openings, fixtures),
    ],
    known: [...dimensions.known, ...drawn.flatMap((one) => one.known)],
  };
}

function wallFace({ facing, at }: Scene): Item {
  const { length, leftHeight, rightHeight, line: wallLine } = facing;
  const points = [at(0, 0), at(0, leftHeight), at(length, rightHeight), at(length, 0)];
  return shape(points, wallLine.wall.open ? "fold" : "wall", shownBy(wallLine.wall.id));
}

function ceilingAt({ facing }: Scene, x: number): number {
  const part = facing.length > 0 ? x / facing.length : 0;
  return facing.leftHeight + (facing.rightHeight - facing.leftHeight) * part;
}

/** The edges of base, rail and crown, broken where an opening with its casing stands in their way. */
function trimLines(scene: Scene, openings: readonly TrueOpening[]): readonly Item[] {
  const { wish, facing, at } = scene;
  if (facing.line.wall.open) return [];
  const trims = listed(wish.document.trims).filter((trim) => trim.room === wish.room.room.id);
  return trims.flatMap((trim) => {
    const gaps = openings
      .filter(({ opening }) => standsInTheWay(scene, trim, opening.sill, opening.sill + opening.height))
      .map((seen): [number, number] => widened(facing, seen));
    return spans(facing.length, gaps).flatMap(([a, b]) =>
      edgesOf(trim).map((edge) =>
        line([at(a, edge(ceilingAt(scene, a))), at(b, edge(ceilingAt(scene, b)))], "outline", {
          ...shownBy(trim.id, trim.kind),
          ink: "graphite-soft",
        }),
      ),
    );
  });
}

/** Heights of a trim's edges under a ceiling of some height. */
function edgesOf(trim: Trim): readonly ((ceiling: number) => number)[] {
  if (trim.kind === "crown") return [(ceiling) => ceiling - trim.height];
  if (trim.kind === "base") return [() => trim.up + trim.height];
  return [() => trim.up, () => trim.up + trim.height];
}

function standsInTheWay(scene: Scene, trim: Trim, low: number, high: number): boolean {
  const ceiling = Math.min(scene.facing.leftHeight, scene.facing.rightHeight);
  if (trim.kind === "crown") return high > ceiling - trim.height;
  return low < trim.up + trim.height && high > trim.up;
}

function widened(facing: FacingWall, { along, opening }: TrueOpening): [number, number] {
  const casing = opening.casing ?? 0;
  const ends = [facing.x(along - casing), facing.x(along + opening.width + casing)];
  return [Math.min(...ends), Math.max(...ends)];
}

interface Rectangle {
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

function corners({ at }: Scene, { left, right, low, high }: Rectangle): readonly Point[] {
  return [at(left, low), at(left, high), at(right, high), at(right, low)];
}

function openingFace(scene: Scene, seen: TrueOpening): Drawn {
  const { facing, wish } = scene;
  const { opening, along } = seen;
  const ends = [facing.x(along), facing.x(along + opening.width)];
  const face = {
    left: Math.min(...ends),
    right: Math.max(...ends),
    low: opening.sill,
    high: opening.sill + opening.height,
  };
  const casing = opening.casing ?? 0;
  const grown = {
    left: face.left - casing,
    right: face.right + casing,
    low: face.low > 0 ? face.low - casing : 0,
    high: face.high + casing,
  };
  const edge = shape(corners(scene, face), "outline", { ...shownBy(opening.id), fill: { ink: "sheet" } });
  const trim =
    casing > 0
      ? [
          shape(corners(scene, grown), "dimension", {
            ...shownBy(opening.id, "casing"),
            fill: { ink: "sheet" },
          }),
        ]
      : [];
  const [lowLeft, highLeft, highRight, lowRight] = corners(scene, face);
  const known =
    lowLeft && highLeft && lowRight && highRight
      ? [
          {
            name: `${opening.name} width, elevation`,
            from: highLeft,
            to: highRight,
            real: opening.width,
            scale: wish.frame.scale,
          },
          {
            name: `${opening.name} height, elevation`,
            from: lowLeft,
            to: highLeft,
            real: opening.height,
            scale: wish.frame.scale,
          },
        ]
      : [];
  return { items: [...trim, edge, ...hanging(scene, seen, face)], known };
}

/** A door shows on which side it hangs by two broken lines that meet at the hinges, and its handle; a window two strokes of glass. */
function hanging(scene: Scene, { opening }: TrueOpening, face: Rectangle): readonly Item[] {
  const { at, facing } = scene;
  const middle = (face.low + face.high) / 2;
  if (opening.kind === "window") {
    const corner = at(face.left, face.high);
    return [4, 6.5].map((reach) =>
      line([moved(corner, 1, reach), moved(corner, reach, 1)], "dimension", shownBy(opening.id, "glass")),
    );
  }
  if (opening.hinge === undefined) return [];
  const hingeLeft = (opening.hinge === facing.line.wall.from) === (facing.x(0) === 0);
  const [hinge, latch] = hingeLeft ? [face.left, face.right] : [face.right, face.left];
  const inward = hingeLeft ? -1 : 1;
  return [
    line([at(latch, face.high), at(hinge, middle), at(latch, face.low)], "fold", {
      ...shownBy(opening.id, "hinge"),
      ink: "graphite-soft",
    }),
    ring(
      moved(at(latch, Math.min(1000, middle)), inward * 1.2, 0),
      0.5,
      "outline",
      shownBy(opening.id, "handle"),
    ),
  ];
}

function fixturePlace(scene: Scene, seen: TrueFixture): { readonly face?: Rectangle; readonly sign: Point } {
  const { fixture, along, low, high } = seen;
  const { facing, at } = scene;
  if (fixture.width > 0 && high > low) {
    const ends = [facing.x(along), facing.x(along + fixture.width)];
    const face = {
      left: Math.min(...ends),
      right: Math.max(...ends),
      low,
      high: Math.min(high, ceilingAt(scene, facing.x(along))),
    };
    return { face, sign: at((face.left + face.right) / 2, (face.low + face.high) / 2) };
  }
  return { sign: at(facing.x(along + fixture.width / 2), low) };
}

function fixtureFace(scene: Scene, seen: TrueFixture): readonly Item[] {
  const { face, sign } = fixturePlace(scene, seen);
  const mass = seen.fixture.kind === "projection" || seen.fixture.kind === "column";
  const body = face
    ? [
        shape(corners(scene, face), mass ? "outline" : "dimension", {
          ...shownBy(seen.fixture.id),
          fill: mass ? { ink: "graphite-soft", hatch: { turn: 45, apart: 2.4 } } : { ink: "sheet" },
        }),
      ]
    : [];
  const marks = fixtureSign(seen.fixture.kind, sign, seen.fixture.id);
  for (const item of marks) scene.wish.field.keepClear(boxOf(item), 1);
  return [...body, ...marks];
}

function standingBefore(scene: Scene): readonly Item[] {
  return (scene.wish.before ?? []).map((seen) => {
    const points = corners(scene, seen);
    scene.wish.field.keepClear(boxOfPoints(points), 0.02);
    return shape(points, "dimension", { ...shownBy(seen.record, "seen"), ink: "graphite-soft" });
  });
}

/** Length below, heights at both ends, and the stretches between openings. */
function elevationDimensions(scene: Scene, openings: readonly TrueOpening[]): Drawn {
  const { facing, at, wish } = scene;
  const { units } = showOf(wish.document);
  const { wall } = facing.line;
  const { scale } = wish.frame;
  const dimension = (a: Point, b: Point, length: number, off: Point): DimensionWish => ({
    from: moved(a, off.x, off.y),
    to: moved(b, off.x, off.y),
    text: printLength(length, units),
    witness: [a, b],
    record: wall.id,
  });
  const down = openings.length > 0 ? 9.8 : 5;
  const length = dimension(at(0, 0), at(facing.length, 0), wall.length, { x: 0, y: down });
  const left = dimension(at(0, 0), at(0, facing.leftHeight), facing.leftHeight, { x: -5.5, y: 0 });
  const right = dimension(at(facing.length, 0), at(facing.length, facing.rightHeight), facing.rightHeight, {
    x: 5.5,
    y: 0,
  });
  const chain = stretches(facing, openings).map(([a, b]) =>
    dimension(at(a, 0), at(b, 0), b - a, { x: 0, y: 5 }),
  );
  const known = (name: string, { from, to }: DimensionWish, real: number) => ({
    name: `${wall.name} ${name}`,
    from,
    to,
    real,
    scale,
  });
  return {
    items: [length, left, right, ...chain].flatMap((wanted) => [
      ...dimensionLine(wanted),
      ...wish.field.place(alongPlaces(wanted)),
    ]),
    known: [
      known("elevation length", length, wall.length),
      known(`height at ${facing.leftName}`, left, facing.leftHeight),
      known(`height at ${facing.rightName}`, right, facing.rightHeight),
    ],
  };
}

/** Stretches of the wall between its ends and the edges of its openings, from the left; none where nothing opens. */
function stretches(
  facing: FacingWall,
  openings: readonly TrueOpening[],
): readonly (readonly [number, number])[] {
  if (openings.length === 0) return [];
  const edges = openings.flatMap(({ along, opening }) => [facing.x(along), facing.x(along + opening.width)]);
  const stops = [0, ...edges, facing.length].toSorted((a, b) => a - b);
  return stops.slice(1).flatMap((stop, index): [number, number][] => {
    const start = stops[index] ?? 0;
    return stop - start > 1 ? [[start, stop]] : [];
  });
}

/** Above the line where it has room, else below it. */
function alongPlaces(wanted: DimensionWish): readonly LabelPlace[] {
  const small = { ...wanted, size: 2.3 };
  const room = Math.hypot(wanted.to.x - wanted.from.x, wanted.to.y - wanted.from.y);
  const fits = textWidth(wanted.text, "mono", 2.3) < room;
  return [0.8, -0.9].map((lift, index) => ({
    lettering: [letteringAlong(small, 0.5, lift)],
    cost: fits ? index : 0,
  }));
}

function elevationWords(
  scene: Scene,
  openings: readonly TrueOpening[],
  fixtures: readonly TrueFixture[],
): readonly Item[] {
  const { wish, facing, at } = scene;
  const { units } = showOf(wish.document);
  const { wall } = facing.line;
  const title = letters(moved(at(0, 0), 0, ELEVATION_SURROUND.bottom - 0.8), `Wall ${wall.name}`, 3.2, {
    face: "sans-bold",
    ...shownBy(wall.id, "label"),
  });
  const open = wall.open
    ? [
        letters(
          moved(at(facing.length / 2, (facing.leftHeight + facing.rightHeight) / 4), 0, 0),
          "open side",
          2.6,
          { align: "middle", ...shownBy(wall.id, "open") },
        ),
      ]
    : [];
  const named = openings.flatMap(({ opening, along }) => {
    const middle = at(facing.x(along + opening.width / 2), opening.sill + opening.height / 2);
    const rows = [
      opening.name,
      ...sizeRows(
        printLength(opening.width, units),
        printLength(opening.height, units),
        opening.width / wish.frame.scale,
      ),
      ...(opening.sill > 0 ? [`sill ${printLength(opening.sill, units)}`] : []),
    ];
    const words = wish.field.place(
      [-3, 2, 8, -9].map((rise, index) => ({
        lettering: stacked(moved(middle, 0, rise), rows, opening.id),
        cost: index,
      })),
    );
    return onPlate(words);
  });
  const things = fixtures.flatMap((seen) => {
    const words = wish.field.place(
      placesAround({
        at: fixturePlace(scene, seen).sign,
        text: seen.fixture.name,
        size: 2.1,
        off: SIGN_RADIUS + 0.8,
        rest: { ...shownBy(seen.fixture.id, "label") },
      }),
    );
    return onPlate(words);
  });
  const standing = (wish.before ?? [])
    .filter(({ name }) => name !== "")
    .flatMap((seen) =>
      onPlate(
        wish.field.place(
          [0.5, 0.25, 0.75, 0.12, 0.9].map((part, index) => ({
            lettering: [
              letters(
                at((seen.left + seen.right) / 2, seen.low + (seen.high - seen.low) * part),
                seen.name,
                2.1,
                {
                  align: "middle",
                  ink: "graphite-soft",
                  ...shownBy(seen.record, "label"),
                },
              ),
            ],
            cost: index,
          })),
        ),
      ),
    );
  return [title, ...open, ...named, ...things, ...standing];
}

/** Lettering on a piece of bare paper: on a wall's face there is always something behind. */
function onPlate(items: readonly Item[]): readonly Item[] {
  const lettering = items.filter((item) => item.kind === "lettering");
  return lettering.length === 0
    ? items
    : [...items.filter((item) => item.kind !== "lettering"), plateUnder(lettering), ...lettering];
}

/** "3' 0\" × 6' 8\"" in one row, or in two where the opening is narrow (mm on paper). */
function sizeRows(width: string, height: string, room: number): readonly string[] {
  const whole = `${width} × ${height}`;
  return textWidth(whole, "mono", 2.1) + 3 < room ? [whole] : [`${width} ×`, height];
}

function stacked(at: Point, rows: readonly string[], record: string) {
  return rows.map((row, index) =>
    letters(moved(at, 0, index * 3), row, 2.1, {
      align: "middle",
      face: index === 0 ? "sans" : "mono",
      ...shownBy(record, "label"),
    }),
  );
}
