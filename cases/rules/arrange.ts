/** What holds the rules of Arrange to their word: rooms so small that one thing decides. */
import type { RuleFixture, RuleFixtures } from "./fixture.ts";

const IN = 25.4;

/** A room 6 m by 4 m under 3 m, square to a hair: A-B along the top, C-D opposite. */
const ROOM = `show Small
units mm
place US
room Hall
corners A B C D
A to B 6000
B to C 4000
C to D 6000
D to A 4000
A to C 7211.1025
B to D 7211.1025
height A 3000
height B 3000
height C 3000
height D 3000
`;

/** The room with these lines below it. */
function room(...lines: readonly string[]): string {
  return ROOM + lines.join("\n") + "\n";
}

/** A fixture from one show with a figure in it: it fires well to one side and is clear well to the other. */
function turning(
  at: (figure: number) => string,
  figure: number,
  fires: "below" | "above",
  far = 20,
): RuleFixture {
  const [less, more] = [at(figure - far), at(figure + far)];
  const boundary = { at, figure, step: 1, fires };
  return fires === "below" ? { fires: less, clear: more, boundary } : { fires: more, clear: less, boundary };
}

const TRUNK = "piece Trunk, 600 x 400 x 900";

/** A second thing beside the trunk's right side. */
function besideTrunk(along: number): string {
  return room(
    TRUNK,
    "piece Scale, 600 x 400 x 900",
    "place Trunk at 2000 along, 2000 mm in",
    `place Scale at ${along} mm along, 2000 mm in`,
  );
}

/** A thing near wall D-A. */
function byWall(along: number): string {
  return room(TRUNK, `place Trunk at ${along} mm along, 2000 mm in`);
}

function post(height: number): string {
  return room(`piece Post, 300 x 300 x ${height} mm`, "place Post at 3000 along, 2000 mm in");
}

function underSprinkler(height: number): string {
  return room(
    "sprinkler on A-B at 3000 from A, in 2000, up 2800",
    `piece Post, 300 x 300 x ${height} mm`,
    "place Post at 3000 along, 2000 mm in",
  );
}

function byCovering(along: number): string {
  return room(
    "covering Cloth, 2000 x 1000 x 5 thick, at 3000 along, 2000 mm in",
    TRUNK,
    `place Trunk at ${along} mm along, 2000 mm in`,
  );
}

/** Two plinths from wall to wall with a gap of their own between them: too long a way to be narrow in. */
function between(gap: number): string {
  return room(
    "door on B-C at 200 from B, leaf 1000, 2032 high, opens out",
    "door on D-A at 200 from D, leaf 1000, 2032 high, opens out",
    "piece Upper, 1000 x 1500 x 900",
    "piece Lower, 1000 x 2500 x 900",
    "place Upper at 3000 along, 750 mm in",
    `place Lower at 3000 along, ${1500 + gap + 1250} mm in`,
  );
}

/** Rows of corks, so many and so near each other that there are more gaps than anyone looks at. */
function corks(side: number): string {
  const each = Array.from({ length: side }, (_, k) => k);
  return room(
    "door on B-C at 200 from B, leaf 1000, 2032 high, opens out",
    "door on D-A at 200 from D, leaf 1000, 2032 high, opens out",
    `piece Row x${side}`,
    ...each.map((k) => `  box 60 x 60 x 60, at ${k * 61} mm right`),
    ...each.map((k) => `place Row ${k + 1} at 1000 along, ${1000 + k * 61} mm in`),
  );
}

function doorOf(clear: number): string {
  return room(`door on A-B at 500 from A, leaf 950, 2032 high, clear ${clear} mm, opens out`);
}

/** A screen whose left edge comes near the line from the middle of the door to the right edge of the bronze. */
function screenBefore(along: number): string {
  return room(
    "door on A-B at 2500 from A, leaf 1000, 2032 high, opens out",
    "neighbour Bronze, 600 x 600 x 1800, plinth 760 high, at 3000 along, 3000 mm in, seen from Door 1",
    "piece Screen, 1000 x 100 x 2200",
    `place Screen at ${along} mm along, 1050 mm in`,
  );
}

/** The bronze's right edge is 300 aside 2700 from the eye, the screen's back is 1100 from it; its middle is 500 on. */
const SCREEN_EDGE = 3000 + (300 / 2700) * 1100 + 500;

function beforePanel(inward: number): string {
  return room(
    "panel on A-B at 3000 from A, 400 wide, 800 high, up 1200, out 100",
    "piece Crate, 400 x 400 x 300",
    `place Crate at 3200 along, ${inward} mm in`,
  );
}

function beforeDoor(inward: number): string {
  return room(
    "door on A-B at 2000 from A, leaf 900, 2000 high, hinge A, opens in",
    "piece Crate, 200 x 200 x 500",
    `place Crate at 2100 along, ${inward} mm in`,
  );
}

function tube(out: number): string {
  return room(`piece Tube, 200 x ${out} mm x 200, fitting`, "place Tube on A-B at 3000 from A, up 1000");
}

/** A hat on a chest 900 wide, so far right of its middle. */
function hatOnChest(right: number): string {
  return room(
    "piece Chest, 900 x 600 x 500",
    "piece Hat, 300 x 300 x 120, accessory",
    "place Chest at 3000 along, 2000 mm in",
    `place Hat on Chest at ${right} mm right`,
  );
}

function signOn(along: number): string {
  return room("piece Sign, 400 x 20 x 300, fitting", `place Sign on A-B at ${along} mm from A, up 1000`);
}

function refused(word: string): string {
  return room(word, "piece Sign, 400 x 20 x 300, fitting", "place Sign on B-C at 2000 from B, up 1000");
}

function lamp(answer: string): string {
  return room(
    "piece Lamp, 300 across x 250, hung",
    "place Lamp at 3000 along, 2000 mm in, up 2200",
    `ask May the lamp hang from the ceiling?${answer}`,
  );
}

/** A scale at the back of a shop window, and before it a screen whose middle is so far along. */
function shopWindow(along: number): string {
  return room(
    "looked into",
    "glass C-D",
    "piece Scale, 600 x 400 x 1000",
    "piece Screen, 3000 x 100 x 2000",
    "place Scale at 3000 along, 500 mm in",
    `place Screen at ${along} mm along, 2000 mm in`,
  );
}

/**
 * The eye is 1500 before the middle of the glass. The scale's front is 4800 from it and 300 to each side; a tenth
 * of that angle is left beside the left edge of the screen's front, 3450 from the eye.
 */
const WINDOW_EDGE = 3000 - Math.tan(0.8 * Math.atan2(300, 4800)) * 3450 + 1500;

const STANDS = room(TRUNK, "place Trunk at 3000 along, 2000 mm in");

export const ARRANGE_FIXTURES = {
  "pieces-overlap": turning(besideTrunk, 2600, "below"),
  "outside-room": turning(byWall, 300, "below"),
  "too-tall": turning(post, 3000, "above"),
  "sprinkler-clearance": turning(underSprinkler, 2800 - 18 * IN, "above"),
  "crosses-covering-edge": turning(byCovering, 1700, "above"),
  "narrow-route": turning(between, 36 * IN, "below"),
  "routes-not-all-judged": {
    fires: corks(31),
    clear: corks(2),
    boundary: {
      none: "It turns at how many gaps and steps the machine looks at, which no figure of a show decides.",
    },
  },
  "door-clear-width": turning(doorOf, 32 * IN, "below"),
  "neighbour-hidden": turning(screenBefore, SCREEN_EDGE, "below"),
  "keep-clear-covered": turning(beforePanel, 100 + 36 * IN + 200, "below"),
  "door-swing": turning(beforeDoor, 900 + 100, "below"),
  protrusion: turning(tube, 4 * IN, "above"),
  "rests-on-nothing": turning(hatOnChest, 450, "above"),
  // A third of 300 beyond the edge at 450 from the chest's middle, and on past 450 it rests on nothing.
  overhangs: turning(hatOnChest, 450 - 150 + 100, "above"),
  "mount-off-wall": turning(signOn, 200, "below"),
  "mount-refused": {
    fires: refused("refused B-C"),
    clear: refused("refused C-D"),
    boundary: { none: "A wall is refused by the venue or it is not." },
  },
  "hung-asked": {
    fires: lamp(""),
    clear: lamp(" answer: Yes, from the beam."),
    boundary: { none: "The venue has answered or it has not." },
  },
  capacity: {
    fires: STANDS,
    clear: ROOM,
    boundary: { none: "It is told of every room that visitors walk into once something stands in it." },
  },
  "work-unseen": turning(shopWindow, WINDOW_EDGE, "below"),
  "size-missing": {
    fires: room("piece Curtain, no size yet"),
    clear: STANDS,
    boundary: { none: "A size was said or it was not." },
  },
} satisfies RuleFixtures;
