/**
 * Scales from grid paper. The pitch of the paper and what one square stands for are the scale: 1/4 in
 * squares at 12 in make 1:48, 5 mm squares at 25 cm make 1:50. A drawing on grid paper can therefore only
 * have the scales its own paper gives, and the largest that fits is the best.
 */
import type { Show, Units } from "../document/tables.ts";

export interface GridScale {
  /** n of 1:n. */
  readonly scale: number;
  /** Side of a square on paper, mm. */
  readonly pitch: number;
  /** What a square stands for, mm. */
  readonly square: number;
  /** "1:48, one 1/4 in square is 12 in". */
  readonly sentence: string;
}

/** Usual squares: 6, 12 and 24 in; 125, 250, 500 mm and 1 m. Common practice. mm. */
const INCH_SQUARES = [152.4, 304.8, 609.6] as const;
const METRIC_SQUARES = [125, 250, 500, 1000] as const;
/** A hall that fits at none of them is drawn at the next doublings: 2^20 m is past any length that can be said. */
const DOUBLINGS = 20;

/** The scale of one pitch and square, in the words of the show's units. */
export function gridScale(pitch: number, square: number, units: Units): GridScale {
  const scale = square / pitch;
  return {
    scale,
    pitch,
    square,
    sentence: `${scaleWords(scale)}, one ${pitchWords(pitch)} square is ${squareWords(square, units)}`,
  };
}

/** The scales this show's paper gives, largest drawing first: the usual squares, the person's own, then doublings. */
export function gridScales(show: Pick<Show, "units" | "gridPitch" | "gridSquare">): readonly GridScale[] {
  const usual: readonly number[] = isInch(show.units) ? INCH_SQUARES : METRIC_SQUARES;
  const last = Math.max(usual.at(-1) ?? 0, show.gridSquare);
  const beyond = Array.from({ length: DOUBLINGS }, (_, power) => last * 2 ** (power + 1));
  const squares = [...new Set([...usual, show.gridSquare, ...beyond])].toSorted((a, b) => a - b);
  return squares.map((square) => gridScale(show.gridPitch, square, show.units));
}

/** The first of the scales at which `fits` holds; the last where none does. */
export function largestThatFits(
  scales: readonly GridScale[],
  fits: (scale: GridScale) => boolean,
): GridScale {
  const found = scales.find(fits) ?? scales.at(-1);
  if (!found) throw new Error(`no scales to choose from: ${scales.length}`);
  return found;
}

/** "1:48"; a scale that is no whole number shows two digits: "1:30.48". */
export function scaleWords(scale: number): string {
  return `1:${Number(scale.toFixed(2))}`;
}

/** "1/4 in" where the pitch is a whole number of sixteenths, else mm. */
export function pitchWords(pitch: number): string {
  const sixteenths = (pitch / 25.4) * 16;
  if (Math.abs(sixteenths - Math.round(sixteenths)) > 1e-6) return `${Number(pitch.toFixed(3))} mm`;
  return `${fractionWords(Math.round(sixteenths))} in`;
}

/** Inches for a show in feet and inches, else the metric unit that reads shortest. */
function squareWords(square: number, units: Units): string {
  const sixteenths = (square / 25.4) * 16;
  const whole = Math.abs(sixteenths - Math.round(sixteenths)) < 1e-6;
  if (isInch(units))
    return whole ? `${fractionWords(Math.round(sixteenths))} in` : `${Number(square.toFixed(1))} mm`;
  if (square >= 1000) return `${Number((square / 1000).toFixed(3))} m`;
  return square % 10 === 0 ? `${square / 10} cm` : `${Number(square.toFixed(1))} mm`;
}

function fractionWords(sixteenths: number): string {
  const whole = Math.floor(sixteenths / 16);
  let rest = sixteenths - whole * 16;
  if (rest === 0) return `${whole}`;
  let parts = 16;
  while (rest % 2 === 0) [rest, parts] = [rest / 2, parts / 2];
  return whole === 0 ? `${rest}/${parts}` : `${whole} ${rest}/${parts}`;
}

function isInch(units: Units): boolean {
  return units === "ft-in" || units === "in";
}
