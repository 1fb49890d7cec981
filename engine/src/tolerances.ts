/** Every tolerance of the engine, with its unit and reason. */

/** Lengths print to 1/16 in or 1 mm. mm. */
export const PRINT_STEP_INCH = 25.4 / 16;
export const PRINT_STEP_METRIC = 1;

/** Two things closer than this touch; nothing in a room is placed finer. mm. */
export const TOUCH = 0.1;

/** A way wider than this is not looked at further: three people abreast. mm. */
export const WIDE_ENOUGH = 3000;

/** Half-width of a 95 % interval in standard deviations (normal distribution). */
export const SURE = 1.96;

/**
 * One standard deviation of one reading by its instrument: `fixed` mm plus `perMetre` mm a metre (added in
 * squares). A tape in the field is good to 1/8 in, read as two deviations; a laser is quoted at 1.5 mm, the
 * same way. Common practice, no source; drawing and guess are from memory.
 */
export const INSTRUMENTS = {
  tape: { fixed: 1.6, perMetre: 0.2 },
  laser: { fixed: 0.75, perMetre: 0.05 },
  drawing: { fixed: 25, perMetre: 5 },
  guess: { fixed: 75, perMetre: 50 },
} as const;

/** One standard deviation of a measured corner angle. Degrees; from memory. */
export const ANGLE_SIGMA = 0.5;

/** One standard deviation of a corner nobody measured and everybody takes as square. Degrees; from memory. */
export const SQUARE_SIGMA = 1;

/** A ceiling nobody has measured, by the units people build in (8 ft; 2.4 m): mm, and its deviation. From memory. */
export const HEIGHT_GUESS = { inch: 2438.4, metric: 2400 } as const;
export const HEIGHT_GUESS_SIGMA = 150;

/** What nothing at all fixes is held this loosely where a first drawing puts it, so that it can be drawn: mm, from memory. */
export const FLOAT_SIGMA = 1000;

/** How much a corner's height strays from the others of its room where it was not measured: mm, from memory. */
export const HEIGHT_SPREAD = 15;

/** Two shapes that fit alike are one room while no distance between their corners differs by more: mm. */
export const SAME_SHAPE = 100;

/** A shape whose squared misfit is worse by less than this fits about as well: three standard deviations, squared. No unit. */
export const FITS_ALIKE = 9;

/** Chords of a drawn cylinder stay this near the true circle: half of what a pencil line covers. mm. */
export const CHORD_ERROR = 0.4;

/** A room so full is asked only for ways up to what the place wants, not for all below `WIDE_ENOUGH`. Blocks. */
export const CROWDED = 1500;

/** Places tried round a work stand this near together, mm: closer than a way is wider than someone who stands there. */
export const PLACES_APART = 150;

/** Gaps looked at before a room counts as too full for its ways to be told, and steps spent on ways. Counts. */
export const GAP_LIMIT = 400_000;
export const ROUTE_STEPS = 8_000_000;

/** Overlapping pairs named one by one; beyond it one snag says that there are more. Count. */
export const OVERLAP_LIMIT = 2000;

/** A movement of the corners less sure than this (one standard deviation, all corners together) is not fixed at all: mm, from memory. */
export const LOOSE_BEYOND = 10_000;

/** While the shape of a room is sought, corners nobody measured are drawn to the nearest square this loosely: degrees, from memory. */
export const SQUARE_PULL = 10;

/** A corner this near to 180 degrees may be taken as straight: degrees, from memory. */
export const NEARLY_STRAIGHT = 10;

/** Shapes found by squares fit alike while their corners are from square by no more than this: degrees, from memory. */
export const SQUARE_ALIKE = 3;

/** A figure less sure than this (95 %) was not measured: sheets letter it "about". An inch; common practice, no source. mm. */
export const ROUGH = 25.4;

/** Paste is dry enough to fix something over the paper after this long, where nobody said: a night. Minutes; from memory. */
export const PASTE_DRIES = 720;

/** Work longer than this may rest at the end of a shift and go on in the next. Minutes; common practice, no source. */
export const REST_BEYOND = 60;

/** Fittings wait for everything that stands in the room while that makes no more waits than this. Count. */
export const WAITS_LIMIT = 20_000;

/** Places of tapes whose worst crossings differ by less are alike, and the longer base is taken. Degrees. */
export const CROSSES_ALIKE = 0.1;

/** A length over a limit by less than this is the rounding of sums, not a longer length: finer than any cut. mm. */
export const HAIR = 1e-4;

/** Boards of a card model cut square leave no wider wedge at a corner than this, about two cuts of a knife; else they are bevelled. From memory. mm of board. */
export const CARD_SLIVER = 0.25;

/** A bevelled board of a card model runs past a very sharp corner by no more than this many thicknesses. No unit, from memory. */
export const CARD_MITRE = 4;

/** Sheets a card model is laid on before its scale counts as a slip. Count. */
export const CARD_SHEETS = 300;

/** How far before the glass those who look in from outside stand, mm: two steps. Common practice, no source. */
export const LOOKING_IN = 1500;

/** A piece of trim shorter than this looks like a patch: it takes from the piece beside it. A foot; common practice, no source. mm. */
export const SHORTEST_PIECE = 304.8;

/** A thing further out than this is not the wall's any more: a sprinkler in mid-room. Common practice, no source. mm. */
export const CLOSE_TO_WALL = 600;

/** A gap between a thing and a wall's end narrower than this is the tape's: the thing was said to reach the corner. A quarter inch; common practice, no source. mm. */
export const TAPE_GAP = 6.35;
