/** Lines about what is on a wall: doors and windows, and the venue's own things to keep clear. */
import type { Corner, Fixture, FixtureKind, Opening } from "../document/tables.ts";
import { readClauses } from "./clauses.ts";
import { endAt, roomOf, wallAt } from "./corners.ts";
import type { Cursor } from "./cursor.ts";
import { keyOf, placeKey, readingKey } from "./draft.ts";
import type { Draft } from "./draft.ts";
import { slug } from "./names.ts";

type Wall = readonly [Corner, Corner];

/** Longest text kept as typed. */
const TYPED_LIMIT = 2000;

/** A name (if one is said) and the wall behind the word `on`. */
export function headOf(
  cursor: Cursor,
  draft: Draft,
): { readonly name: string | undefined; readonly wall: Wall } {
  roomOf(cursor, draft);
  const start = cursor.skip();
  if (cursor.takeWord("on")) return { name: undefined, wall: wallAt(cursor, draft) };
  const quoted = cursor.quoted();
  if (quoted !== undefined) {
    const name = cursor.proper(quoted, start);
    if (!cursor.takeWord("on")) cursor.fail("On which wall is it? Write it like: on A-B");
    return { name, wall: wallAt(cursor, draft) };
  }
  const on = / on(?= )/iu.exec(cursor.text.slice(start));
  if (on === null) cursor.fail("On which wall is it? Write it like: on A-B, at 3' 2\" from A", start);
  const name = cursor.nameUntil(start + on.index);
  cursor.takeWord("on");
  return { name, wall: wallAt(cursor, draft) };
}

/** "Door 2" for `door 2`, the name itself otherwise. */
export function fullName(title: string, name: string): string {
  return /^\d{1,4}$/.test(name) ? `${title} ${Number(name)}` : name;
}

/** The first of "Door 1", "Door 2" ... that is free in the room. */
export function nextName(title: string, isTaken: (name: string) => boolean): string {
  for (let number = 1; ; number++) {
    const name = `${title} ${number}`;
    if (!isTaken(name)) return name;
  }
}

function typedOf(cursor: Cursor, from: number): string {
  return cursor.raw.slice(from).replaceAll("\t", " ").trim().slice(0, TYPED_LIMIT);
}

type Said<T> = { -readonly [K in keyof T]?: T[K] };

/** `door on A-B at 3' 2" from A, leaf 36", clear 34", casing 3 1/2", 80" high, hinge A, opens in`; windows alike. */
export function readOpening(cursor: Cursor, draft: Draft, kind: Opening["kind"], line: number): void {
  const { name, wall } = headOf(cursor, draft);
  const said: Said<Opening> = {};
  readClauses(cursor, openingClauses(cursor, draft, wall, said));
  const { datum, offset, width, height } = said;
  if (datum === undefined || offset === undefined) {
    cursor.fail(`Where on the wall does it begin? Say it like: at 3' 2" from ${wall[0].name}`);
  }
  if (width === undefined)
    cursor.fail(
      kind === "door"
        ? 'How wide is its leaf? Say it like: leaf 36"'
        : "How wide is it? Say it like: 5' wide",
    );
  if (height === undefined) cursor.fail('How high is it? Say it like: 80" high');
  const sill = said.sill ?? (kind === "door" ? 0 : undefined);
  if (sill === undefined) cursor.fail('How high above the floor does it begin? Say it like: sill 30"');
  fitsWall(cursor, draft, wall, width);
  const room = wall[0].room;
  const place = { room, kind, from: wall[0].id, to: wall[1].id, datum, offset };
  const title = kind === "door" ? "Door" : "Window";
  const called = name === undefined ? undefined : fullName(title, name);
  const key = (of: string): string => keyOf(room, "name", kind, of);
  const taken = (): never => cursor.fail("There is such an opening already.", 0);
  const known = draft.known("openings", called === undefined ? placeKey(place) : key(called), taken);
  const finalName =
    called ?? known?.name ?? nextName(title, (of) => draft.find("openings", key(of)) !== undefined);
  const id = known?.id ?? draft.freshId("openings", `${room}.${kind}.${slug(finalName, 32, kind)}`);
  const order = known?.order ?? draft.nextOrder("openings", room);
  const rest = { width, height, sill, typed: typedOf(cursor, line) };
  draft.put("openings", { ...said, ...place, ...rest, id, order, name: finalName });
}

function openingClauses(cursor: Cursor, draft: Draft, wall: Wall, said: Said<Opening>) {
  const set = (field: "width" | "height" | "clear" | "casing" | "sill") => (mm: number) => {
    said[field] = mm;
  };
  const taken = (field: "width" | "height" | "clear" | "casing" | "sill", zero = false) => {
    const reader = set(field);
    return () => reader(cursor.length({ zero }));
  };
  const hinge = (): void => {
    cursor.takeWord("at");
    said.hinge = endAt(cursor, draft, wall).id;
  };
  return {
    before: {
      at: () => offsetFrom(cursor, draft, wall, said),
      leaf: taken("width"),
      wide: taken("width"),
      clear: taken("clear"),
      casing: taken("casing", true),
      high: taken("height"),
      sill: taken("sill", true),
      hinge,
      hinges: hinge,
      hinged: hinge,
      opens: () => {
        const way = cursor.take(/(in|out)(?:ward|wards)?(?!\p{L})/iuy)?.[1]?.toLowerCase();
        if (way === undefined) cursor.fail("Does it open in or out?");
        said.opens = way === "in" ? "in" : "out";
      },
    },
    after: {
      wide: set("width"),
      high: set("height"),
      leaf: set("width"),
      clear: set("clear"),
      casing: set("casing"),
      sill: set("sill"),
    },
    sizes: (sizes: readonly number[]) => {
      if (sizes.length !== 2) cursor.fail("An opening has two sizes: how wide by how high.");
      [said.width, said.height] = sizes as [number, number];
    },
  };
}

/** `at L from C`: how far from which end of the wall. */
export function offsetFrom(
  cursor: Cursor,
  draft: Draft,
  wall: Wall,
  said: { datum?: string; offset?: number },
): void {
  said.offset = cursor.length({ zero: true });
  if (!cursor.takeWord("from")) {
    cursor.fail(`From which corner? Say from ${wall[0].name} or from ${wall[1].name} behind it.`);
  }
  said.datum = endAt(cursor, draft, wall).id;
}

/** What the wall's own reading already contradicts is said at once; the rest is judged with the whole room. */
function fitsWall(cursor: Cursor, draft: Draft, wall: Wall, width: number): void {
  const [from, to] = wall;
  const key = readingKey({ room: from.room, kind: "distance", from: from.id, to: to.id });
  const reading = draft.find("readings", key);
  if (reading === undefined || width <= reading.value) return;
  cursor.fail(
    `This is wider than its wall: ${from.name} to ${to.name} is ${reading.typed}. Is a figure wrong?`,
    0,
  );
}

/** What may head a fixture line: the word, the kind it is, and the title its unnamed ones get. */
export const FIXTURE_WORDS: {
  readonly [word: string]: { readonly kind: FixtureKind; readonly title: string };
} = {
  outlet: { kind: "outlet", title: "Outlet" },
  socket: { kind: "outlet", title: "Outlet" },
  switch: { kind: "switch", title: "Switch" },
  "exit sign": { kind: "exit sign", title: "Exit sign" },
  alarm: { kind: "alarm", title: "Alarm" },
  "pull station": { kind: "alarm", title: "Pull station" },
  "smoke detector": { kind: "alarm", title: "Smoke detector" },
  extinguisher: { kind: "extinguisher", title: "Extinguisher" },
  sprinkler: { kind: "sprinkler", title: "Sprinkler" },
  thermostat: { kind: "thermostat", title: "Thermostat" },
  vent: { kind: "vent", title: "Vent" },
  panel: { kind: "panel", title: "Panel" },
  hatch: { kind: "hatch", title: "Hatch" },
  shutter: { kind: "hatch", title: "Shutter" },
  "roller shutter": { kind: "hatch", title: "Roller shutter" },
  radiator: { kind: "radiator", title: "Radiator" },
  projection: { kind: "projection", title: "Projection" },
  beam: { kind: "projection", title: "Beam" },
  column: { kind: "column", title: "Column" },
};

/** `outlet on C-D at 2' from C, up 16"`; every kind of fixture alike. */
export function readFixture(cursor: Cursor, draft: Draft, word: string, line: number): void {
  const of = FIXTURE_WORDS[word] as { kind: FixtureKind; title: string };
  const { name, wall } = headOf(cursor, draft);
  const said: Said<Fixture> = {};
  readClauses(cursor, fixtureClauses(cursor, draft, wall, { said, kind: of.kind }));
  const { datum, offset } = said;
  if (datum === undefined || offset === undefined) {
    cursor.fail(`Where on the wall is it? Say it like: at 2' from ${wall[0].name}`);
  }
  if (of.title === "Beam" && (said.up ?? 0) === 0) {
    cursor.fail("How high above the floor is its underside? Say it like: up 8' 2\"");
  }
  const sizes = fixtureSizes(cursor, of.kind, said);
  const room = wall[0].room;
  const place = { room, kind: of.kind, from: wall[0].id, to: wall[1].id, datum, offset, ...sizes };
  const called = name === undefined ? undefined : fullName(of.title, name);
  const key = (as: string): string => keyOf(room, "name", of.kind, as);
  const taken = (): never => cursor.fail("There is such a thing already.", 0);
  const known = draft.known("fixtures", called === undefined ? placeKey(place) : key(called), taken);
  const finalName =
    called ?? known?.name ?? nextName(of.title, (as) => draft.find("fixtures", key(as)) !== undefined);
  const kindWord = of.kind.replace(" ", "-");
  const id = known?.id ?? draft.freshId("fixtures", `${room}.${kindWord}.${slug(finalName, 32, kindWord)}`);
  const order = known?.order ?? draft.nextOrder("fixtures", room);
  draft.put("fixtures", { ...place, id, order, name: finalName, typed: typedOf(cursor, line) });
}

function fixtureClauses(
  cursor: Cursor,
  draft: Draft,
  wall: Wall,
  of: { readonly said: Said<Fixture>; readonly kind: FixtureKind },
) {
  const { said, kind } = of;
  type Field = "out" | "up" | "width" | "depth" | "height";
  const set = (field: Field) => (mm: number) => {
    said[field] = mm;
  };
  const taken = (field: Field) => {
    const reader = set(field);
    return () => reader(cursor.length({ zero: true }));
  };
  // What is on a wall stands out from it: how far is its depth. A sprinkler or a column stands that far in the room.
  const out: Field = kind === "sprinkler" || kind === "column" ? "out" : "depth";
  return {
    before: {
      at: () => offsetFrom(cursor, draft, wall, said),
      up: taken("up"),
      out: taken(out),
      off: taken("out"),
      in: taken("out"),
      wide: taken("width"),
      deep: taken("depth"),
      high: taken("height"),
    },
    after: { wide: set("width"), deep: set("depth"), high: set("height"), out: set(out), up: set("up") },
    sizes: (sizes: readonly number[]) => {
      const [width, second, third] = sizes as [number, number, number?];
      said.width = width;
      if (third !== undefined) Object.assign(said, { depth: second, height: third });
      else if (kind === "column" || kind === "projection") said.depth = second;
      else said.height = second;
    },
  };
}

/** Sizes as said; what this kind cannot be kept clear without is asked for. */
function fixtureSizes(
  cursor: Cursor,
  kind: FixtureKind,
  said: Said<Fixture>,
): { out: number; up: number; width: number; depth: number; height: number } {
  const solid = kind === "projection" || kind === "column";
  const { out = 0, width = 0, depth = 0, height = 0 } = said;
  if (solid && width === 0) cursor.fail("How wide is it along the wall? Say it like: 5' 2\" wide");
  if (solid && depth === 0)
    cursor.fail(
      kind === "column"
        ? 'How deep is it? Say it like: 12" deep'
        : "How far does it stand out? Say it like: out 1' 2 1/2\"",
    );
  const up = said.up ?? (solid ? 0 : undefined);
  if (up === undefined) {
    cursor.fail(
      kind === "sprinkler"
        ? "How high is its deflector above the floor? Say it like: up 10'"
        : 'How high above the floor does it begin? Say it like: up 16"',
    );
  }
  return { out, up, width, depth, height };
}
