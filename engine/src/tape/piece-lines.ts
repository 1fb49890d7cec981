/** Lines about pieces: what they are, the solids they are made of, and where their copies stand. */
import type { Piece, Solid } from "../document/tables.ts";
import { parseWeight } from "../units/figures.ts";
import { readClauses, seesSizes } from "./clauses.ts";
import type { Clauses } from "./clauses.ts";
import { roomOf } from "./corners.ts";
import type { Cursor } from "./cursor.ts";
import { keyOf } from "./draft.ts";
import type { Draft } from "./draft.ts";
import { placeAt } from "./room-lines.ts";
import { slug } from "./names.ts";

const COUNT = /[x×] ?\d+(?![\d.]|\s*\p{L}|\s*['"/])/iuy;
const MOST_SOLIDS = 200;

/** A name up to a comma, a count (`x4`), a size or the end of the line; or in quotes. */
export function nameBeforeSize(cursor: Cursor): string {
  const start = cursor.skip();
  const quoted = cursor.quoted();
  if (quoted !== undefined) return cursor.proper(quoted, start);
  const text = cursor.text;
  const end = start + cursor.rest().length;
  let until = start;
  for (; until < end && text[until] !== "," && text[until] !== ";"; until++) {
    if (until === start || text[until - 1] !== " ") continue;
    if (/[x×]/i.test(text[until] ?? "")) {
      COUNT.lastIndex = until;
      if (COUNT.test(text)) break;
    }
    if (/[\d.\u00bc-\u00be\u2150-\u215e]/.test(text[until] ?? "") && sizeStands(cursor, until)) break;
  }
  cursor.at = start;
  return cursor.nameUntil(until);
}

function sizeStands(cursor: Cursor, at: number): boolean {
  // A number in a name is common, a size without its comma rare: look for its joint before reading it in earnest.
  if (!/^[^,;]{0,60}(?:[x×]|by|across)/iu.test(cursor.text.slice(at, at + 80))) return false;
  const back = cursor.at;
  cursor.at = at;
  const stands = seesSizes(cursor) || acrossStands(cursor);
  cursor.at = back;
  return stands;
}

function acrossStands(cursor: Cursor): boolean {
  if (!cursor.seesLength()) return false;
  cursor.length();
  return cursor.word() === "across";
}

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

/** `piece Bench x4, 6' x 1' 10" x 2' 10", sits, weighs 40 lb` */
export function readPiece(cursor: Cursor, draft: Draft): void {
  const name = nameBeforeSize(cursor);
  const known = draft.find("pieces", keyOf("", name));
  const count = cursor.take(/[x×](?= ?\d)/iuy) === undefined ? undefined : cursor.count();
  const size: Sized = {};
  const said: { weight?: number; sits?: boolean; layer?: Piece["layer"]; later?: boolean } = {};
  readClauses(cursor, { ...sizeClauses(cursor, size), before: pieceWords(cursor, said) });
  const whole = wholeSize(cursor, size);
  const { later, ...fields } = said;
  const { layer = "furniture", sits = false, weight } = fields;
  const id = known?.id ?? draft.freshId("pieces", `piece.${slug(name, 40, "piece")}`);
  keepsCopies(cursor, draft, id, { had: known?.count ?? 0, has: count ?? 1, name });
  const order = known?.order ?? draft.nextOrder("pieces");
  draft.put("pieces", {
    id,
    name: known?.name ?? name,
    order,
    layer,
    count: count ?? 1,
    sits,
    ...(weight === undefined ? {} : { weight }),
  });
  draft.piece = { id, fresh: whole === undefined };
  draft.sizeless.delete(id);
  if (whole !== undefined) putSolids(draft, id, [{ ...AT_ORIGIN, ...whole }]);
  else if (later !== true && draft.solidsOf(id).length === 0) {
    draft.sizeless.set(id, { line: draft.line, text: cursor.raw });
  }
  draft.last = id;
}

function pieceWords(
  cursor: Cursor,
  said: { weight?: number; sits?: boolean; layer?: Piece["layer"]; later?: boolean },
): Clauses["before"] {
  return {
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
    accessory: () => {
      said.layer = "accessory";
    },
    furniture: () => {
      said.layer = "furniture";
    },
    "no size yet": () => {
      said.later = true;
    },
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
    if (draft.find("placements", keyOf(piece, String(number))) === undefined) continue;
    cursor.fail(`${count.name} ${number} stands in a room already; take it out there before counting fewer.`);
  }
}

type SolidSaid = Omit<Solid, "id" | "piece" | "order">;
const AT_ORIGIN = { x: 0, y: 0, z: 0, turn: 0 } as const;

/** Puts these solids in place of whatever the piece was made of. */
function putSolids(draft: Draft, piece: string, solids: readonly SolidSaid[]): void {
  const ids = draft.solidsOf(piece);
  const old = ids.splice(0);
  for (const [order, solid] of solids.entries()) {
    const id = old[order] ?? draft.freshId("solids", `${piece}.solid.${order + 1}`);
    draft.put("solids", { ...solid, id, piece, order });
    ids.push(id);
  }
  for (const id of old.slice(solids.length)) draft.drop("solids", id);
}

function addSolid(cursor: Cursor, draft: Draft, solid: SolidSaid): void {
  const piece = draft.piece;
  if (piece === undefined)
    cursor.fail("Which piece is this part of? Name it in a line above, like: piece Booth", 0);
  const ids = draft.solidsOf(piece.id);
  if (piece.fresh) putSolids(draft, piece.id, [solid]);
  else {
    if (ids.length >= MOST_SOLIDS) cursor.fail(`At most ${MOST_SOLIDS} parts make a piece.`, 0);
    const id = draft.freshId("solids", `${piece.id}.solid.${ids.length + 1}`);
    draft.put("solids", { ...solid, id, piece: piece.id, order: draft.nextOrder("solids", piece.id) });
    ids.push(id);
  }
  piece.fresh = false;
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

/** `place Bench 2 at 3' along, 2' 6" in, turn 90` */
export function readPlacement(cursor: Cursor, draft: Draft): void {
  const room = roomOf(cursor, draft);
  const { piece, number } = copyAt(cursor, draft);
  if (!cursor.takeWord("at")) cursor.fail("Where does it stand? Say it like: at 3' along, 2' 6\" in");
  const place = placeAt(cursor, draft);
  let turn = 0;
  readClauses(cursor, {
    before: {
      turn: () => {
        turn = cursor.angle();
      },
    },
  });
  const known = draft.find("placements", keyOf(piece.id, String(number)));
  const id = known?.id ?? draft.freshId("placements", `${piece.id}.at.${number}`);
  draft.put("placements", { id, piece: piece.id, room: room.id, number, ...place, turn, up: 0 });
}

/** Which copy of which piece: `Bench 2`, `"Bench at sea" 2`, `Gangplank`. */
function copyAt(cursor: Cursor, draft: Draft): { readonly piece: Piece; readonly number: number } {
  const start = cursor.skip();
  const quoted = cursor.quoted();
  const written = quoted ?? cursor.nameUntil(start + Math.max(cursor.rest().search(/ at (?!.* at )/iu), 0));
  const whole = draft.find("pieces", keyOf("", written));
  if (whole !== undefined) {
    const number = cursor.word() === "" && !cursor.atEnd() ? cursor.count() : 1;
    return { piece: whole, number: counted(cursor, whole, number, start) };
  }
  const parts = quoted === undefined ? /^(.*\S)\s+(\d{1,6})$/u.exec(written) : null;
  const piece = parts === null ? undefined : draft.find("pieces", keyOf("", parts[1] ?? ""));
  if (piece === undefined)
    return cursor.fail(`There is no piece "${written}" yet. Name it in a line above.`, start);
  return { piece, number: counted(cursor, piece, Number(parts?.[2]), start) };
}

function counted(cursor: Cursor, piece: Piece, number: number, at: number): number {
  if (number >= 1 && number <= piece.count) return number;
  return cursor.fail(`There ${piece.count === 1 ? "is" : "are"} only ${piece.count} of ${piece.name}.`, at);
}
