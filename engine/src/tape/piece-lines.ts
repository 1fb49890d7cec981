/** Lines about pieces: what they are, and the solids and lengths they are made of. */
import type { Piece, Solid } from "../document/tables.ts";
import { parseWeight } from "../units/figures.ts";
import { nameBeforeSize, readClauses } from "./clauses.ts";
import type { Clauses } from "./clauses.ts";
import type { Cursor } from "./cursor.ts";
import { keyOf } from "./draft.ts";
import type { Draft } from "./draft.ts";
import { slug } from "./names.ts";
import { stockAt } from "./stock-lines.ts";

const MOST_SOLIDS = 200;
const MOST_PARTS = 10_000;

interface Size {
  readonly shape: "box" | "cylinder";
  readonly width: number;
  readonly depth: number;
  readonly height: number;
}

type Sized = { across?: number; width?: number; depth?: number; height?: number };

/** Clauses that say a size: `6' x 1' 10" x 2' 10"`, `14" across x 24"`, `6' wide`, `2' deep`, `24" high`. */
function sizeClauses(cursor: Cursor, said: Sized): Pick<Clauses, "after" | "sizes"> {
  return {
    after: {
      across: (mm) => {
        said.across = mm;
        if (cursor.take(/(?:x|×|by)(?!\p{L})/iuy) !== undefined) said.height = cursor.length();
      },
      wide: (mm) => {
        said.width = mm;
      },
      deep: (mm) => {
        said.depth = mm;
      },
      high: (mm) => {
        said.height = mm;
      },
    },
    sizes: (sizes) => {
      if (sizes.length !== 3) cursor.fail("A piece has three sizes: how wide by how deep by how high.");
      [said.width, said.depth, said.height] = sizes as [number, number, number];
    },
  };
}

/** The size said, whole; undefined where none of it was; fails where a part is missing. */
function wholeSize(cursor: Cursor, said: Sized): Size | undefined {
  const { across, width, depth, height } = said;
  if (across === undefined && width === undefined && depth === undefined && height === undefined)
    return undefined;
  if (height === undefined) cursor.fail('How high is it? Say it like: 24" high');
  if (across !== undefined) return { shape: "cylinder", width: across, depth: across, height };
  if (width === undefined) cursor.fail("How wide is it? Say it like: 6' wide");
  if (depth === undefined) cursor.fail("How deep is it, front to back? Say it like: 2' deep");
  return { shape: "box", width, depth, height };
}

interface PieceSaid {
  weight?: number;
  sits?: boolean;
  layer?: Piece["layer"];
  minutes?: number;
  later?: boolean;
}

/** `piece Bench x4, 6' x 1' 10" x 2' 10", sits, weighs 40 lb, 90 min each` */
export function readPiece(cursor: Cursor, draft: Draft): void {
  const start = cursor.skip();
  const name = nameBeforeSize(cursor);
  const taken = (): never => cursor.fail(`There is a piece ${name} already.`, start);
  const known = draft.known("pieces", keyOf("", name), taken);
  const count = cursor.take(/[x×](?= ?\d)/iuy) === undefined ? 1 : cursor.count();
  const size: Sized = {};
  const said: PieceSaid = {};
  readClauses(cursor, { ...sizeClauses(cursor, size), ...pieceWords(cursor, said) });
  const whole = wholeSize(cursor, size);
  const { later, layer = "furniture", sits = false, ...fields } = said;
  const id = known?.id ?? draft.freshId("pieces", `piece.${slug(name, 40, "piece")}`);
  keepsCopies(cursor, draft, id, { had: known?.count ?? 0, has: count, name });
  const order = known?.order ?? draft.nextOrder("pieces");
  draft.put("pieces", {
    id,
    name: draft.called("pieces", known, name),
    order,
    layer,
    count,
    sits,
    ...fields,
  });
  // A size in the piece's own line is its first solid; lines of solids then add to it.
  draft.piece = { id, spare: whole === undefined ? {} : { solids: [] } };
  draft.sizeless.delete(id);
  if (whole !== undefined) onlySolid(draft, id, { ...AT_ORIGIN, ...whole });
  else if (later !== true && draft.madeOf("solids", id).length === 0) {
    draft.sizeless.set(id, { line: draft.line, text: cursor.raw });
  }
  draft.last = id;
}

function pieceWords(cursor: Cursor, said: PieceSaid): Pick<Clauses, "before" | "others"> {
  const layer = (of: Piece["layer"]) => () => {
    if (said.layer !== undefined) cursor.fail("A piece is one of furniture, accessory, fitting and hung.", 0);
    said.layer = of;
  };
  return {
    before: {
      sits: () => {
        said.sits = true;
      },
      weighs: () => {
        const at = cursor.skip();
        const written = cursor.take(/[\d.,]*\d\s*[\p{L}]+\.?/uy)?.[0] ?? "";
        const weight = parseWeight(written);
        if (!weight.ok) cursor.fail(weight.reason, at);
        said.weight = weight.value;
      },
      furniture: layer("furniture"),
      accessory: layer("accessory"),
      fitting: layer("fitting"),
      hung: layer("hung"),
      "no size yet": () => {
        said.later = true;
      },
    },
    others: [
      {
        is: /\d+(?:[.,]\d+)? ?(?:days?|hours?|hrs?|h|minutes?|mins?)(?!\p{L})/iuy,
        read: () => {
          said.minutes = cursor.span();
          cursor.takeWord("each");
        },
      },
    ],
  };
}

/** A count may not fall below a copy that stands somewhere: nothing is lost by pasting. */
function keepsCopies(
  cursor: Cursor,
  draft: Draft,
  piece: string,
  count: { readonly had: number; readonly has: number; readonly name: string },
): void {
  for (let number = count.has + 1; number <= count.had; number++) {
    const key = keyOf(piece, String(number));
    const inUse = draft.find("placements", key) ?? draft.find("mounts", key);
    if (inUse === undefined) continue;
    cursor.fail(`${count.name} ${number} stands in a room already; take it out there before counting fewer.`);
  }
}

type SolidSaid = Omit<Solid, "id" | "piece" | "order">;
const AT_ORIGIN = { x: 0, y: 0, z: 0, turn: 0 } as const;

/** What made a piece before its line was said again; its ids are given to what makes it now, in order. */
function clear(draft: Draft, table: "solids" | "parts", piece: string): string[] {
  const old = draft.madeOf(table, piece).splice(0);
  for (const id of old) draft.drop(table, id);
  return old;
}

/** Puts one solid in place of whatever the piece was made of. */
function onlySolid(draft: Draft, piece: string, solid: SolidSaid): void {
  const [id = draft.freshId("solids", `${piece}.solid.1`)] = clear(draft, "solids", piece);
  draft.put("solids", { ...solid, id, piece, order: 0 });
  draft.madeOf("solids", piece).push(id);
}

/** The piece that lines of solids and parts belong to; fails where none was named. */
function pieceHere(cursor: Cursor, draft: Draft): NonNullable<Draft["piece"]> {
  return (
    draft.piece ?? cursor.fail("Which piece is this part of? Name it in a line above, like: piece Booth", 0)
  );
}

/** Where the next solid or part of the piece goes: its id and its order. */
function nextMade(draft: Draft, table: "solids" | "parts"): { readonly id: string; readonly order: number } {
  const piece = draft.piece!;
  piece.spare[table] ??= clear(draft, table, piece.id);
  const ids = draft.madeOf(table, piece.id);
  const order = ids.length;
  const word = table === "solids" ? "solid" : "part";
  const id = piece.spare[table].shift() ?? draft.freshId(table, `${piece.id}.${word}.${order + 1}`);
  ids.push(id);
  return { id, order };
}

function addSolid(cursor: Cursor, draft: Draft, solid: SolidSaid): void {
  const piece = pieceHere(cursor, draft);
  if (piece.spare.solids !== undefined && draft.madeOf("solids", piece.id).length >= MOST_SOLIDS) {
    cursor.fail(`At most ${MOST_SOLIDS} parts make a piece.`, 0);
  }
  draft.put("solids", { ...solid, piece: piece.id, ...nextMade(draft, "solids") });
  draft.sizeless.delete(piece.id);
  draft.last = piece.id;
}

/** `box 5' x 3' x 7', at 6" right, 4" back, up 2', turn 15`: one part of the piece named above; cylinders alike. */
export function readSolid(cursor: Cursor, draft: Draft, shape: Solid["shape"]): void {
  const size: Sized = {};
  const place = { x: 0, y: 0, z: 0, turn: 0 };
  let outline: [number, number][] | undefined;
  readClauses(cursor, {
    ...sideClauses(cursor, size, place),
    before: {
      ...placeWords(cursor, place),
      ...(shape === "outline"
        ? {
            corners: () => {
              outline = outlineAt(cursor);
            },
          }
        : {}),
    },
  });
  if (outline !== undefined) {
    size.width ??= extent(outline.map(([x]) => x));
    size.depth ??= extent(outline.map(([, y]) => y));
    if (size.width <= 0 || size.depth <= 0) cursor.fail("This outline has no area.", 0);
  } else if (shape === "outline") {
    cursor.fail('An outline needs its corners, like: corners (0", 0") (2\', 0") (1\', 18")');
  }
  const whole = wholeSize(cursor, size) ?? cursor.fail("How big is it? Say it like: 5' x 3' x 7'");
  if ((shape === "cylinder") !== (whole.shape === "cylinder")) {
    cursor.fail(
      shape === "cylinder"
        ? 'A cylinder is so much across: 14" across x 24"'
        : "Only a cylinder is so much across.",
      0,
    );
  }
  addSolid(cursor, draft, { ...place, ...whole, shape, ...(outline === undefined ? {} : { outline }) });
}

type Place = { x: number; y: number; z: number; turn: number };

function placeWords(cursor: Cursor, place: Place): { readonly [word: string]: () => void } {
  return {
    // The word before a first figure of place; the figures bring their own words.
    at: () => undefined,
    up: () => {
      place.z = cursor.length({ zero: true });
    },
    turn: () => {
      place.turn = cursor.angle();
    },
  };
}

function sideClauses(cursor: Cursor, size: Sized, place: Place): Pick<Clauses, "after" | "sizes" | "signed"> {
  const sizes = sizeClauses(cursor, size);
  const real = Object.entries(sizes.after ?? {}).map(([word, reader]) => [
    word,
    (mm: number): void => {
      if (mm <= 0) cursor.fail("A size of nothing or less cannot be built. Is a number missing?");
      reader(mm);
    },
  ]);
  return {
    ...sizes,
    signed: true,
    after: {
      ...(Object.fromEntries(real) as Clauses["after"]),
      right: (mm) => {
        place.x = mm;
      },
      left: (mm) => {
        place.x = 0 - mm;
      },
      back: (mm) => {
        place.y = mm;
      },
      forward: (mm) => {
        place.y = 0 - mm;
      },
    },
  };
}

/** `part 4 x 5' from Lath`: lengths of the piece named above, for each copy of it. */
export function readPart(cursor: Cursor, draft: Draft): void {
  const piece = pieceHere(cursor, draft).id;
  const times = cursor.take(/(\d+) ?[x×](?!\p{L})/iuy)?.[1];
  const count = times === undefined ? 1 : Number(times);
  if (count < 1 || count > MOST_PARTS) cursor.fail("A piece has from 1 to 10,000 parts of one length.", 0);
  const length = cursor.length();
  cursor.separators();
  if (!cursor.takeWord("from")) cursor.fail("Which stick is it cut from? Say it like: part 4 x 5' from Lath");
  const stock = stockAt(cursor, draft, "stick").id;
  cursor.finish();
  draft.put("parts", { ...nextMade(draft, "parts"), piece, stock, length, count });
  draft.last = piece;
}

/** Corners `(x, y)` one behind the other: to the right and to the back. */
function outlineAt(cursor: Cursor): [number, number][] {
  const start = cursor.skip();
  const points: [number, number][] = [];
  while (cursor.take(/\(/y) !== undefined) {
    const x = cursor.length({ zero: true, signed: true });
    cursor.separators();
    const y = cursor.length({ zero: true, signed: true });
    if (cursor.take(/\)/y) === undefined) cursor.fail("A corner is written in brackets, like (2', 18\").");
    points.push([x, y]);
    if (points.length > 200) cursor.fail("At most 200 corners make an outline.", start);
    cursor.separators();
  }
  if (points.length < 3) cursor.fail("An outline has at least three corners, each like (2', 18\").", start);
  return points;
}

function extent(values: readonly number[]): number {
  return Math.round((Math.max(...values) - Math.min(...values)) * 1e6) / 1e6;
}
