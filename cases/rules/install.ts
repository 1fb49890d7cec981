/** Fixtures of the rules of putting the show up. */
import type { RuleFixtures } from "./fixture.ts";
import { hall, SHOW, FLOOR, HEIGHTS } from "./hall.ts";

const CRATE = "piece Crate, 500 x 500 x 500 mm\nplace Crate at 3000 mm along, 2500 mm in";
const DAY = "shift 2027-03-04 9:00 to 21:00, 3 people";

/** Minutes after midnight as a clock shows them. */
const clock = (minutes: number): string =>
  `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;

/** One chore of so many minutes in one shift, and the doors open that day. */
const chore = (minutes: number, ...lines: readonly string[]): string =>
  hall(
    "rate receive 10 min, 1 person",
    "rate protect 10 min, 1 person",
    "rate record 10 min, 1 person",
    "rate set out 10 min, 1 person",
    "rate clean 10 min, 1 person",
    "rate sign off 10 min, 1 person",
    `chore Focus the lights after record, ${minutes} min`,
    ...lines,
  );

/** A crate in a corridor 15 m long and 2 m wide: tapes from any two corners cross flat in its middle. Its far corners turn it. */
const inCorridor = (along: number): string => `${SHOW}
room Corridor
corners A B C D
A-B 15000 mm
B-C 2000 mm
C-D 15000 mm
D-A 2000 mm
A-C 15132.75 mm
B-D 15132.75 mm
piece Crate, 500 x 500 x 500 mm
place Crate at ${along} mm along, 1000 mm in`;

export const INSTALL_FIXTURES = {
  "no-access": {
    fires: hall(CRATE),
    clear: hall(CRATE, DAY),
    boundary: { none: "The venue's hours are said or they are not." },
  },
  "zone-unknown": {
    fires: [SHOW.replace("America/Chicago", "America/Nowhere"), FLOOR, HEIGHTS, CRATE, DAY].join("\n"),
    clear: hall(CRATE, DAY),
    boundary: { none: "A zone has a name that is known or it has not." },
  },
  "shift-never-opens": {
    fires: hall(CRATE, "shift 2027-03-04 9:00 to 2027-03-04 8:00, 3 people"),
    clear: hall(CRATE, DAY),
    boundary: {
      // Whole minutes: none and one.
      at: (minutes) => hall(CRATE, `shift 2027-03-04 9:00 to 2027-03-04 ${clock(540 + minutes)}, 3 people`),
      figure: 0.5,
      step: 0.5,
      fires: "below",
    },
  },
  "no-crew": {
    fires: hall(CRATE, "shift 2027-03-04 9:00 to 21:00, nobody"),
    clear: hall(CRATE, DAY),
    boundary: {
      // Nobody and one person.
      at: (people) => hall(CRATE, `shift 2027-03-04 9:00 to 21:00, ${people} people`),
      figure: 0.5,
      step: 0.5,
      fires: "below",
    },
  },
  "shifts-overlap": {
    fires: hall(CRATE, DAY, "shift 2027-03-04 20:00 to 23:00, 3 people"),
    clear: hall(CRATE, DAY, "shift 2027-03-04 21:00 to 23:00, 3 people"),
    boundary: {
      at: (minutes) => hall(CRATE, DAY, `shift 2027-03-04 ${clock(21 * 60 - minutes)} to 23:00, 3 people`),
      figure: 0.5,
      step: 0.5,
      fires: "above",
    },
  },
  "crew-too-small": {
    fires: hall(CRATE, "rate furniture 10 min, 5 people", DAY),
    clear: hall(CRATE, "rate furniture 10 min, 2 people", DAY),
    boundary: {
      // Three people come; three and four are wanted.
      at: (people) => hall(CRATE, `rate furniture 10 min, ${people} people`, DAY),
      figure: 3.5,
      step: 0.5,
      fires: "above",
    },
  },
  "job-longer-than-access": {
    fires: chore(900, "shift 2027-03-04 9:00 to 21:00, 1 person"),
    clear: chore(60, "shift 2027-03-04 9:00 to 21:00, 1 person"),
    boundary: {
      // Twelve hours, less fifty minutes that all else takes.
      at: (minutes) => chore(minutes, "shift 2027-03-04 9:00 to 21:00, 1 person"),
      figure: 670.5,
      step: 0.5,
      fires: "above",
    },
  },
  "opens-before-done": {
    fires: chore(300, "shift 2027-03-04 20:00 to 6:00, 1 person", "opens 2027-03-04"),
    clear: chore(300, "shift 2027-03-04 20:00 to 6:00, 1 person", "opens 2027-03-05"),
    boundary: {
      // Four hours to midnight, less the fifty minutes.
      at: (minutes) => chore(minutes, "shift 2027-03-04 20:00 to 6:00, 1 person", "opens 2027-03-04"),
      figure: 190.5,
      step: 0.5,
      fires: "above",
    },
  },
  "tapes-cross-flat": {
    fires: inCorridor(7500),
    clear: inCorridor(1000),
    boundary: { at: inCorridor, figure: 1454.66, step: 1, fires: "above" },
  },
} as const satisfies RuleFixtures;
