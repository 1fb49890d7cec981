/** Types and names of the document's tables, free of the schema library so that a screen need not load it. */
import type { z } from "zod";
import type { Audience, TABLES } from "./schema.ts";

export type TableName = keyof typeof TABLES;
/** Readonly all the way down; lists stay lists and pairs stay pairs. */
type Plain<T> = T extends object ? { readonly [K in keyof T]: Plain<T[K]> } : T;
export type RecordOf<T extends TableName> = Plain<z.infer<(typeof TABLES)[T]["record"]>>;

/** All tables, each keyed by record id. Readonly all the way down. */
export type ShowDocument = { readonly [T in TableName]: { readonly [id: string]: RecordOf<T> } };

export type Show = RecordOf<"shows">;
export type Room = RecordOf<"rooms">;
export type Corner = RecordOf<"corners">;
export type Wall = RecordOf<"walls">;
export type Reading = RecordOf<"readings">;
export type Opening = RecordOf<"openings">;
export type Fixture = RecordOf<"fixtures">;
export type FixtureKind = Fixture["kind"];
export type Piece = RecordOf<"pieces">;
export type Solid = RecordOf<"solids">;
export type Part = RecordOf<"parts">;
export type Placement = RecordOf<"placements">;
export type Mount = RecordOf<"mounts">;
export type Stock = RecordOf<"stocks">;
export type Covering = RecordOf<"coverings">;
export type WallCovering = RecordOf<"wallCoverings">;
export type Trim = RecordOf<"trims">;
export type Neighbour = RecordOf<"neighbours">;
export type Shift = RecordOf<"shifts">;
export type Rate = RecordOf<"rates">;
export type Chore = RecordOf<"chores">;
export type Question = RecordOf<"questions">;
export type Note = RecordOf<"notes">;
export type Units = Show["units"];
export type Place = Show["place"];

/** Every table's audience; the schema file is held to this list by the type and by a test. */
export const AUDIENCE: { readonly [T in TableName]: Audience } = {
  shows: "show",
  rooms: "show",
  corners: "show",
  walls: "show",
  readings: "show",
  openings: "show",
  fixtures: "show",
  pieces: "show",
  solids: "show",
  parts: "show",
  placements: "show",
  mounts: "show",
  stocks: "show",
  coverings: "show",
  wallCoverings: "show",
  trims: "show",
  neighbours: "show",
  shifts: "show",
  rates: "show",
  chores: "show",
  questions: "show",
  notes: "show",
  jottings: "private",
};

export const TABLE_NAMES = Object.keys(AUDIENCE) as readonly TableName[];

/** The id of the one record in `shows`. */
export const SHOW_ID = "show";

/** A show about which nothing has been said yet. */
export const EMPTY_SHOW: Show = {
  id: SHOW_ID,
  name: "My show",
  units: "ft-in",
  place: "",
  state: "draft",
  gridPitch: 6.35,
  gridSquare: 304.8,
  zone: "",
  currency: "",
  wage: 0,
  cardThickness: 1.5,
};

/** The document before anything is said: every table there, only the show record in it. */
export function emptyDocument(show: Show = EMPTY_SHOW): ShowDocument {
  const tables = Object.fromEntries(TABLE_NAMES.map((table) => [table, {}])) as unknown as ShowDocument;
  return { ...tables, shows: { [show.id]: show } };
}

/** The show record; a document without one answers with the empty show. */
export function showOf(document: ShowDocument): Show {
  return document.shows[SHOW_ID] ?? EMPTY_SHOW;
}

/** Records of a table in said order, ties by id: the one listing order everywhere. */
export function listed<R extends { readonly id: string; readonly order: number }>(table: {
  readonly [id: string]: R;
}): readonly R[] {
  return Object.values(table).toSorted((a, b) => a.order - b.order || (a.id < b.id ? -1 : 1));
}
