/** Small shows to be put up, made by hand for tests: what is made and where it stands is given, nothing is measured or cut. */
import type { Arrangement, LaidCovering, Mounted, Standing } from "../arrange/model.ts";
import { emptyDocument, EMPTY_SHOW } from "../document/tables.ts";
import type {
  Chore,
  Covering,
  Piece,
  Placement,
  Rate,
  Shift,
  Show,
  ShowDocument,
  Stock,
  Trim,
  WallCovering,
} from "../document/tables.ts";
import type { FloorPanel, FloorWork, Making, Run, TrimRun, TrimWork, WallWork } from "../make/model.ts";
import { handMadeRoom } from "./hand-made.ts";

export interface InstallShowWish {
  /** Corners of the room, clockwise; a room of 6 by 4 m where it is not said. */
  readonly corners?: readonly (readonly [number, number])[];
  /** One standard deviation of every coordinate, all free of each other, mm. */
  readonly doubt?: number;
  readonly pieces?: readonly {
    readonly layer?: Piece["layer"];
    readonly name?: string;
    readonly round?: boolean;
    readonly at?: readonly Partial<Placement>[];
    /** Wall index of each mounted copy. */
    readonly mounts?: readonly number[];
  }[];
  readonly walls?: readonly {
    readonly wall: number;
    readonly strips: number;
    readonly battens?: number;
    readonly fixing?: WallCovering["fixing"];
    readonly drying?: number;
  }[];
  /** Walls each trim runs along. */
  readonly trims?: readonly { readonly kind: Trim["kind"]; readonly walls: readonly number[] }[];
  readonly floors?: readonly { readonly panels: number; readonly border: number }[];
  readonly shifts?: readonly (Partial<Shift> & { readonly start: string; readonly end: string })[];
  readonly rates?: readonly Omit<Rate, "id">[];
  readonly chores?: readonly Partial<Chore>[];
  readonly show?: Partial<Show>;
}

export interface InstallShow {
  readonly document: ShowDocument;
  readonly arrangements: readonly Arrangement[];
  readonly making: Making;
}

const RECTANGLE = [
  [0, 0],
  [6000, 0],
  [6000, -4000],
  [0, -4000],
] as const;

const STOCK: Stock = {
  id: "stock",
  name: "Kraft",
  order: 0,
  form: "roll",
  width: 900,
  length: 50_000,
  thickness: 0,
  repeat: 0,
  match: "free",
  kerf: 0,
  grained: false,
  flame: false,
};

const keyed = <R extends { readonly id: string }>(records: readonly R[]): { readonly [id: string]: R } =>
  Object.fromEntries(records.map((record) => [record.id, record]));

/** The show as wished. Pieces are "p0", copies "p0.1", mounts "m0.1", coverings "c0", wall coverings "w0", trims "t0", chores "h0", shifts "s0". */
export function installShow(wish: InstallShowWish): InstallShow {
  const corners = wish.corners ?? RECTANGLE;
  const { doubt = 0 } = wish;
  const plain = handMadeRoom({ corners: corners.map(([x, y]) => ({ x, y, height: 2600 })) });
  const room = {
    ...plain,
    corners: plain.corners.map((corner) => ({ ...corner, sdX: doubt, sdY: doubt })),
    covariance: squares(2 * corners.length, doubt ** 2),
  };
  const sides = (wall: number) => ({ from: room.walls[wall]!.from, to: room.walls[wall]!.to });
  const pieces = (wish.pieces ?? []).map(
    ({ layer = "furniture", name, at = [], mounts = [] }, order): Piece => ({
      id: `p${order}`,
      name: name ?? `Piece ${order}`,
      order,
      layer,
      count: Math.max(1, at.length + mounts.length),
      sits: false,
    }),
  );
  const standing = (wish.pieces ?? []).flatMap(({ at = [], round = false }, order) =>
    at.map((said, copy) => standingOf(pieces[order]!, { ...placementOf(order, copy), ...said }, round)),
  );
  const mounted = (wish.pieces ?? []).flatMap(({ mounts = [], at = [] }, order) =>
    mounts.map((wall, copy): Mounted => ({
      mount: {
        id: `m${order}.${copy + 1}`,
        piece: `p${order}`,
        room: "room",
        number: at.length + copy + 1,
        ...sides(wall),
        datum: sides(wall).from,
        offset: 500,
        up: 1500,
      },
      piece: pieces[order]!,
      name: `Piece ${order} ${copy + 1}`,
      wall: room.walls[wall]!.id,
      along: 500,
      width: 80,
      depth: 80,
      low: 1500,
      high: 1600,
      blocks: [],
      outline: [],
    })),
  );
  const coverings = (wish.floors ?? []).map((_, order): Covering => ({
    id: `c${order}`,
    room: "room",
    name: `Floor ${order}`,
    order,
    x: 3000,
    y: -2000,
    turn: 0,
    width: 2000,
    depth: 1000,
    thickness: 4,
    border: 0,
    walkable: false,
  }));
  const laid = coverings.map((covering): LaidCovering => ({ covering, outline: [], field: [] }));
  const walls = (wish.walls ?? []).map(
    ({ wall, strips, battens = 0, fixing = "battens", drying }, order): WallWork => {
      const covering: WallCovering = {
        id: `w${order}`,
        room: "room",
        order,
        name: `Paper ${order}`,
        ...sides(wall),
        stock: STOCK.id,
        fixing,
        lap: 0,
        turn: 0,
        extra: 0,
        low: 0,
        ...(drying === undefined ? {} : { drying }),
      };
      const { id, name } = room.walls[wall]!;
      return {
        covering,
        stock: STOCK,
        name,
        wall: id,
        room: "room",
        outline: [],
        holes: [],
        ends: [900, 900],
        rolls: 1,
        perRoll: 9,
        area: 1,
        strips: Array.from({ length: strips }, (_, index) => ({
          id: `w${order}~${index + 1}`,
          number: index + 1,
          left: 0,
          right: 900,
          low: 0,
          highLeft: 2600,
          highRight: 2600,
          length: 2600,
          patternDrop: 0,
          cutRound: [],
          because: [covering.id],
        })),
        battens: Array.from({ length: battens }, (_, index) => runOf(`w${order}`, id, index)),
      };
    },
  );
  const trims = (wish.trims ?? []).map(({ kind, walls: along }, order): TrimWork => {
    const trim: Trim = { id: `t${order}`, room: "room", order, kind, height: 90, depth: 20, up: 0 };
    const end = { kind: "square", angle: 180, sdAngle: 0, mitre: 0, bevel: 0 } as const;
    return {
      trim,
      name: kind,
      length: 1,
      runs: along.map((wall, index): TrimRun => ({
        ...runOf(trim.id, room.walls[wall]!.id, index),
        ends: [end, end],
      })),
    };
  });
  const floors = (wish.floors ?? []).map(({ panels, border }, order): FloorWork => ({
    covering: coverings[order]!,
    room: "room",
    name: `Floor ${order}`,
    field: { width: 2000, depth: 1000 },
    columns: panels,
    rows: 1,
    seams: 0,
    diagonal: 2236,
    panels: panelsOf(`c${order}~`, panels),
    border: panelsOf(`c${order}~b`, border),
  }));
  const shifts = (wish.shifts ?? []).map((said, order): Shift => ({
    id: `s${order}`,
    order,
    people: 3,
    ...said,
  }));
  const rates = (wish.rates ?? []).map((said, order): Rate => ({ id: `r${order}`, ...said }));
  const chores = (wish.chores ?? []).map((said, order): Chore => ({
    id: `h${order}`,
    room: "room",
    order,
    name: `Chore ${order}`,
    after: "fitting",
    minutes: 30,
    people: 1,
    ...said,
  }));
  const document: ShowDocument = {
    ...emptyDocument({ ...EMPTY_SHOW, name: "Made by hand", zone: "UTC", units: "mm", ...wish.show }),
    rooms: { room: room.room },
    pieces: keyed(pieces),
    placements: keyed(standing.map(({ placement }) => placement)),
    mounts: keyed(mounted.map(({ mount }) => mount)),
    stocks: { stock: STOCK },
    coverings: keyed(coverings),
    wallCoverings: keyed(walls.map(({ covering }) => covering)),
    trims: keyed(trims.map(({ trim }) => trim)),
    shifts: keyed(shifts),
    rates: keyed(rates),
    chores: keyed(chores),
  };
  const arrangement: Arrangement = {
    room,
    standing,
    mounted,
    coverings: laid,
    neighbours: [],
    routes: [],
    views: [],
    tray: [],
  };
  const making: Making = {
    walls,
    trims,
    floors,
    shares: [],
    cuts: [],
    sheets: [],
    buying: [],
    hours: [],
    minutes: 0,
    price: 0,
    unpriced: 0,
  };
  return { document, arrangements: [arrangement], making };
}

/** A square table with a value down its diagonal. */
function squares(size: number, value: number): readonly (readonly number[])[] {
  return Array.from({ length: size }, (_, row) =>
    Array.from({ length: size }, (__, at) => (at === row ? value : 0)),
  );
}

function placementOf(order: number, copy: number): Placement {
  return {
    id: `p${order}.${copy + 1}`,
    piece: `p${order}`,
    room: "room",
    number: copy + 1,
    x: 1000 + 900 * order,
    y: -2000,
    turn: 0,
    up: 0,
  };
}

/** A box of 600 by 400 mm, or what is round and 500 mm across, 800 mm high. */
function standingOf(piece: Piece, placement: Placement, round: boolean): Standing {
  const { x, y, turn, up, on } = placement;
  const angle = (turn * Math.PI) / 180;
  const at = (u: number, v: number) => ({
    x: x + u * Math.cos(angle) - v * Math.sin(angle),
    y: y + u * Math.sin(angle) + v * Math.cos(angle),
  });
  const outline = round
    ? Array.from({ length: 24 }, (_, k) =>
        at(250 * Math.cos((k * Math.PI) / 12), 250 * Math.sin((k * Math.PI) / 12)),
      )
    : [at(-300, -200), at(300, -200), at(300, 200), at(-300, 200)];
  const block = { outline, low: up, high: up + 800 };
  return {
    placement,
    piece,
    name: piece.count === 1 ? piece.name : `${piece.name} ${placement.number}`,
    blocks: [round ? { ...block, round: { middle: { x, y }, radius: 250 } } : block],
    outline: [outline],
    height: up + 800,
    low: up,
    front: { x: Math.sin(angle), y: -Math.cos(angle) },
    stand: { x, y, turn: (angle * 180) / Math.PI },
    ...(on === undefined ? {} : { on }),
  };
}

function runOf(record: string, wall: string, index: number): Run {
  return {
    id: `${record}~${wall}~${index + 1}`,
    name: "Run",
    wall,
    room: "room",
    from: 0,
    to: 1000,
    up: 0,
    length: 1000,
    pieces: [{ id: `${record}~${wall}~${index + 1}~1`, name: "Run", length: 1000, because: [record] }],
    because: [record],
  };
}

function panelsOf(id: string, count: number): readonly FloorPanel[] {
  return Array.from({ length: count }, (_, index) => ({
    id: `${id}${index + 1}`,
    name: "Panel",
    number: index + 1,
    x: 0,
    y: 0,
    width: 100,
    depth: 100,
    because: [id],
  }));
}
