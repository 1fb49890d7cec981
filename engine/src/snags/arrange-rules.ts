/** The rules of Arrange: places, ways, views, what is fixed, hung and kept clear. */
import { IN, PRACTICE, READ, type Rules } from "./rule.ts";

const ROUTE_SOURCE =
  "US: 2010 ADA Standards 403.5.1. GB: Approved Document M vol. 2 / BS 8300-2 (from memory). DE: DIN 18040-1, 4.3.2. The local authority decides.";

export const ARRANGE_RULES = {
  "pieces-overlap": {
    stage: "arrange",
    level: "stop",
    asks: "Two things do not stand in the same place.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "outside-room": {
    stage: "arrange",
    level: "stop",
    asks: "Every piece stands inside the room and its zone.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "too-tall": {
    stage: "arrange",
    level: "stop",
    asks: "Every piece stands up under the ceiling.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "sprinkler-clearance": {
    stage: "arrange",
    level: "stop",
    asks: "The space below a sprinkler deflector stays clear.",
    figures: { clear: { any: 18 * IN } },
    source: "NFPA 13 as quoted in city fire guidelines: 18 in below the deflector. The fire officer decides.",
    readOn: READ,
  },
  "crosses-covering-edge": {
    stage: "arrange",
    level: "mind",
    asks: "A piece stands wholly on a floor covering or wholly off it.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "narrow-route": {
    stage: "arrange",
    level: "stop",
    asks: "The way from door to door and to every work is wide enough.",
    figures: {
      clear: { US: 36 * IN, GB: 1200, DE: 1500 },
      narrow: { US: 32 * IN, GB: 1200, DE: 900 },
      run: { US: 24 * IN, GB: 0, DE: 0 },
      /** Whoever has come to a work stands this wide (2010 ADA Standards 305.3; elsewhere from memory). */
      stand: { any: 30 * IN },
      /** What hangs above this is walked under (2010 ADA Standards 307.4; elsewhere from memory). */
      headroom: { any: 80 * IN },
    },
    source: ROUTE_SOURCE,
    readOn: READ,
  },
  "routes-not-all-judged": {
    stage: "arrange",
    level: "know",
    asks: "The way to every work is looked at.",
    unit: "none",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "door-clear-width": {
    stage: "arrange",
    level: "mind",
    asks: "A visitors' door opens to a sufficient clear width.",
    figures: { clear: { US: 32 * IN, GB: 750, DE: 900 } },
    source:
      "US: 2010 ADA Standards 404.2.3. GB: Approved Document M vol. 2 (existing door, from memory). DE: DIN 18040-1, 4.3.3. The local authority decides.",
    readOn: READ,
  },
  "neighbour-hidden": {
    stage: "arrange",
    level: "mind",
    asks: "A neighbour's work is seen whole from where it was promised.",
    unit: "none",
    figures: { eye: { any: 62 * IN } },
    source: "common practice, no source; standing eye height 62 in, common practice",
    readOn: READ,
  },
  "keep-clear-covered": {
    stage: "arrange",
    level: "stop",
    asks: "The venue's safety and service things stay visible and reachable.",
    figures: {
      front: { any: 36 * IN },
      /** Width and height of the working space before a panel (NFPA 70 110.26, from memory). */
      panelWidth: { any: 30 * IN },
      panelHeight: { any: 78 * IN },
      /** Before things a hand must reach now and then. */
      service: { any: 12 * IN },
      /** Before what must open, at its own height; common practice, no source. */
      hatch: { any: 24 * IN },
      /** Side of a thing said only by its middle; and how far what is fixed to a wall stays off it. */
      hand: { any: 4 * IN },
    },
    source:
      "36 in before electrical panels (campus life-safety guidance quoting NFPA 70 110.26; the section from memory); for other things common practice, no source. The venue and the fire officer decide.",
    readOn: READ,
  },
  "door-swing": {
    stage: "arrange",
    level: "stop",
    asks: "A door that opens into the room opens all the way.",
    figures: {},
    source: "common practice, no source. The fire officer decides which doors must open all the way.",
    readOn: READ,
  },
  protrusion: {
    stage: "arrange",
    level: "stop",
    asks: "Where visitors walk, nothing stands out at the height of hand and head that a cane does not find first.",
    figures: {
      out: { US: 4 * IN, GB: 100, DE: 100 },
      /** A cane finds what begins at or below this. */
      low: { any: 27 * IN },
      /** What begins here is walked under. */
      high: { any: 80 * IN },
    },
    source:
      "US: 2010 ADA Standards 307.2; things on posts (307.3) and the venue's own are not judged. GB, DE: 100 mm, and the heights everywhere but in the US, from memory. The local authority decides.",
    readOn: READ,
  },
  "rests-on-nothing": {
    stage: "arrange",
    level: "stop",
    asks: "What stands on another piece has its middle over it.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  overhangs: {
    stage: "arrange",
    level: "mind",
    asks: "What stands on another piece stands on it with most of its foot.",
    /** Share of the foot that may reach beyond what carries it. */
    unit: "none",
    figures: { share: { any: 1 / 3 } },
    source: PRACTICE,
    readOn: READ,
  },
  "mount-off-wall": {
    stage: "arrange",
    level: "stop",
    asks: "What is fixed to a wall has wall behind all of it.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "mount-refused": {
    stage: "arrange",
    level: "stop",
    asks: "Nothing is fixed to a wall the venue refuses.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "hung-asked": {
    stage: "arrange",
    level: "mind",
    asks: "The venue has said yes to whatever hangs from its ceiling.",
    figures: {},
    source: "common practice, no source: many venues let nothing hang without their director's word",
    readOn: READ,
  },
  capacity: {
    stage: "arrange",
    level: "know",
    asks: "It is known how many people the room takes with the work in it.",
    unit: "none",
    /** Square metres of net floor for one person: 30 sq ft. */
    figures: { person: { any: (30 * (12 * IN) ** 2) / 1e6 } },
    source:
      "US: International Building Code, occupant load factors (table 1004.5 of 2018): 30 sq ft net a person in exhibit galleries and museums. Elsewhere the same figure is a guide only. The fire officer decides.",
    readOn: READ,
  },
  "work-unseen": {
    stage: "arrange",
    level: "know",
    asks: "What stands in a room that is only looked into is seen from outside.",
    unit: "none",
    figures: {
      /** Share of its width that must be seen. */
      share: { any: 0.1 },
      /** Standing eye height, mm. */
      eye: { any: 62 * IN },
    },
    source: "common practice, no source; standing eye height 62 in, two steps before the middle of the glass",
    readOn: READ,
  },
  "size-missing": {
    stage: "arrange",
    level: "mind",
    asks: "Every piece has a size before it is placed.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
} as const satisfies Rules;
