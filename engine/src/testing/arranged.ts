/** Rooms and pieces put together by hand for tests and benchmarks of arranging: places are given, nothing is measured. */
import { emptyDocument, EMPTY_SHOW, SHOW_ID } from "../document/tables.ts";
import type {
  Covering,
  Fixture,
  Neighbour,
  Opening,
  Piece,
  Placement,
  Show,
  ShowDocument,
  Solid,
  Trim,
} from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import type { Point } from "../plane/point.ts";

export type Pair = readonly [number, number];

export interface PieceWish {
  readonly name: string;
  /** Width, depth, height; with `round` the first is the diameter. */
  readonly size?: readonly [number, number, number];
  readonly round?: boolean;
  readonly outline?: readonly Pair[];
  readonly lift?: number;
  readonly count?: number;
  /** x, y, turn of every copy that stands. */
  readonly at: readonly (readonly [number, number, number])[];
}

export interface RoomWish {
  readonly corners: readonly Pair[];
  readonly heights?: readonly number[];
  readonly open?: readonly number[];
  readonly baseDepth?: number;
  readonly doors?: readonly (Partial<Opening> & {
    readonly wall: number;
    readonly offset: number;
    readonly width: number;
  })[];
  readonly fixtures?: readonly (Partial<Fixture> & {
    readonly wall: number;
    readonly offset: number;
    readonly kind: Fixture["kind"];
  })[];
  readonly pieces?: readonly PieceWish[];
  readonly coverings?: readonly Partial<Covering>[];
  readonly neighbours?: readonly Partial<Neighbour>[];
  readonly show?: Partial<Show>;
  /** One standard deviation of every coordinate, all free of each other, mm. */
  readonly doubt?: number;
}

export interface Arranged {
  readonly document: ShowDocument;
  readonly room: TrueRoom;
}

const keyed = <R extends { readonly id: string }>(records: readonly R[]): { readonly [id: string]: R } =>
  Object.fromEntries(records.map((record) => [record.id, record]));

/** A document and its true room as wished. Corner i is "K0", "K1", ...; pieces "p0", placements "p0.1", doors "d0", fixtures "f0". */
export function arranged(wish: RoomWish): Arranged {
  const count = wish.corners.length;
  const show: Show = { ...EMPTY_SHOW, id: SHOW_ID, units: "mm", place: "US", ...wish.show };
  const pieces = wish.pieces ?? [];
  const trims: Trim[] =
    wish.baseDepth === undefined
      ? []
      : [{ id: "base", room: "room", order: 0, kind: "base", height: 184, depth: wish.baseDepth, up: 0 }];
  const document: ShowDocument = {
    ...emptyDocument(show),
    rooms: { room: { id: "room", name: "Room", order: 0, turn: turnOf(wish.corners), entered: true } },
    pieces: keyed(pieces.map(pieceOf)),
    solids: keyed(pieces.flatMap(solidOf)),
    placements: keyed(pieces.flatMap(placementsOf)),
    coverings: keyed((wish.coverings ?? []).map(coveringOf)),
    neighbours: keyed((wish.neighbours ?? []).map(neighbourOf)),
    trims: keyed(trims),
  };
  return { document, room: roomOf(wish, count) };
}

function turnOf(corners: readonly Pair[]): "clockwise" | "counterclockwise" {
  let twice = 0;
  corners.forEach(([x, y], i) => {
    const [u, v] = corners[(i + 1) % corners.length]!;
    twice += x * v - u * y;
  });
  return twice < 0 ? "clockwise" : "counterclockwise";
}

function pieceOf({ name, count, at }: PieceWish, order: number): Piece {
  return {
    id: `p${order}`,
    name,
    order,
    layer: "furniture",
    count: count ?? Math.max(1, at.length),
    sits: false,
  };
}

function solidOf({ size, round, outline, lift }: PieceWish, order: number): Solid[] {
  if (!size) return [];
  const [width, depth, height] = size;
  const shape = round ? "cylinder" : outline ? "outline" : "box";
  const base = {
    id: `s${order}`,
    piece: `p${order}`,
    order,
    x: 0,
    y: 0,
    z: lift ?? 0,
    turn: 0,
    width,
    depth,
    height,
  };
  return [
    { ...base, shape, ...(outline ? { outline: outline.map(([x, y]): [number, number] => [x, y]) } : {}) },
  ];
}

function placementsOf({ at }: PieceWish, order: number): Placement[] {
  return at.map(([x, y, turn], copy) => ({
    id: `p${order}.${copy + 1}`,
    piece: `p${order}`,
    room: "room",
    number: copy + 1,
    x,
    y,
    turn,
    up: 0,
  }));
}

function coveringOf(said: Partial<Covering>, order: number): Covering {
  return {
    id: `c${order}`,
    room: "room",
    name: "Floor cloth",
    order,
    x: 0,
    y: 0,
    turn: 0,
    width: 1000,
    depth: 1000,
    thickness: 5,
    border: 0,
    walkable: false,
    ...said,
  };
}

function neighbourOf(said: Partial<Neighbour>, order: number): Neighbour {
  return {
    id: `n${order}`,
    room: "room",
    name: "Bronze",
    order,
    x: 0,
    y: 0,
    turn: 0,
    width: 600,
    depth: 600,
    round: false,
    height: 1800,
    low: 760,
    seenFrom: "d0",
    ...said,
  };
}

function roomOf(wish: RoomWish, count: number): TrueRoom {
  const turn = turnOf(wish.corners);
  const next = (i: number): number => (i + 1) % count;
  const corner = (i: number): Point => ({ x: wish.corners[i]![0], y: wish.corners[i]![1] });
  const length = (i: number): number =>
    Math.hypot(corner(next(i)).x - corner(i).x, corner(next(i)).y - corner(i).y);
  const at = (wall: number, along: number, inward: number): Point => {
    const [a, b] = [corner(wall), corner(next(wall))];
    const [dx, dy] = [(b.x - a.x) / length(wall), (b.y - a.y) / length(wall)];
    const sign = turn === "clockwise" ? 1 : -1;
    return { x: a.x + dx * along + sign * dy * inward, y: a.y + dy * along - sign * dx * inward };
  };
  const wallId = (i: number): string => `K${i}~K${next(i)}`;
  const sides = (i: number) => ({ from: `K${i}`, to: `K${next(i)}`, datum: `K${i}` });
  return {
    room: { id: "room", name: "Room", order: 0, turn, entered: true },
    corners: wish.corners.map(([x, y], i) => ({
      id: `K${i}`,
      name: `K${i}`,
      x,
      y,
      sdX: wish.doubt ?? 0,
      sdY: wish.doubt ?? 0,
      ellipse: { major: 0, minor: 0, turn: 0 },
      angle: 0,
      sdAngle: 0,
      height: wish.heights?.[i] ?? 3000,
      sdHeight: wish.doubt ?? 0,
      heightSaid: true,
    })),
    walls: wish.corners.map((_, i) => ({
      id: wallId(i),
      name: `K${i}-K${next(i)}`,
      from: `K${i}`,
      to: `K${next(i)}`,
      open: wish.open?.includes(i) ?? false,
      glass: false,
      refused: false,
      length: length(i),
      sdLength: 0,
    })),
    readings: [],
    assumptions: [],
    openings: (wish.doors ?? []).map(({ wall, ...said }, i) => ({
      opening: {
        id: `d${i}`,
        room: "room",
        name: `Door ${i + 1}`,
        order: i,
        kind: "door",
        height: 2032,
        sill: 0,
        typed: "",
        ...sides(wall),
        ...said,
      },
      wall: wallId(wall),
      start: at(wall, said.offset, 0),
      end: at(wall, said.offset + said.width, 0),
      along: said.offset,
    })),
    fixtures: (wish.fixtures ?? []).map(({ wall, ...said }, i) => {
      const fixture: Fixture = {
        id: `f${i}`,
        room: "room",
        name: said.kind,
        order: i,
        out: 0,
        up: 0,
        width: 0,
        depth: 0,
        height: 0,
        typed: "",
        ...sides(wall),
        ...said,
      };
      const { offset, width, out, depth } = fixture;
      const ring = [at(wall, offset, out), at(wall, offset + width, out)];
      const far = [at(wall, offset + width, out + depth), at(wall, offset, out + depth)];
      return {
        fixture,
        wall: wallId(wall),
        footprint: width > 0 ? [...ring, ...far] : [at(wall, offset, out)],
        along: offset,
        low: fixture.up,
        high:
          fixture.height > 0
            ? fixture.up + fixture.height
            : /^(projection|column)$/.test(fixture.kind)
              ? 3000
              : fixture.up,
      };
    }),
    covariance: Array.from({ length: 2 * count }, (_, i) =>
      Array.from({ length: 2 * count }, (__, j) => (i === j ? (wish.doubt ?? 0) ** 2 : 0)),
    ),
    settled: true,
    floating: [],
    toFix: [],
    crossings: [],
    area: 0,
    sdArea: 0,
    test: { freedom: 0, sum: 0, critical: 0, passes: true },
    baseDepth: wish.baseDepth ?? 0,
  };
}

/** The same wish mapped by a motion of the plane: points moved, turns turned; mirrored where `mirror` says. */
export function moved(
  wish: RoomWish,
  {
    turn,
    mirror,
    shift = [0, 0],
  }: { readonly turn: number; readonly mirror: boolean; readonly shift?: Pair },
): RoomWish {
  const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  const flip = mirror ? -1 : 1;
  const map = (x: number, y: number): Pair => [
    shift[0] + flip * x * cos - y * sin,
    shift[1] + flip * x * sin + y * cos,
  ];
  const heading = (own: number): number => (turn + flip * own) % 360;
  return {
    ...wish,
    corners: wish.corners.map(([x, y]) => map(x, y)),
    ...(wish.pieces
      ? {
          pieces: wish.pieces.map((piece) => ({
            ...piece,
            at: piece.at.map(([x, y, own]) => [...map(x, y), heading(own)] as const),
          })),
        }
      : {}),
    ...(wish.coverings
      ? {
          coverings: wish.coverings.map((one) => {
            const [x, y] = map(one.x ?? 0, one.y ?? 0);
            return { ...one, x, y, turn: heading(one.turn ?? 0) };
          }),
        }
      : {}),
  };
}
