import { describe, expect, it } from "vitest";
import {
  emptyDocument,
  EMPTY_SHOW,
  type Corner,
  type ShowDocument,
  type Stock,
  type WallCovering,
} from "../document/tables.ts";
import type { Snag } from "../snags/snag.ts";
import { handMadeRoom, type Wanted } from "../testing/hand-made.ts";
import { coverShares } from "./shares.ts";
import { wallSnags } from "./wall-rules.ts";
import { wallWorks } from "./walls.ts";

const paper = (said: Partial<Stock> = {}): Stock => ({
  id: "roll",
  name: "Kraft",
  order: 0,
  form: "roll",
  width: 914.4,
  length: 30_480,
  thickness: 0,
  repeat: 0,
  match: "free",
  kerf: 0,
  grained: false,
  flame: true,
  ...said,
});
const hung = (said: Partial<WallCovering> = {}): WallCovering => ({
  id: "one",
  room: "room",
  order: 0,
  name: "Strips",
  from: "A",
  to: "B",
  stock: "roll",
  fixing: "pasted",
  lap: 0,
  turn: 0,
  extra: 0,
  low: 0,
  // Under a tenth of the wall, so that its share says nothing.
  high: 250,
  ...said,
});

interface Case {
  readonly coverings?: readonly Partial<WallCovering>[];
  readonly stock?: Partial<Stock>;
  readonly wall?: { readonly refused?: true; readonly open?: true; readonly glass?: true };
  readonly room?: Partial<Wanted>;
  readonly length?: number;
  /** Corners as the document has them. */
  readonly corners?: string;
}

/** The snags of coverings in a room 3 m high, its first wall 6 m long. */
function found(one: Case = {}): readonly Snag[] {
  const { wall = {}, length = 6000, corners = "ABCD" } = one;
  const plain = handMadeRoom({
    corners: [
      [0, 0],
      [length, 0],
      [length, -4000],
      [0, -4000],
    ].map(([x = 0, y = 0]) => ({ x, y, height: 3000 })),
    ...one.room,
  });
  const room = {
    ...plain,
    walls: plain.walls.map((side, index) => (index === 0 ? { ...side, ...wall } : side)),
  };
  const coverings = (one.coverings ?? [{}]).map((said) => hung(said));
  const said = {
    id: "A-B",
    room: "room",
    from: "A",
    to: "B",
    open: false,
    glass: false,
    refused: false,
    ...wall,
  };
  const document: ShowDocument = {
    ...emptyDocument({ ...EMPTY_SHOW, units: "mm", place: "US" }),
    rooms: { room: room.room },
    corners: Object.fromEntries(
      Array.from(corners).map((name, order): [string, Corner] => [
        name,
        { id: name, room: "room", name, order },
      ]),
    ),
    walls: { "A-B": said },
    fixtures: Object.fromEntries(room.fixtures.map(({ fixture }) => [fixture.id, fixture])),
    stocks: { roll: paper(one.stock) },
    wallCoverings: Object.fromEntries(coverings.map((covering) => [covering.id, covering])),
  };
  const works = wallWorks(document, [room]);
  return wallSnags(works, coverShares(works, [room], document), document);
}
const rules = (one: Case = {}): readonly string[] => found(one).map(({ rule }) => rule);

/** The plain covering, and a frieze from so high up. */
const two = (low: number) => [{}, { id: "two", name: "Frieze", low, high: low + 40 }];

describe("the rules of wall coverings", () => {
  it("say nothing of paper that hangs where it may", () => {
    expect(found()).toEqual([]);
  });

  it("stop paper on a wall that is refused, and ask for nothing else of it", () => {
    const [snag, ...others] = found({ wall: { refused: true }, coverings: [{ high: 3000 }] });
    expect(others).toEqual([]);
    expect(snag).toMatchObject({
      rule: "covering-refused",
      level: "stop",
      things: ["one", "roll"],
      room: "room",
    });
    expect(snag?.sentence).toBe("The venue lets nothing be put on A-B, and Strips is to hang there.");
  });

  it("stop paper on glass and where no wall stands, each in its own words", () => {
    expect(found({ wall: { glass: true } }).map(({ sentence }) => sentence)).toEqual([
      "Strips is to hang on A-B, where there is glass.",
    ]);
    expect(found({ wall: { open: true } }).map(({ sentence }) => sentence)).toEqual([
      "Strips is to hang on A-B, where no wall stands.",
    ]);
  });

  it("stop paper whose wall went with a corner", () => {
    expect(rules({ corners: "AXBCD" })).toContain("covering-no-wall");
    expect(rules({ corners: "ACD" })).toContain("covering-no-wall");
    expect(rules({ corners: "AB" })).toEqual([]);
  });

  it("stop what is not cut from a roll wider than its lap", () => {
    expect(rules({ stock: { form: "sheet" } })).toEqual(["covering-not-on-rolls"]);
    expect(rules({ coverings: [{ lap: 914.4 }] })).toEqual(["covering-not-on-rolls"]);
    expect(rules({ coverings: [{ lap: 914.3 }] })).not.toContain("covering-not-on-rolls");
  });

  it("stop strips too many to tell, and say so", () => {
    const [snag] = found({ stock: { width: 0.25 } });
    expect(snag).toMatchObject({ rule: "too-many-to-cut", level: "stop", wanted: 20_000 });
  });

  it("stop a strip or a pattern longer than its roll, a millimetre on", () => {
    expect(rules({ stock: { length: 250 } })).toEqual([]);
    expect(found({ stock: { length: 249 } })).toMatchObject([
      { rule: "strip-longer-than-roll", measured: 250, wanted: 249 },
    ]);
    expect(found({ stock: { length: 1000, repeat: 1001, match: "straight" } })).toMatchObject([
      { rule: "repeat-longer-than-roll", measured: 1001, wanted: 1000 },
    ]);
    expect(rules({ stock: { length: 1000, repeat: 1001, match: "free" } })).toEqual([]);
  });

  it("mind a strip under 6 in, named by its number", () => {
    expect(found({ length: 150 })).toMatchObject([
      {
        rule: "narrow-strip",
        measured: 150,
        wanted: expect.closeTo(152.4, 6),
        sentence: "Strip 1 on A-B is only 150 mm wide.",
      },
    ]);
    expect(rules({ length: 153 })).toEqual([]);
  });

  // International Fire Code 807 as quoted by code officials: 10 % of the wall.
  it("mind more than a tenth of a wall, loose paper in other words than pasted", () => {
    const [pasted] = found({ coverings: [{ high: 301 }] });
    expect(pasted).toMatchObject({ rule: "wall-cover-share", wanted: 10 });
    expect(pasted?.mend).toContain("wall's finish");
    const [loose] = found({ coverings: [{ high: 301, fixing: "magnets" }] });
    expect(loose?.mend).toContain("loose paper");
    expect(rules({ coverings: [{ high: 300 }] })).toEqual([]);
  });

  it("count a wall's coverings together, and what is bare as bare", () => {
    const halves = [
      { id: "one", high: 200 },
      { id: "two", low: 2000, high: 2200 },
    ];
    expect(found({ coverings: halves }).map(({ rule, things }) => [rule, things])).toEqual([
      ["wall-cover-share", ["one", "roll", "two", "roll"]],
    ]);
    const mass = { wall: 0, offset: 1000, width: 2000, kind: "projection", up: 0, depth: 300 } as const;
    // A third of the wall is a mass: 400 mm of paper cover two thirds of what they would.
    expect(rules({ coverings: [{ high: 400 }], room: { fixtures: [mass] } })).toEqual([]);
  });

  it("mind paper without its maker's word on how it burns", () => {
    expect(rules({ stock: { flame: false } })).toEqual(["flame-untested"]);
  });

  it("name what paper is cut round and must stay in sight, and the breaker where there is current", () => {
    const fixtures = [
      { wall: 0, offset: 1000, up: 200, kind: "outlet", name: "Outlet 1" },
      { wall: 0, offset: 3000, up: 200, kind: "alarm", name: "Alarm 1" },
      { wall: 0, offset: 4000, up: 0, width: 600, height: 200, kind: "radiator", name: "Radiator 1" },
      { wall: 1, offset: 1000, up: 200, kind: "outlet", name: "Outlet 2" },
    ] as const;
    const [snag, ...others] = found({ room: { fixtures } });
    expect(others).toEqual([]);
    expect(snag?.sentence).toBe(
      "On A-B the strips are cut round Outlet 1 and Alarm 1: keep them in sight and in reach.",
    );
    expect(snag?.mend).toContain("at the breaker");
    expect(snag?.things).toEqual(["one", "fixture0", "fixture1"]);
    const [alarm] = found({ room: { fixtures: [fixtures[1]] } });
    expect(alarm?.mend).toBe("Ask the venue how much it wants free around each.");
  });

  it("mind coverings that lie on each other, not those that meet", () => {
    expect(rules({ coverings: two(249) })).toEqual(["coverings-overlap"]);
    expect(rules({ coverings: two(250) })).toEqual([]);
    expect(rules({ coverings: [{}, { id: "two", from: "B", to: "C" }] })).toEqual([]);
  });
});
