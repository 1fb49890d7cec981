/** Fixtures of the rules of measuring. */
import type { RuleFixtures } from "./fixture.ts";
import { FLOOR, hall, HEIGHTS, SHOW } from "./hall.ts";

/** The hall with its diagonal A-C read so long: one reading more than it takes. */
const diagonal = (length: number): string => hall().replace("A-C 7810.25 mm", `A-C ${length} mm`);

/** A room with a mass, or a niche, of so much in the middle of its long wall: which of the two, only angles tell. */
const stepped = (out: number): string => `${SHOW}
room Hall
corners A B C D E F G H
A-B 6000 mm
B-C 5000 mm
C-D 2000 mm
D-E ${out} mm
E-F 2000 mm
F-G ${out} mm
G-H 2000 mm
H-A 5000 mm`;

/** The same, where the angles say that it comes into the room: beyond A-B it comes through the wall. */
const mass = (out: number): string =>
  `${stepped(out)}\nangle D 90\nangle E 270\nangle F 270\nangle G 90\nangle A 90\nangle B 90`;

const window = (from: number): string =>
  hall(`window on A-B at ${from} mm from A, 900 mm wide, 1000 mm high, sill 900 mm`);

export const MEASURE_FIXTURES = {
  "reading-suspect": {
    fires: diagonal(7900),
    clear: diagonal(7811),
    boundary: { at: diagonal, figure: 7824.06, step: 1, fires: "above" },
  },
  "readings-disagree": {
    fires: diagonal(7900),
    clear: diagonal(7811),
    boundary: { at: diagonal, figure: 7824.07, step: 1, fires: "above" },
  },
  "corner-floats": {
    fires: [SHOW, "room Hall", "corners A B C D", "A-B 6000 mm"].join("\n"),
    clear: hall(),
    boundary: {
      none: "It turns where the readings fix a corner: at which are there, not at how long they are.",
    },
  },
  "room-crosses-itself": {
    fires: mass(5500),
    clear: mass(2000),
    boundary: { at: mass, figure: 5000, step: 1, fires: "above" },
  },
  "square-assumed": {
    fires: stepped(2000),
    clear: hall(),
    boundary: { none: "A corner is measured or it is taken as square." },
  },
  "room-ambiguous": {
    fires: stepped(2000),
    clear: hall(),
    // A mass as deep as the room cannot be: then only the niche is left.
    boundary: { at: stepped, figure: 5000, step: 1, fires: "below" },
  },
  "height-missing": {
    fires: [SHOW, FLOOR].join("\n"),
    clear: [SHOW, FLOOR, HEIGHTS].join("\n"),
    boundary: { none: "The height at a corner is measured or it is not." },
  },
  "opening-outside-wall": {
    fires: window(5500),
    clear: window(2000),
    boundary: { at: window, figure: 5100, step: 1, fires: "above" },
  },
} as const satisfies RuleFixtures;
