/** Fixtures of the rules of sheets. */
import type { RuleFixtures } from "./fixture.ts";
import { hall } from "./hall.ts";

export const SHEET_FIXTURES = {
  "font-missing": {
    fires: hall("piece 椅子, 500 x 500 x 800 mm"),
    clear: hall("piece Stuhl für Ärger, 500 x 500 x 800 mm"),
    boundary: { none: "The type has a sign or it does not." },
  },
} as const satisfies RuleFixtures;
