/**
 * The one catalogue of every rule: what it asks, its figure by place, its source and when that was last
 * read. Codes are quoted as commonly published; the authority in the place decides.
 */
import type { Place } from "../document/tables.ts";
import type { Level } from "./snag.ts";

/** A figure of a rule, mm unless the rule says otherwise, by place; `any` where places do not differ. */
export interface Figure {
  readonly any?: number;
  readonly US?: number;
  readonly GB?: number;
  readonly DE?: number;
}

export interface Rule {
  /** The stage that judges it. */
  readonly stage: "document" | "measure" | "arrange" | "make" | "model" | "install" | "sheet";
  /** The gravest level it can reach. */
  readonly level: Level;
  /** What is asked, as a plain sentence. */
  readonly asks: string;
  readonly figures: { readonly [name: string]: Figure };
  /** "none": its snags' figures are plain numbers. Where it is not said: mm, or degrees where it speaks of a measured angle. */
  readonly unit?: "none" | "minutes" | "degrees";
  /** Published source by place or for all; "common practice, no source" where there is none. */
  readonly source: string;
  /** ISO date the figures were last read in the source (or a page that quotes it). */
  readonly readOn: string;
}

const IN = 25.4;
const READ = "2026-11-25";
const PRACTICE = "common practice, no source";
const ROUTE_SOURCE =
  "US: 2010 ADA Standards 403.5.1. GB: Approved Document M vol. 2 / BS 8300-2 (from memory). DE: DIN 18040-1, 4.3.2. The local authority decides.";

export const CATALOGUE = {
  // — Measure —
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
  // — Arrange —
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
  // — Install —
  "no-access": {
    stage: "install",
    level: "mind",
    asks: "It is known when the venue lets the crew in.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "zone-unknown": {
    stage: "install",
    level: "mind",
    asks: "The hours of access are told on a known clock.",
    figures: {},
    source: "IANA Time Zone Database: names of zones",
    readOn: READ,
  },
  "shift-never-opens": {
    stage: "install",
    level: "stop",
    asks: "Every shift ends after it begins.",
    unit: "minutes",
    figures: { shortest: { any: 1 } },
    source: PRACTICE,
    readOn: READ,
  },
  "no-crew": {
    stage: "install",
    level: "stop",
    asks: "Somebody comes to every shift.",
    unit: "none",
    figures: { people: { any: 1 } },
    source: PRACTICE,
    readOn: READ,
  },
  "shifts-overlap": {
    stage: "install",
    level: "stop",
    asks: "A shift begins when the one before it has ended.",
    unit: "minutes",
    figures: { shared: { any: 0 } },
    source: PRACTICE,
    readOn: READ,
  },
  "crew-too-small": {
    stage: "install",
    level: "stop",
    asks: "Some shift has as many people as each task takes.",
    unit: "none",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "job-longer-than-access": {
    stage: "install",
    level: "stop",
    asks: "The whole job is done in the hours the venue gives.",
    unit: "minutes",
    figures: {},
    source: "common practice, no source; minutes from memory where no rate was said",
    readOn: READ,
  },
  "opens-before-done": {
    stage: "install",
    level: "stop",
    asks: "The work is done by the end of the day the doors open.",
    unit: "minutes",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "tapes-cross-flat": {
    stage: "install",
    level: "mind",
    asks: "The arcs of two tapes cross well enough to fix a mark.",
    unit: "degrees",
    figures: { crossing: { any: 60 } },
    source: PRACTICE,
    readOn: READ,
  },
  // — Make —
  "stock-unsaid": {
    stage: "make",
    level: "mind",
    asks: "Everything that is cut has a stock it is cut from.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "spring-unsaid": {
    stage: "make",
    level: "mind",
    asks: "A crown's spring angle is known before the saw is set.",
    figures: {},
    source: "Operator's manuals of mitre saws: crown laid flat is set by its spring angle",
    readOn: READ,
  },
  "part-longer-than-stock": {
    stage: "make",
    level: "stop",
    asks: "A length that may not be joined fits in one stick.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "panel-larger-than-sheet": {
    stage: "make",
    level: "stop",
    asks: "A floor panel or border length fits on one sheet.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "border-wider-than-floor": {
    stage: "make",
    level: "stop",
    asks: "A floor covering's borders leave a field between them.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "floor-edge": {
    stage: "make",
    level: "mind",
    asks: "A covering that visitors walk on is no step at its edge.",
    figures: {
      /** Upright edge that may stay as it is. */
      upright: { any: 0.25 * IN },
      /** Edge that may stay where it is bevelled 1 to 2; above it a ramp. */
      bevelled: { any: 0.5 * IN },
    },
    source:
      "US: 2010 ADA Standards 303: 1/4 in upright, to 1/2 in bevelled 1:2, above that a ramp. Elsewhere the same figures, from memory. The local authority decides.",
    readOn: READ,
  },
  "run-scarfed": {
    stage: "make",
    level: "know",
    asks: "A run of trim is cut in one length.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "price-missing": {
    stage: "make",
    level: "know",
    asks: "Everything on the buying list has a price.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "too-many-to-cut": {
    stage: "make",
    level: "stop",
    asks: "What is cut is few enough to be told part by part.",
    unit: "none",
    /** Parts of one covering, one run or one stock. */
    figures: { most: { any: 20_000 } },
    source: PRACTICE,
    readOn: READ,
  },
  "covering-refused": {
    stage: "make",
    level: "stop",
    asks: "Nothing covers a wall the venue refuses.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "covering-no-wall": {
    stage: "make",
    level: "stop",
    asks: "A wall covering hangs on a wall, not on glass and not where none stands.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "covering-not-on-rolls": {
    stage: "make",
    level: "stop",
    asks: "Strips are cut from rolls wider than their lap.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "strip-longer-than-roll": {
    stage: "make",
    level: "stop",
    asks: "One roll gives at least one whole strip.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "repeat-longer-than-roll": {
    stage: "make",
    level: "stop",
    asks: "A pattern comes again within its roll.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "narrow-strip": {
    stage: "make",
    level: "mind",
    asks: "No strip is a sliver.",
    figures: { least: { any: 6 * IN } },
    source: PRACTICE,
    readOn: READ,
  },
  "wall-cover-share": {
    stage: "make",
    level: "mind",
    asks: "The fire officer knows how much of each wall is covered.",
    /** Percent of a wall that decorative material which passes its flame test may cover. */
    unit: "none",
    figures: { share: { any: 10 } },
    source:
      "US: International Fire Code 807 as quoted by code officials: 10 % of the wall. Thin paper pasted to the wall may be judged as its finish (International Building Code 803.2: under 0.036 in), loose paper not. The fire officer decides.",
    readOn: READ,
  },
  "flame-untested": {
    stage: "make",
    level: "mind",
    asks: "What covers a wall has papers that say how it burns.",
    figures: {},
    source:
      "US: International Fire Code 807 asks for flame tests of decorative material. The fire officer decides.",
    readOn: READ,
  },
  "covering-round": {
    stage: "make",
    level: "mind",
    asks: "Strips are cut round the venue's safety and service things, and these stay in sight and in reach.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  "coverings-overlap": {
    stage: "make",
    level: "mind",
    asks: "Two coverings of one wall do not lie on each other.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  // — Model —
  "walls-vanish": {
    stage: "model",
    level: "mind",
    asks: "Every wall of the card model is large enough to cut and to hold.",
    /** Of board, in its width and its height; and never less than twice the board's thickness. From memory. */
    figures: { least: { any: 10 } },
    source: PRACTICE,
    readOn: READ,
  },
  "board-thick": {
    stage: "model",
    level: "mind",
    asks: "No opening of the card model is narrower than its board is thick.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
  // — Sheet —
  "font-missing": {
    stage: "sheet",
    level: "mind",
    asks: "Every name can be printed in the sheet's type.",
    figures: {},
    source: PRACTICE,
    readOn: READ,
  },
} as const satisfies { readonly [id: string]: Rule };

export type RuleId = keyof typeof CATALOGUE;

/** A rule by its id, widened to the general type. */
export function ruleOf(id: RuleId): Rule {
  return CATALOGUE[id];
}

/** The figure of a rule in a place; a place nobody has said is judged by the US figures. Throws for a name the rule does not have. */
export function figureOf(id: RuleId, name: string, place: Place): number {
  const figure = ruleOf(id).figures[name];
  const value = figure?.any ?? figure?.[place === "" ? "US" : place];
  if (value === undefined) throw new Error(`rule ${id} has no figure "${name}" for "${place}"`);
  return value;
}
