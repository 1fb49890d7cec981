/**
 * The one door between lengths as people give them and the whole numbers the cutting solvers reckon with, so that
 * four quarters of a stick are exactly a stick. A figure is taken down to whole thousandths of its unit
 * (micrometres, where the unit is the millimetre): down, so that three thirds of a stick still fit in it. A
 * stick may so be promised at most one thousandth too much for each part, which no saw can tell.
 */

const THOUSANDTHS = 1000;

/** What binary fractions lose: 304.8 may be kept as 304.79999999999995. Thousandths of a unit. */
const LOST = 0.01;

/** Whole thousandths of a figure, rounded down; what is not finite stays so. */
export function whole(figure: number): number {
  return Math.floor(figure * THOUSANDTHS + LOST);
}

/** The figure of so many thousandths. */
export function figureOf(thousandths: number): number {
  return thousandths / THOUSANDTHS;
}

/** The greatest whole number that divides all of these whole numbers above 0 (Euclid); 1 without any. */
export function commonMeasure(numbers: readonly number[]): number {
  let measure = 0;
  for (const number of numbers) {
    let [a, b] = [measure, number];
    while (b > 0) [a, b] = [b, a % b];
    measure = a;
  }
  return measure || 1;
}
