/**
 * Rooms and arrangements put together by hand for the sheets' tests, so that they rest on no derivation:
 * corners are given as places, and everything else follows by plain trigonometry written here.
 */
import type { Arrangement, Standing } from "../arrange/model.ts";
import {
  EMPTY_SHOW,
  emptyDocument,
  type Fixture,
  type Opening,
  type Show,
  type ShowDocument,
  type Trim,
} from "../document/tables.ts";
import type { TrueCorner, TrueRoom, TrueWall } from "../measure/model.ts";
import type { Point } from "../plane/point.ts";

export interface Wanted {
  readonly corners: readonly { readonly x: number; readonly y: number; readonly height: number }[];
  readonly turn?: "clockwise" | "counterclockwise";
  readonly openings?: readonly (Partial<Opening> & {
    readonly wall: number;
    readonly offset: number;
    readonly width: number;
  })[];
  readonly fixtures?: readonly (Partial<Fixture> & { readonly wall: number; readonly offset: number })[];
  readonly pieces?: readonly {
    readonly name: string;
    readonly size: readonly [number, number, number];
    readonly at: readonly (readonly [number, number, number])[];
    readonly waiting?: number;
  }[];
  readonly show?: Partial<Show>;
  readonly open?: readonly number[];
}

const letter = (index: number): string => String.fromCodePoint(65 + index);

/** One standard deviation of a corner's x and y, mm: the first is where it is, and the first wall along x. */
const doubtOf = (corner: number): readonly [number, number] => [corner === 0 ? 0 : 1.8, corner < 2 ? 0 : 2.1];

/** The coordinates x and y of so many corners, all free of each other, mm². */
const freeOfEachOther = (corners: number): readonly (readonly number[])[] => {
  const sds = Array.from({ length: corners }, (_, corner) => doubtOf(corner)).flat();
  return sds.map((sd, i) => sds.map((__, j) => (i === j ? sd ** 2 : 0)));
};

/** The room of some corners, wall i from corner i to the next. */
export function handMadeRoom(wanted: Wanted): TrueRoom {
  const { corners } = wanted;
  const turn = wanted.turn ?? "clockwise";
  const next = (index: number): number => (index + 1) % corners.length;
  const walls = corners.map((a, index): TrueWall => {
    const b = corners[next(index)] ?? a;
    return {
      id: `${letter(index)}~${letter(next(index))}`,
      name: `${letter(index)}-${letter(next(index))}`,
      from: letter(index),
      to: letter(next(index)),
      open: wanted.open?.includes(index) ?? false,
      glass: false,
      refused: false,
      length: Math.hypot(b.x - a.x, b.y - a.y),
      sdLength: 1.5,
    };
  });
  const at = (wall: number, along: number, square: number): Point => {
    const a = corners[wall] ?? { x: 0, y: 0 };
    const b = corners[next(wall)] ?? a;
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const [dx, dy] = [(b.x - a.x) / length, (b.y - a.y) / length];
    const inward = turn === "clockwise" ? { x: dy, y: -dx } : { x: -dy, y: dx };
    return { x: a.x + dx * along + inward.x * square, y: a.y + dy * along + inward.y * square };
  };
  return {
    room: { id: "room", name: "Waiting room", order: 0, turn, entered: true },
    corners: corners.map((corner, index) => cornerOf(corners, index, turn, corner.height)),
    walls,
    readings: walls.map((wall, index) => ({
      reading: {
        id: `r${index}`,
        room: "room",
        order: index,
        kind: "distance",
        from: wall.from,
        to: wall.to,
        value: wall.length,
        typed: "",
        instrument: "tape",
      },
      text: `${wall.from} to ${wall.to} ${Math.round(wall.length)} mm`,
      adjusted: wall.length,
      residual: index === 1 ? -4.2 : 0.6,
      sigma: 1.7,
      redundancy: 0.3,
      standardised: index === 1 ? -4.1 : 0.4,
      suspect: index === 1,
    })),
    assumptions: [],
    openings: (wanted.openings ?? []).map(({ wall, ...said }, index) => ({
      opening: openingOf(said, index, walls[wall]),
      wall: walls[wall]?.id ?? "",
      start: at(wall, said.offset, 0),
      end: at(wall, said.offset + said.width, 0),
      along: said.offset,
    })),
    fixtures: (wanted.fixtures ?? []).map(({ wall, ...said }, index) => {
      const fixture = fixtureOf(said, index, walls[wall]);
      const { offset, width, out, depth, up, height } = fixture;
      return {
        fixture,
        wall: walls[wall]?.id ?? "",
        footprint:
          width > 0
            ? [
                at(wall, offset, out),
                at(wall, offset + width, out),
                at(wall, offset + width, out + depth),
                at(wall, offset, out + depth),
              ]
            : [at(wall, offset, out)],
        along: offset,
        low: up,
        high: up + (height || (fixture.kind === "projection" ? 3000 : 0)),
      };
    }),
    covariance: freeOfEachOther(corners.length),
    settled: true,
    floating: [],
    toFix: [],
    crossings: [],
    area: 36e6,
    sdArea: 1e4,
    test: { freedom: 1, sum: 2, critical: 10.8, passes: true, closure: 3.2 },
    baseDepth: 19.05,
  };
}

function cornerOf(corners: readonly Point[], index: number, turn: string, height: number): TrueCorner {
  const here = corners[index] ?? { x: 0, y: 0 };
  const before = corners.at(index - 1) ?? here;
  const after = corners[(index + 1) % corners.length] ?? here;
  const bearing = (to: Point): number => (Math.atan2(to.y - here.y, to.x - here.x) * 180) / Math.PI;
  const sweep = (bearing(before) - bearing(after)) * (turn === "clockwise" ? -1 : 1);
  return {
    id: letter(index),
    name: letter(index),
    x: here.x,
    y: here.y,
    sdX: doubtOf(index)[0],
    sdY: doubtOf(index)[1],
    ellipse: { major: 4, minor: 2, turn: 30 },
    angle: ((sweep % 360) + 360) % 360,
    sdAngle: 0.05,
    height,
    sdHeight: 1.7,
    heightSaid: index !== 1,
  };
}

function openingOf(said: Partial<Opening>, index: number, wall: TrueWall | undefined): Opening {
  const [from, to] = [wall?.from ?? "", wall?.to ?? ""];
  return {
    id: `opening${index}`,
    room: "room",
    name: `Door ${index + 1}`,
    order: index,
    kind: "door",
    from,
    to,
    datum: from,
    offset: 0,
    width: 900,
    height: 2032,
    sill: 0,
    typed: "",
    ...said,
  };
}

function fixtureOf(said: Partial<Fixture>, index: number, wall: TrueWall | undefined): Fixture {
  const [from, to] = [wall?.from ?? "", wall?.to ?? ""];
  return {
    id: `fixture${index}`,
    room: "room",
    name: `Outlet ${index + 1}`,
    order: index,
    kind: "outlet",
    from,
    to,
    datum: from,
    offset: 0,
    out: 0,
    up: 400,
    width: 0,
    depth: 0,
    height: 0,
    typed: "",
    ...said,
  };
}

/** A document with the wanted pieces as boxes, and the arrangement in which they stand. `at` is x, y and turn. */
export function handMadeShow(wanted: Wanted): {
  readonly document: ShowDocument;
  readonly arrangement: Arrangement;
} {
  const empty = emptyDocument({ ...EMPTY_SHOW, name: "Hand-made show", ...wanted.show });
  const room = handMadeRoom(wanted);
  const pieces = (wanted.pieces ?? []).map(({ name, at, waiting = 0 }, order) => ({
    id: `piece${order}`,
    name,
    order,
    layer: "furniture" as const,
    count: at.length + waiting,
    sits: false,
  }));
  const solids = (wanted.pieces ?? []).map(({ size: [width, depth, height] }, order) => ({
    id: `solid${order}`,
    piece: `piece${order}`,
    order,
    shape: "box" as const,
    x: 0,
    y: 0,
    z: 0,
    turn: 0,
    width,
    depth,
    height,
  }));
  const standing = (wanted.pieces ?? []).flatMap(({ name, size: [width, depth, height], at }, order) =>
    at.map(([x, y, turn], copy): Standing => {
      const radians = (turn * Math.PI) / 180;
      const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
      const outline = (
        [
          [-1, -1],
          [1, -1],
          [1, 1],
          [-1, 1],
        ] as const
      ).map(([sx, sy]) => ({
        x: x + (sx * width * cos) / 2 - (sy * depth * sin) / 2,
        y: y + (sx * width * sin) / 2 + (sy * depth * cos) / 2,
      }));
      const piece = pieces[order];
      if (!piece) throw new Error(`no piece ${order}`);
      return {
        placement: {
          id: `placed${order}.${copy}`,
          piece: piece.id,
          room: "room",
          number: copy + 1,
          x,
          y,
          turn,
          up: 0,
        },
        piece,
        name: piece.count === 1 ? name : `${name} ${copy + 1}`,
        blocks: [{ outline, low: 0, high: height }],
        outline: [outline],
        height,
        low: 0,
        stand: { x, y, turn },
        front: { x: sin, y: -cos },
      };
    }),
  );
  const trims: readonly Trim[] = [
    { id: "base", room: "room", order: 0, kind: "base", height: 184, depth: 19.05, up: 0 },
    { id: "rail", room: "room", order: 1, kind: "rail", height: 63, depth: 19, up: 1067 },
    { id: "crown", room: "room", order: 2, kind: "crown", height: 118, depth: 90, up: 0 },
  ];
  const document: ShowDocument = {
    ...empty,
    rooms: { room: room.room },
    pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])),
    solids: Object.fromEntries(solids.map((solid) => [solid.id, solid])),
    trims: Object.fromEntries(trims.map((trim) => [trim.id, trim])),
  };
  const tray = (wanted.pieces ?? []).flatMap(({ at, waiting = 0 }, order) => {
    const piece = pieces[order];
    return piece && waiting > 0
      ? [
          {
            piece,
            numbers: Array.from({ length: waiting }, (_, index) => at.length + index + 1),
            count: waiting,
          },
        ]
      : [];
  });
  return {
    document,
    arrangement: { room, standing, mounted: [], coverings: [], neighbours: [], routes: [], views: [], tray },
  };
}

const IN = 25.4;

/** A four-cornered room in feet and inches with a good deal in it. */
export const WAITING_ROOM: Wanted = {
  corners: [
    { x: 0, y: 0, height: 122 * IN },
    { x: 288 * IN, y: 0, height: 121.5 * IN },
    { x: 289 * IN, y: -198 * IN, height: 122.75 * IN },
    { x: 0.2 * IN, y: -197.3 * IN, height: 122.25 * IN },
  ],
  openings: [
    { wall: 0, offset: 38 * IN, width: 36 * IN, height: 80 * IN, casing: 3.5 * IN, hinge: "A", opens: "in" },
    { wall: 3, offset: 48 * IN, width: 36 * IN, height: 80 * IN, casing: 3.5 * IN, hinge: "D", opens: "out" },
    {
      wall: 1,
      offset: 48 * IN,
      width: 60 * IN,
      height: 48 * IN,
      sill: 30 * IN,
      kind: "window",
      name: "Window 1",
      casing: 3.5 * IN,
    },
  ],
  fixtures: [
    {
      wall: 2,
      offset: 112 * IN,
      width: 62 * IN,
      depth: 14.5 * IN,
      up: 0,
      kind: "projection",
      name: "Projection",
    },
    { wall: 2, offset: 24 * IN, up: 16 * IN },
    { wall: 2, offset: 250 * IN, up: 16 * IN },
    { wall: 1, offset: 20 * IN, up: 16 * IN },
    { wall: 0, offset: 24 * IN, up: 48 * IN, kind: "extinguisher", name: "Extinguisher" },
    { wall: 0, offset: 30 * IN, up: 44 * IN, kind: "alarm", name: "Pull station" },
    { wall: 0, offset: 90 * IN, up: 58 * IN, kind: "thermostat", name: "Thermostat" },
    { wall: 3, offset: 60 * IN, up: 86 * IN, kind: "exit sign", name: "Exit sign" },
    {
      wall: 0,
      offset: 200 * IN,
      up: 48 * IN,
      width: 20 * IN,
      depth: 4 * IN,
      height: 30 * IN,
      kind: "panel",
      name: "Panel",
    },
    {
      wall: 1,
      offset: 140 * IN,
      up: 90 * IN,
      width: 24 * IN,
      depth: 1 * IN,
      height: 12 * IN,
      kind: "vent",
      name: "Vent",
    },
    { wall: 0, offset: 144 * IN, up: 120 * IN, out: 96 * IN, kind: "sprinkler", name: "Sprinkler" },
  ],
  pieces: [
    { name: "Ticket booth", size: [60 * IN, 36 * IN, 90 * IN], at: [[250 * IN, -30 * IN, 0]] },
    {
      name: "Bench",
      size: [72 * IN, 22 * IN, 34 * IN],
      at: [
        [100 * IN, -60 * IN, 0],
        [100 * IN, -100 * IN, 180],
        [190 * IN, -100 * IN, 12],
      ],
      waiting: 1,
    },
    {
      name: "Trunk",
      size: [36 * IN, 21 * IN, 23 * IN],
      at: [
        [40 * IN, -170 * IN, 90],
        [70 * IN, -170 * IN, 75],
      ],
      waiting: 1,
    },
    {
      name: "Bollard",
      size: [14 * IN, 14 * IN, 24 * IN],
      at: [
        [150 * IN, -130 * IN, 0],
        [170 * IN, -130 * IN, 0],
        [190 * IN, -130 * IN, 0],
        [210 * IN, -130 * IN, 0],
        [230 * IN, -130 * IN, 0],
      ],
      waiting: 1,
    },
    { name: "Gangplank", size: [96 * IN, 32 * IN, 18 * IN], at: [[220 * IN, -165 * IN, 5]] },
    { name: "Bell", size: [5 * IN, 5 * IN, 7 * IN], at: [[250 * IN, -60 * IN, 0]] },
  ],
};

/** Five corners, no right angle, metric, a name with primes and eighths. */
export const FIVE_CORNERS: Wanted = {
  corners: [
    { x: 0, y: 0, height: 2710 },
    { x: 4200, y: 0, height: 2900 },
    { x: 5150, y: -2310, height: 3120 },
    { x: 2480, y: -4870, height: 2740 },
    { x: -830, y: -2950, height: 2710 },
  ],
  openings: [
    { wall: 1, offset: 600, width: 900, hinge: "C", opens: "in", casing: 70 },
    { wall: 3, offset: 1200, width: 1400, height: 1200, sill: 800, kind: "window", name: "Window 1" },
  ],
  fixtures: [
    { wall: 4, offset: 900, up: 300 },
    {
      wall: 0,
      offset: 2000,
      up: 150,
      width: 900,
      depth: 110,
      height: 600,
      kind: "radiator",
      name: "Radiator",
    },
  ],
  pieces: [
    { name: "Theke 1′ 6⅜″", size: [1800, 600, 900], at: [[1500, -900, 20]] },
    {
      name: "Kiste",
      size: [500, 400, 300],
      at: [
        [2500, -2500, 0],
        [3100, -2400, 40],
        [800, -2600, 10],
      ],
    },
  ],
  show: { units: "mm", gridPitch: 5, gridSquare: 250 },
  open: [2],
};
