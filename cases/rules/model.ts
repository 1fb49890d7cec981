/** Fixtures of the rules of the card model. */
import type { RuleFixtures } from "./fixture.ts";
import { hall } from "./hall.ts";

/** Board of 2 mm, one millimetre of grid for so many of the room. A wall of 3 m stands beside the floor and is higher by the board. */
const at = (scale: number, ...lines: readonly string[]): string =>
  hall(`grid 1 mm is ${scale} mm`, "board 2 mm thick", ...lines);

export const MODEL_FIXTURES = {
  "walls-vanish": {
    fires: at(1000),
    clear: at(100),
    boundary: { at: (x) => at(x), figure: 375, step: 1, fires: "above" },
  },
  "board-thick": {
    fires: at(100, "window on A-B at 2000 mm from A, 150 mm wide, 1000 mm high, sill 900 mm"),
    clear: at(100, "window on A-B at 2000 mm from A, 1000 mm wide, 1000 mm high, sill 900 mm"),
    boundary: {
      at: (x) => at(100, `window on A-B at 2000 mm from A, ${x} mm wide, 1000 mm high, sill 900 mm`),
      figure: 200,
      step: 1,
      fires: "below",
    },
  },
} as const satisfies RuleFixtures;
