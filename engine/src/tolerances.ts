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

/** A ceiling nobody has measured: mm, and its deviation. From memory. */
export const HEIGHT_GUESS = 2440;
export const HEIGHT_GUESS_SIGMA = 150;
