/** What every written line needs: lengths in the show's style, corners and walls by name, and names that stay apart. */
import { listed, showOf } from "../document/tables.ts";
import type { Room, ShowDocument, Units } from "../document/tables.ts";
import { exactLength, plainDecimal } from "../units/length.ts";
import { LINE_WORDS } from "./read.ts";
import { writtenName } from "./names.ts";

/** A document being written, with the names its things go by: of two of one name the second gets " (2)". */
export class Writing {
  readonly document: ShowDocument;
  readonly units: Units;
  readonly #names = new Map<string, ReadonlyMap<string, string>>();

  constructor(document: ShowDocument) {
    this.document = document;
    this.units = showOf(document).units;
  }

  /** A length so that it reads back as the same number. */
  length(mm: number): string {
    return exactLength(mm, this.units);
  }

  /** What a record goes by among those of its scope; `named` gives the scope's records, once. */
  name(scope: string, id: string, named: () => readonly Named[]): string {
    const known = this.#names.get(scope) ?? distinct(named());
    this.#names.set(scope, known);
    return known.get(id) ?? "";
  }

  /** A piece's name as a line holds it. */
  piece(id: string): string {
    return writtenName(this.name("pieces", id, () => listed(this.document.pieces)));
  }

  /** A stock's name as it stands behind `from`: everything up to a comma. */
  stock(id: string): string {
    return upToComma(this.name("stocks", id, () => listed(this.document.stocks)));
  }

  /** A room's name. */
  room(id: string): string {
    return this.name("rooms", id, () => listed(this.document.rooms));
  }

  /** A corner as a line holds it. */
  corner(id: string | undefined): string {
    return cornerWord((id === undefined ? undefined : this.document.corners[id]?.name) ?? "?");
  }

  /** A wall by its corners. */
  wall(on: { readonly from: string; readonly to: string }): string {
    return `${this.corner(on.from)}-${this.corner(on.to)}`;
  }

  /** A place in a room: along the first wall, and in. */
  where(room: Room | undefined, at: { readonly x: number; readonly y: number }): string {
    const inward = room?.turn === "counterclockwise" ? at.y : 0 - at.y;
    return `${this.length(at.x)} along, ${this.length(inward)} in`;
  }
}

interface Named {
  readonly id: string;
  readonly name: string;
}

/** Records of a room in their order. */
export function inRoom<R extends { readonly id: string; readonly order: number; readonly room: string }>(
  table: { readonly [id: string]: R },
  room: string,
): readonly R[] {
  return listed(table).filter((record) => record.room === room);
}

/** Names by record id; the second of one name gets " (2)" so that the two stay two. */
export function distinct(records: readonly Named[]): ReadonlyMap<string, string> {
  const taken = new Set(records.map((record) => record.name.toLowerCase()));
  const used = new Set<string>();
  return new Map(
    records.map(({ id, name }) => {
      let said = name;
      for (let number = 2; used.has(said.toLowerCase()); number++) {
        const next = `${name.slice(0, 190)} (${number})`;
        if (!taken.has(next.toLowerCase()) || used.has(next.toLowerCase())) said = next;
      }
      used.add(said.toLowerCase());
      return [id, said];
    }),
  );
}

/** A corner as a line holds it: plain where it is letters and digits and no word that begins a line. */
export function cornerWord(name: string): string {
  const plain =
    /^[\p{L}\p{N}]+$/u.test(name) && !LINE_WORDS.has(name.toLowerCase()) && !/^(to|is|by)$/iu.test(name);
  return plain ? name : `"${name.replaceAll('"', '""')}"`;
}

/** A name that ends at a comma. */
export function upToComma(name: string): string {
  return /[,;"\u201c\u201d]/.test(name) || name !== name.trim() || /[^\S ]|\s{2}/u.test(name)
    ? `"${name.replaceAll('"', '""')}"`
    : name;
}

/** `2` for "Door 2", the name in its own spelling otherwise. */
export function titled(title: string, name: string): string {
  const number = new RegExp(`^${title} ([1-9]\\d{0,3})$`, "u").exec(name)?.[1];
  return number ?? writtenName(name);
}

/** A turn as a clause with its comma; nothing for none. */
export function turned(turn: number): string {
  return turn === 0 ? "" : `, turn ${plainDecimal(turn)}`;
}
