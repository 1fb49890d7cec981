import { describe, expect, test } from "vitest";
import type { Fixture, Opening, Reading, ShowDocument } from "../document/tables.ts";
import type { RuleId } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { roomDocument } from "../testing/rooms.ts";
import { measureRooms } from "./derive.ts";
import { measureSnags } from "./rules.ts";

const IN = 25.4;
const feet = (whole: number, inches = 0): number => (whole * 12 + inches) * IN;

type Distance = readonly [number, number, number];

const WALLS: readonly Distance[] = [
  [0, 1, feet(24)],
  [1, 2, feet(16, 6)],
  [2, 3, feet(24, 1.25)],
  [3, 0, feet(16, 5.375)],
];
const DIAGONALS: readonly Distance[] = [
  [0, 2, feet(29, 2)],
  [1, 3, feet(29, 1.625)],
];
const HEIGHTS = [feet(10, 2), feet(10, 1.5), feet(10, 2.75), feet(10, 2.25)];

function show(distances: readonly Distance[], heights: readonly number[] = HEIGHTS, count = 4): ShowDocument {
  return roomDocument(
    count,
    distances.map(([from, to, value]) => ({ from, to, value })),
    heights,
  );
}

function snags(document: ShowDocument, rule?: RuleId): readonly Snag[] {
  const all = measureSnags(measureRooms(document), document);
  return rule ? all.filter((snag) => snag.rule === rule) : all;
}

const BRACED = show([...WALLS, ...DIAGONALS]);

function withOpening(document: ShowDocument, fields: Partial<Opening>): ShowDocument {
  const door: Opening = {
    id: "door",
    room: "room",
    name: "Door 1",
    order: 0,
    kind: "door",
    from: "A",
    to: "B",
    datum: "A",
    offset: feet(3, 2),
    width: 36 * IN,
    height: 80 * IN,
    sill: 0,
    typed: "",
    ...fields,
  };
  return { ...document, openings: { ...document.openings, [door.id]: door } };
}

test("a room measured well, with every height, has no snag at all", () => {
  expect(snags(withOpening(BRACED, {}))).toEqual([]);
});

/** A pentagon with all ten distances, so that a blunder can be named. */
const FIVE = [
  [0, 0],
  [5200, 0],
  [6100, -3300],
  [2700, -5100],
  [-300, -3600],
] as const;
function pentagon(blunder: number): ShowDocument {
  const distances = FIVE.flatMap(([x, y], a) =>
    FIVE.slice(a + 1).map(([u, v], k): Distance => {
      const b = a + 1 + k;
      return [a, b, Math.hypot(x - u, y - v) + (a === 1 && b === 4 ? blunder : 0)];
    }),
  );
  return show(distances, [2500, 2510, 2520, 2500, 2490], 5);
}

describe("reading-suspect", () => {
  test("one diagonal three inches out is named, with what the others say", () => {
    const [snag, ...more] = snags(pentagon(3 * IN), "reading-suspect");
    expect(more).toEqual([]);
    const truth = Math.hypot(5500, 3600);
    expect(snag!.wanted).toBeCloseTo(truth, 3);
    expect(snag!.sentence).toBe(`B to E says 21' 9 13/16"; the others say 21' 6 13/16".`);
    expect(snag!.measured).toBeCloseTo(truth + 3 * IN, 6);
  });

  test("with one reading to spare nobody can be named, and the snag says so", () => {
    const [snag, ...more] = snags(
      show([...WALLS, [0, 2, feet(29, 2)], [1, 3, feet(29, 4)]]),
      "reading-suspect",
    );
    expect(more).toEqual([]);
    expect(snag!.sentence).toMatch(/^One of A to B, .* or .* is off; the readings cannot tell which\.$/);
    expect(snag!.things).toHaveLength(6);
  });

  test("it begins where the standardised residual passes 3.29", () => {
    const size = (blunder: number): number =>
      Math.max(
        ...measureRooms(pentagon(blunder))[0]!.readings.map(({ standardised }) => Math.abs(standardised)),
      );
    const bound = 10 * (3.29 / size(10));
    expect(snags(pentagon(bound * 0.99), "reading-suspect")).toEqual([]);
    expect(snags(pentagon(bound * 1.01), "reading-suspect")).toHaveLength(1);
  });

  test("a height measured twice and a foot apart is asked about", () => {
    const again: Reading = {
      id: "again",
      room: "room",
      order: 2000,
      kind: "height",
      from: "A",
      value: feet(11, 2),
      typed: "",
      instrument: "tape",
    };
    const document = { ...BRACED, readings: { ...BRACED.readings, again } };
    expect(snags(document, "reading-suspect")).toHaveLength(1);
    // The longer reading is the less sure one, so the mean lies a little below the middle.
    const { height } = measureRooms(document)[0]!.corners[0]!;
    expect(height).toBeLessThan(feet(10, 8));
    expect(height).toBeGreaterThan(feet(10, 7.8));
  });
});

describe("readings-disagree", () => {
  test("it is silent for good readings and speaks where the chi-square test fails", () => {
    expect(snags(BRACED, "readings-disagree")).toEqual([]);
    const sum = (blunder: number): number => measureRooms(pentagon(blunder))[0]!.test.sum;
    // Chi-square, 3 degrees, 0.001: 16.266 (NIST e-Handbook 1.3.6.7.4, from memory).
    const bound = 5 * Math.sqrt(16.266 / sum(5));
    expect(snags(pentagon(bound * 0.99), "readings-disagree")).toEqual([]);
    expect(snags(pentagon(bound * 1.01), "readings-disagree")).toHaveLength(1);
  });

  test("sides no triangle can have are a disagreement and not a crash", () => {
    const found = snags(
      show(
        [
          [0, 1, feet(24)],
          [1, 2, feet(1)],
          [0, 2, feet(100)],
        ],
        [2500, 2500, 2500],
        3,
      ),
    );
    expect(found.map(({ rule }) => rule)).toContain("readings-disagree");
    expect(JSON.stringify(found)).not.toContain("null");
  });
});

describe("corner-floats and square-assumed", () => {
  test("one wall only is a stop that names corners and the reading that helps", () => {
    const [snag] = snags(show([WALLS[0]!]), "corner-floats");
    expect(snag!.level).toBe("stop");
    expect(snag!.sentence).toBe("Nothing says yet where corners C and D are.");
    expect(snag!.mend).toBe("Measure B to C.");
  });

  test("four walls need one square corner, a diagonal needs none", () => {
    const found = snags(show(WALLS), "square-assumed");
    expect(found.map(({ sentence }) => sentence)).toEqual([
      "Corner B is taken as square: nothing measured says otherwise.",
    ]);
    expect(snags(show([...WALLS, DIAGONALS[0]!]), "square-assumed")).toEqual([]);
    expect(snags(show([...WALLS, DIAGONALS[0]!]), "corner-floats")).toEqual([]);
  });

  test("a measured angle speaks for its corner", () => {
    const angle: Reading = {
      id: "angle",
      room: "room",
      order: 50,
      kind: "angle",
      from: "C",
      value: 89.7,
      typed: "89.7",
      instrument: "tape",
    };
    const document = show(WALLS);
    const said = { ...document, readings: { ...document.readings, angle } };
    expect(snags(said, "square-assumed")).toEqual([]);
    expect(measureRooms(said)[0]!.corners[2]!.angle).toBeCloseTo(89.7, 6);
  });

  test.each([0, 1, 2])("a room of %i corners has no shape and says so", (count) => {
    const document = show(count === 2 ? [WALLS[0]!] : [], [], count);
    expect(measureRooms(document)[0]!.settled).toBe(false);
    expect(snags(document).map(({ rule }) => rule)).toEqual(["corner-floats"]);
  });
});

/** A room pinched from below: corner D comes within `gap` of wall A-B, or through it below 0. */
function pinched(gap: number): ShowDocument {
  const corners = [
    [0, 0],
    [4000, 0],
    [4000, -3000],
    [2000, -gap],
    [0, -3000],
  ] as const;
  const distances = corners.flatMap(([x, y], a) =>
    corners.slice(a + 1).map(([u, v], k): Distance => [a, a + 1 + k, Math.hypot(x - u, y - v)]),
  );
  return show(distances, [], 5);
}

describe("room-crosses-itself", () => {
  test("a corner 5 mm short of the far wall is clear and 5 mm through it is a stop", () => {
    expect(snags(pinched(5), "room-crosses-itself")).toEqual([]);
    expect(measureRooms(pinched(5))[0]!.settled).toBe(true);
    const through = snags(pinched(-5), "room-crosses-itself");
    expect(through.map(({ sentence }) => sentence)).toEqual([
      "Walls A-B and C-D cross.",
      "Walls A-B and D-E cross.",
    ]);
    expect(measureRooms(pinched(-5))[0]!.settled).toBe(false);
  });

  test("corners named in the wrong order make walls cross", () => {
    // A true rectangle whose corners were named A, B, D, C.
    const document = show([
      [0, 1, 4000],
      [0, 2, 3000],
      [1, 3, 3000],
      [2, 3, 4000],
      [0, 3, 5000],
      [1, 2, 5000],
    ]);
    const [snag] = snags(document, "room-crosses-itself");
    expect(snag!.level).toBe("stop");
    expect(snag!.sentence).toMatch(/^Walls .* and .* cross\.$/);
  });
});

test("a bow tie with equal diagonals is said to cross, not pressed into a room", () => {
  // The long walls are the diagonals of a rectangle 144 by 120 in: hypot(144, 120) = 187.446.
  const [long, side, across] = [187.446 * IN, 120 * IN, 144 * IN];
  const document = show([
    [0, 1, long],
    [1, 2, side],
    [2, 3, long],
    [0, 3, side],
    [0, 2, across],
    [1, 3, across],
  ]);
  expect(snags(document, "room-crosses-itself")).toHaveLength(1);
  expect(snags(document, "readings-disagree")).toEqual([]);
});

test("nothing is suspect and no wall crosses while corners float", () => {
  const rules = snags(show([WALLS[0]!, WALLS[1]!], [], 5)).map(({ rule }) => rule);
  expect(rules).toContain("corner-floats");
  expect(rules).not.toContain("reading-suspect");
  expect(rules).not.toContain("room-crosses-itself");
});

test("a room just named owes corners and stops nothing", () => {
  expect(snags(show([], [], 0)).map(({ level, sentence }) => `${level}: ${sentence}`)).toEqual([
    "mind: Room has no corners yet.",
  ]);
});

test("the ceiling taken is the usual one of the show's units", () => {
  const inch = show([...WALLS, ...DIAGONALS], []);
  const metric = { ...inch, shows: { show: { ...Object.values(inch.shows)[0]!, units: "mm" as const } } };
  expect(measureRooms(inch)[0]!.corners[0]!.height).toBeCloseTo(8 * 12 * IN, 6);
  expect(measureRooms(metric)[0]!.corners[0]!.height).toBe(2400);
});

describe("room-ambiguous", () => {
  // Walls of 3, 2, 1, 1, 1, 1, 1, 2 m can be walked with the two outer corners in more than one place.
  const sides = [3000, 2000, 1000, 1000, 1000, 1000, 1000, 2000];
  const walls = sides.map((side, k): Distance => [k, (k + 1) % 8, side]);

  test("walls that fold to two rooms are asked about, and the reading that tells them apart is named", () => {
    const [snag, ...more] = snags(
      show(
        walls,
        Array.from({ length: 8 }, () => 2500),
        8,
      ),
      "room-ambiguous",
    );
    expect(more).toEqual([]);
    expect(snag!.mend).toMatch(/^Measure [A-H] to [A-H]; that tells them apart\.$/);
  });

  test("a sketch says which was meant", () => {
    const document = show(walls, [], 8);
    const drawn = measureRooms(document)[0]!.corners;
    const corners = Object.fromEntries(
      drawn.map(({ id, x, y }) => [id, { ...document.corners[id]!, sketchX: x, sketchY: y }]),
    );
    expect(snags({ ...document, corners }, "room-ambiguous")).toEqual([]);
  });
});

describe("height-missing", () => {
  test("none at all says what is taken; one missing says the mean; all there says nothing", () => {
    expect(snags(show([...WALLS, ...DIAGONALS], []), "height-missing")[0]!.sentence).toBe(
      `No height is measured; 8' 0" is taken.`,
    );
    const one = show([...WALLS, ...DIAGONALS], HEIGHTS.slice(0, 3));
    expect(snags(one, "height-missing")[0]!.sentence).toBe(
      `No height is measured at D; 10' 2 1/16", the mean of the others, is taken.`,
    );
    expect(snags(BRACED, "height-missing")).toEqual([]);
  });
});

/** The braced room with its door and a second opening on the same wall. */
function second(fields: Partial<Opening>): ShowDocument {
  return withOpening(withOpening(BRACED, {}), { id: "two", name: "Window", kind: "window", ...fields });
}

/** A door over the whole first wall, so high. */
function doorOf(height: number): ShowDocument {
  return withOpening(BRACED, { height, sill: 0, offset: 0, width: 7000 });
}

describe("opening-outside-wall", () => {
  test("an opening to the ceiling's lower end fits, and one past it by more than its doubt is a stop", () => {
    const lowest = Math.min(...HEIGHTS.slice(0, 2));
    expect(snags(doorOf(lowest - 30), "opening-outside-wall")).toEqual([]);
    const [snag] = snags(doorOf(lowest + 50), "opening-outside-wall");
    expect(snag!.level).toBe("stop");
    expect(snag!.sentence).toMatch(/ above wall A-B\.$/);
  });

  const wall = measureRooms(BRACED)[0]!.walls[0]!;
  const at = (end: number): ShowDocument => withOpening(BRACED, { offset: end - 36 * IN });

  test("a door that ends with its wall is clear, a hair past it is asked about, beyond its doubt it is a stop", () => {
    expect(snags(at(wall.length), "opening-outside-wall")).toEqual([]);
    expect(snags(at(wall.length + 1), "opening-outside-wall")[0]!.level).toBe("mind");
    expect(snags(at(wall.length + 0.1 + 1.97 * wall.sdLength), "opening-outside-wall")[0]!.level).toBe(
      "stop",
    );
  });

  test("an offset taken from the far corner is measured from there", () => {
    const [door] = measureRooms(withOpening(BRACED, { datum: "B", offset: 500 }))[0]!.openings;
    expect(door!.along).toBeCloseTo(wall.length - 500 - 36 * IN, 6);
    expect(door!.end.x).toBeCloseTo(wall.length - 500, 6);
    expect(
      snags(withOpening(BRACED, { datum: "B", offset: wall.length }), "opening-outside-wall"),
    ).toHaveLength(1);
  });

  test("doors side by side are clear; sharing an inch is a stop; a window above a low door is clear", () => {
    expect(snags(second({ offset: feet(6, 2) }), "opening-outside-wall")).toEqual([]);
    const [snag] = snags(second({ offset: feet(6, 1) }), "opening-outside-wall");
    expect(snag!.sentence).toBe(`Door 1 and Window overlap by 1".`);
    expect(
      snags(second({ offset: feet(4), sill: 80 * IN, height: 12 * IN }), "opening-outside-wall"),
    ).toEqual([]);
  });

  test("a fixture past its wall, and a door on a wall that is not there, are stops", () => {
    const vent: Fixture = {
      id: "vent",
      room: "room",
      name: "vent",
      order: 0,
      kind: "vent",
      from: "B",
      to: "C",
      datum: "B",
      offset: feet(17),
      out: 0,
      up: 300,
      width: 300,
      depth: 0,
      height: 150,
      typed: "",
    };
    const [past] = snags({ ...BRACED, fixtures: { vent } }, "opening-outside-wall");
    expect(past!.sentence).toBe(`Vent runs 1' 5 13/16" past the end of wall B-C.`);
    const [lost] = snags(withOpening(BRACED, { from: "A", to: "C" }), "opening-outside-wall");
    expect(lost!.sentence).toBe("Door 1 names no wall of this room.");
  });
});
