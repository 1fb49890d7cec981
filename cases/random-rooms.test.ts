/**
 * Two hundred rooms without a right angle and with three heights through the whole pipeline: nothing may read a
 * bounding box for a room. The rooms, and what is inside and outside of them, come from a generator and a point
 * test that share no code with the engine.
 */
import { bookOf } from "../engine/src/testing/book-of.ts";
import { describe, expect, it } from "vitest";
import { book } from "../engine/src/book/book.ts";
import { planAndCutOuts } from "../engine/src/arrange/cutouts.ts";
import { roomSheet } from "../engine/src/arrange/sheet.ts";
import { createDerive } from "../engine/src/derive.ts";
import { EMPTY_SHOW, SHOW_ID, type ShowDocument, type Units } from "../engine/src/document/tables.ts";
import type { Point } from "../engine/src/plane/point.ts";
import { TRUE_PRINTER, type Sheet, type Stroke } from "../engine/src/sheet/vocabulary.ts";
import { checkKnown } from "../engine/src/testing/known-lengths.ts";
import { readPdf } from "../engine/src/testing/read-pdf.ts";
import { readSvg } from "../engine/src/testing/read-svg.ts";
import { randomRoom, type RandomRoom } from "../engine/src/testing/rooms.ts";
import { sheetFonts } from "../engine/src/testing/sheet-fonts.ts";
import { writePdf } from "../engine/src/write/pdf.ts";
import { writeSvg } from "../engine/src/write/svg.ts";

const ROOMS = 200;
/** Every so many rooms the written file is read back; of each the drawn points are held to the known lengths. */
const SVG_EVERY = 10;
const PDF_EVERY = 25;
/** mm in the room, and on paper. */
const TRUE_PLACE = 1;
const TRUE_TO = 0.1;
/** Side of a piece, mm. */
const SIDE = 150;

const stamp = { show: "Rooms", date: "25 Nov 2026", state: "draft" };
const seeds = Array.from({ length: ROOMS }, (_, seed) => seed);
const furnishedRooms = seeds.map(furnished);

interface Furnished extends RandomRoom {
  /** Placement ids of pieces inside, and of one outside but within the upright box round the room. */
  readonly inside: readonly string[];
  readonly outside: string;
}

/** The room of a seed in feet or metres, with small pieces in the middle of triangles of its floor and one outside. */
function furnished(seed: number): Furnished {
  const room = randomRoom(seed);
  const units: Units = seed % 2 === 0 ? "ft-in" : "mm";
  const inside = room.corners
    .flatMap((_, k) => {
      const middle = middleOf([k, k + 1, k + 2].map((i) => room.corners[i % room.corners.length]!));
      return isClear(room.corners, middle, 1) ? [middle] : [];
    })
    .slice(0, 4);
  const outside = besideRoom(room.corners);
  const places = [...inside, outside];
  const document: ShowDocument = {
    ...room.document,
    shows: { [SHOW_ID]: { ...EMPTY_SHOW, id: SHOW_ID, name: "Rooms", units } },
    pieces: {
      p: { id: "p", name: "Block", order: 0, layer: "furniture", count: places.length, sits: false },
    },
    solids: {
      s: {
        id: "s",
        piece: "p",
        order: 0,
        shape: "box",
        x: 0,
        y: 0,
        z: 0,
        turn: 0,
        width: SIDE,
        depth: SIDE,
        height: SIDE,
      },
    },
    placements: Object.fromEntries(
      places.map(({ x, y }, k) => [
        `at${k}`,
        { id: `at${k}`, piece: "p", room: "room", number: k + 1, x, y, turn: (37 * k) % 360, up: 0 },
      ]),
    ),
  };
  return { ...room, document, inside: inside.map((_, k) => `at${k}`), outside: `at${inside.length}` };
}

function middleOf(points: readonly Point[]): Point {
  const sum = points.reduce((a, b) => ({ x: a.x + b.x, y: a.y + b.y }), { x: 0, y: 0 });
  return { x: sum.x / points.length, y: sum.y / points.length };
}

/** Whether a point lies inside (`side` 1) or outside (-1) of the outline with a piece's reach to every wall. */
function isClear(corners: readonly Point[], { x, y }: Point, side: 1 | -1): boolean {
  let around = 0;
  let nearest = Infinity;
  corners.forEach((p, k) => {
    const q = corners[(k + 1) % corners.length]!;
    around += Math.atan2(
      (p.x - x) * (q.y - y) - (p.y - y) * (q.x - x),
      (p.x - x) * (q.x - x) + (p.y - y) * (q.y - y),
    );
    const [dx, dy] = [q.x - p.x, q.y - p.y];
    const part = Math.min(1, Math.max(0, ((x - p.x) * dx + (y - p.y) * dy) / (dx * dx + dy * dy)));
    nearest = Math.min(nearest, Math.hypot(p.x + dx * part - x, p.y + dy * part - y));
  });
  // The angles to all corners add to a whole turn about a point inside, to nothing about one outside.
  const within = Math.abs(around) > Math.PI;
  return nearest > SIDE && within === (side === 1);
}

/** The point of a fine raster over the upright box round the room that is outside it. */
function besideRoom(corners: readonly Point[]): Point {
  const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  for (let k = 0; k < 60 * 60; k++) {
    const point = {
      x: left + ((right - left) * ((k % 60) + 0.5)) / 60,
      y: low + ((high - low) * (Math.floor(k / 60) + 0.5)) / 60,
    };
    const boxed = point.x - SIDE > left && point.x + SIDE < right && point.y - SIDE > low;
    if (boxed && point.y + SIDE < high && isClear(corners, point, -1)) return point;
  }
  throw new Error("a room without a right angle leaves a corner of its box free");
}

/** The same readings with the corners said to run the other way. */
function mirrored(document: ShowDocument): ShowDocument {
  const placements = Object.fromEntries(
    Object.entries(document.placements).map(([id, one]) => [
      id,
      // The front is mirrored too: what looked along -y looks along +y.
      { ...one, y: -one.y, turn: (540 - one.turn) % 360 },
    ]),
  );
  const room = document.rooms["room"]!;
  return { ...document, placements, rooms: { room: { ...room, turn: "counterclockwise" } } };
}

const known = new WeakMap<ShowDocument, ReturnType<typeof derive>>();

/** One room's derived values; asked once for each document. */
function derived(document: ShowDocument): ReturnType<typeof derive> {
  const value = known.get(document) ?? derive(document);
  known.set(document, value);
  return value;
}

function derive(document: ShowDocument) {
  const { arrangements, rooms, snags } = createDerive()(document);
  const [arrangement, room] = [arrangements[0], rooms[0]];
  if (!arrangement || !room) throw new Error("the document has one room");
  return { arrangement, room, snags };
}

function sheetsOf(document: ShowDocument, paper: "letter" | "a4"): readonly Sheet[] {
  const { arrangement, snags } = derived(document);
  return [
    ...book(bookOf([arrangement], document, snags), document, { stamp, paper }),
    planAndCutOuts(arrangement, document, { stamp, paper, correction: TRUE_PRINTER }).sheet,
    roomSheet(arrangement, document, { snags, stamp }),
  ];
}

/** Corner heights of a wall as its elevation draws them: the tops over its left and right end, mm. */
function topsOf(sheet: Sheet, wall: string): readonly [number, number] {
  const frame = sheet.frames.find((one) => one.wall === wall);
  const face = sheet.items.find(
    (item): item is Stroke =>
      item.kind === "stroke" &&
      item.record === wall &&
      item.closed === true &&
      item.points.some(({ x, y }) => x === frame?.origin.x && y === frame.origin.y),
  );
  if (!frame || !face) throw new Error(`no elevation of ${wall} is drawn`);
  const up = face.points.map(({ x, y }) => ({
    x: x - frame.origin.x,
    up: (frame.origin.y - y) * frame.scale,
  }));
  const tops = up.filter((point) => point.up > 1).toSorted((a, b) => a.x - b.x);
  return [tops[0]!.up, tops.at(-1)!.up];
}

function strokePoints(sheet: Sheet): readonly Point[] {
  return sheet.items.flatMap((item) => (item.kind === "stroke" ? item.points : []));
}

describe("rooms without a right angle", () => {
  it("are placed within 1 mm of the truth by exact readings, heights and all", () => {
    for (const seed of seeds) {
      const { corners, heights, document } = furnishedRooms[seed]!;
      const { room } = derived(document);
      expect(room.settled, `room ${seed}`).toBe(true);
      room.corners.forEach(({ x, y, height }, k) => {
        const off = Math.hypot(x - corners[k]!.x, y - corners[k]!.y);
        expect(off, `room ${seed}, corner ${k}`).toBeLessThan(TRUE_PLACE);
        expect(height).toBeCloseTo(heights[k]!, 6);
      });
    }
  });

  it("hold what stands inside and stop only what stands outside, though within the box round the room", () => {
    expect(furnishedRooms.reduce((sum, { inside }) => sum + inside.length, 0)).toBeGreaterThan(2 * ROOMS);
    for (const seed of seeds) {
      const { document, outside } = furnishedRooms[seed]!;
      const stopped = derived(document).snags.filter(({ rule }) => rule === "outside-room");
      expect(
        stopped.map(({ things, level }) => [things[0], level]),
        `room ${seed}`,
      ).toEqual([[outside, "stop"]]);
    }
  });

  it("named the other way round give the mirror image", () => {
    for (const seed of seeds) {
      const { document } = furnishedRooms[seed]!;
      const [one, other] = [derived(document), derived(mirrored(document))];
      one.room.corners.forEach(({ x, y, angle }, k) => {
        const there = other.room.corners[k]!;
        expect(Math.hypot(there.x - x, there.y + y), `room ${seed}, corner ${k}`).toBeLessThan(0.01);
        expect(there.angle).toBeCloseTo(angle, 4);
      });
      expect(other.room.area).toBeCloseTo(one.room.area, -1);
      const rules = (snags: typeof one.snags): readonly string[] =>
        snags.map(({ rule, level, things }) => `${level} ${rule} ${things.join(" ")}`).toSorted();
      expect(rules(other.snags), `room ${seed}`).toEqual(rules(one.snags));
    }
  });

  it("have walls whose tops run from corner height to corner height, as seen from inside", () => {
    for (const seed of seeds) {
      const { document, heights } = furnishedRooms[seed]!;
      for (const turned of [false, true]) {
        const show = turned ? mirrored(document) : document;
        const { arrangement, room } = derived(show);
        const sheet = roomSheet(arrangement, show);
        room.walls.forEach(({ id }, k) => {
          const ends = [heights[k]!, heights[(k + 1) % heights.length]!];
          // Corners run clockwise as one stands inside, so a wall's first corner is at its left.
          const [left, right] = topsOf(sheet, id);
          const wanted = turned ? ends.toReversed() : ends;
          expect(left, `room ${seed}, wall ${id}`).toBeCloseTo(wanted[0]!, 3);
          expect(right, `room ${seed}, wall ${id}`).toBeCloseTo(wanted[1]!, 3);
        });
      }
    }
  });

  it("are drawn with every named length true, on both papers", () => {
    for (const seed of seeds) {
      const { document } = furnishedRooms[seed]!;
      const show = seed % 3 === 0 ? mirrored(document) : document;
      const sheets = sheetsOf(show, seed % 4 < 2 ? "letter" : "a4");
      for (const sheet of sheets.filter(({ scale }) => scale !== undefined)) {
        const points = seed % SVG_EVERY === 0 ? readSvg(writeSvg(sheet)).points : strokePoints(sheet);
        const off = checkKnown(sheet, points).filter((one) => !(Math.abs(one.off) <= TRUE_TO));
        expect(off, `room ${seed}, ${sheet.id}`).toEqual([]);
      }
    }
  });

  it.each(seeds.filter((seed) => seed % PDF_EVERY === 0))("room %i is printed true", async (seed) => {
    const sheets = sheetsOf(furnishedRooms[seed]!.document, seed % 50 === 0 ? "letter" : "a4");
    const options = { fonts: sheetFonts(), title: "Rooms", created: "2026-11-25" };
    const pages = await readPdf(await writePdf(sheets, options));
    for (const [index, sheet] of sheets.entries()) {
      const off = checkKnown(sheet, pages[index]?.points ?? []);
      expect(
        off.filter((one) => !(Math.abs(one.off) <= TRUE_TO)),
        sheet.id,
      ).toEqual([]);
    }
  });
});
