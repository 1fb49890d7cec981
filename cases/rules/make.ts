/** Fixtures of the rules of making. */
import type { RuleFixtures } from "./fixture.ts";
import { hallWith } from "./hall.ts";

const ROLL = "stock Paper, roll 900 mm x 30000 mm, passes flame test, price 40";
const LATH = "stock Lath, stick 38 mm x 2400 mm x 19 mm thick, kerf 3 mm, price 2";
const BASE = "stock Base, stick 184 mm x 7000 mm x 19 mm thick, kerf 3 mm, price 11";
const CROWN = "stock Crown, stick 117 mm x 7000 mm x 16 mm thick, kerf 3 mm, price 20";
const BOARD = "stock Board, sheet 1000 mm x 2000 mm x 5 mm thick, price 9";

/** One covering of A-B from a roll. */
const papered = (clauses: string, stock = ROLL, ...lines: readonly string[]): string =>
  hallWith(stock, ...lines, `strips on A-B, from Paper, pasted${clauses}`);

/** One floor covering, 2 m along by so much in. */
const floored = (clauses: string, depth = 800): string =>
  hallWith(BOARD, `covering Floor, 2000 mm x ${depth} mm${clauses}, at 3000 mm along, 2500 mm in`);

/** Border lengths of grained board, that may not be turned across their sheet. */
const wideBorder = (border: number): string =>
  hallWith(
    `${BOARD}, grained`,
    `covering Floor, 5000 mm x 4000 mm x 5 mm thick, border ${border} mm, from Board, at 3000 mm along, 2500 mm in`,
  );

const based = (stick: number): string =>
  hallWith(
    `stock Base, stick 184 mm x ${stick} mm x 19 mm thick, kerf 3 mm, price 11`,
    "open B-C",
    "open C-D",
    "open D-A",
    "trim base 184 mm x 19 mm, from Base",
  );

const made = (part: string, copies = 1): string =>
  hallWith(LATH, `piece Crate x${copies}, 500 x 500 x 500 mm`, `  part ${part} from Lath`);

/** A mass of the venue's leaves so much of A-B bare of it. */
const besideMass = (left: number): string =>
  papered("", ROLL, `projection on A-B at ${left} mm from A, ${6000 - left} mm wide, out 300 mm`);

export const MAKE_FIXTURES = {
  "stock-unsaid": {
    fires: hallWith(BASE, "trim base 184 mm x 19 mm"),
    clear: hallWith(BASE, "trim base 184 mm x 19 mm, from Base"),
    boundary: { none: "A stock is named for a thing that is cut or it is not." },
  },
  "spring-unsaid": {
    fires: hallWith(CROWN, "trim crown 117 mm x 76 mm, from Crown"),
    clear: hallWith(CROWN, "trim crown 117 mm x 76 mm, spring 38, from Crown"),
    boundary: { none: "A crown's spring angle is said or it is not." },
  },
  "part-longer-than-stock": {
    fires: made("2 x 2500 mm"),
    clear: made("2 x 2300 mm"),
    boundary: { at: (x) => made(`2 x ${x} mm`), figure: 2400, step: 1, fires: "above" },
  },
  "panel-larger-than-sheet": {
    fires: wideBorder(1500),
    clear: wideBorder(500),
    boundary: {
      at: wideBorder,
      figure: 1000,
      step: 1,
      fires: "above",
    },
  },
  "border-wider-than-floor": {
    fires: floored(" x 5 mm thick, border 450 mm, from Board"),
    clear: floored(" x 5 mm thick, border 100 mm, from Board"),
    boundary: {
      at: (x) => floored(` x 5 mm thick, border ${x} mm, from Board`),
      figure: 400,
      step: 1,
      fires: "above",
    },
  },
  "floor-edge": {
    fires: floored(" x 13 mm thick, walkable, from Board"),
    clear: floored(" x 13 mm thick, from Board"),
    boundary: {
      at: (x) => floored(` x ${x} mm thick, walkable, from Board`),
      figure: 6.35,
      step: 1,
      fires: "above",
    },
  },
  "run-scarfed": {
    fires: based(2400),
    clear: based(7000),
    boundary: { at: based, figure: 6000, step: 1, fires: "below" },
  },
  "price-missing": {
    fires: papered("", "stock Paper, roll 900 mm x 30000 mm"),
    clear: papered(""),
    boundary: { none: "A price is said or it is not." },
  },
  "too-many-to-cut": {
    fires: made("10000 x 100 mm", 3),
    clear: made("300 x 100 mm", 3),
    // Parts of one of four crates: twenty thousand in all.
    boundary: { at: (x) => made(`${x} x 100 mm`, 4), figure: 5000.5, step: 0.5, fires: "above" },
  },
  "covering-refused": {
    fires: papered("", ROLL, "refused A-B"),
    clear: papered("", ROLL, "refused B-C"),
    boundary: { none: "The venue refuses a wall or it does not." },
  },
  "covering-no-wall": {
    fires: papered("", ROLL, "glass A-B"),
    clear: papered("", ROLL, "glass B-C"),
    boundary: { none: "A side is a wall, or it is open or of glass." },
  },
  "covering-not-on-rolls": {
    fires: papered(", lap 950 mm"),
    clear: papered(", lap 13 mm"),
    boundary: { at: (x) => papered(`, lap ${x} mm`), figure: 900, step: 1, fires: "above" },
  },
  "strip-longer-than-roll": {
    fires: papered("", "stock Paper, roll 900 mm x 2500 mm"),
    clear: papered(""),
    boundary: {
      at: (x) => papered(", extra 100 mm", `stock Paper, roll 900 mm x ${x} mm`),
      figure: 3100,
      step: 1,
      fires: "below",
    },
  },
  "repeat-longer-than-roll": {
    fires: papered("", "stock Paper, roll 900 mm x 10000 mm, pattern every 12000 mm straight"),
    clear: papered("", "stock Paper, roll 900 mm x 10000 mm, pattern every 500 mm straight"),
    boundary: {
      at: (x) => papered("", `stock Paper, roll 900 mm x 10000 mm, pattern every ${x} mm straight`),
      figure: 10_000,
      step: 1,
      fires: "above",
    },
  },
  "narrow-strip": {
    fires: besideMass(100),
    clear: besideMass(1500),
    boundary: { at: besideMass, figure: 152.4, step: 1, fires: "below" },
  },
  "wall-cover-share": {
    fires: papered(""),
    clear: papered(", up 500 mm, to 600 mm"),
    boundary: { at: (x) => papered(`, up 500 mm, to ${500 + x} mm`), figure: 300, step: 1, fires: "above" },
  },
  "flame-untested": {
    fires: papered("", "stock Paper, roll 900 mm x 30000 mm, price 40"),
    clear: papered(""),
    boundary: { none: "A maker's papers are there or they are not." },
  },
  "covering-round": {
    fires: papered("", ROLL, "exit sign on A-B at 3000 mm from A, 300 mm wide, 200 mm high, up 2200 mm"),
    clear: papered("", ROLL, "exit sign on B-C at 3000 mm from B, 300 mm wide, 200 mm high, up 2200 mm"),
    boundary: {
      at: (x) => papered(", to 1000 mm", ROLL, `outlet on A-B at 3000 mm from A, up ${x} mm`),
      figure: 1000,
      step: 1,
      fires: "below",
    },
  },
  "coverings-overlap": {
    fires: papered("", ROLL, "strips Frieze on A-B, from Paper, pasted, up 2500 mm"),
    clear: papered(", to 2500 mm", ROLL, "strips Frieze on A-B, from Paper, pasted, up 2500 mm"),
    boundary: {
      at: (x) => papered(", to 1000 mm", ROLL, `strips Frieze on A-B, from Paper, pasted, up ${x} mm`),
      figure: 1000,
      step: 1,
      fires: "below",
    },
  },
} as const satisfies RuleFixtures;
