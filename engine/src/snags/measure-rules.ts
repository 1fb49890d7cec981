/** The rules of Measure: readings, shape, heights, what is on the walls. */
import { PRACTICE, READ, type Rules } from "./rule.ts";

export const MEASURE_RULES = {
  "reading-suspect": {
    stage: "measure",
    level: "mind",
    asks: "Every reading agrees with the others within what its tape can do.",
    /** Critical value of the standardised residual, no unit. */
    figures: { critical: { any: 3.29 } },
    source: "Baarda data snooping, two-sided test at 0.001: 3.29",
    readOn: READ,
  },
  "readings-disagree": {
    stage: "measure",
    level: "mind",
    asks: "The readings together agree as well as their tapes promise.",
    /** Significance level of the global chi-square test, no unit. */
    unit: "none",
    figures: { alpha: { any: 0.001 } },
    source: "Global test of the least-squares adjustment (chi-square), standard adjustment theory",
    readOn: READ,
  },
  "corner-floats": {
    stage: "measure",
    level: "stop",
    asks: "Enough is measured to fix every corner.",
    figures: {},
    source: "Rigidity of a plane distance network: 2n - 3 independent readings, standard adjustment theory",
    readOn: READ,
  },
  "room-crosses-itself": {
    stage: "measure",
    level: "stop",
    asks: "The walls of a room meet only at its corners.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "square-assumed": {
    stage: "measure",
    level: "know",
    asks: "No corner is taken as square without a reading.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "room-ambiguous": {
    stage: "measure",
    level: "mind",
    asks: "The readings fit one shape of room only.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "height-missing": {
    stage: "measure",
    level: "mind",
    asks: "The height is measured in every corner.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "opening-outside-wall": {
    stage: "measure",
    level: "stop",
    asks: "An opening or fixture lies within its wall.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
} as const satisfies Rules;
