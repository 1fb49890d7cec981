/** Ceiling heights in the corners: weighted means of what was measured, and what is taken where nothing was. */
import type { Corner, Reading, Units } from "../document/tables.ts";
import { HEIGHT_GUESS, HEIGHT_GUESS_SIGMA, HEIGHT_SPREAD } from "../tolerances.ts";
import { sigmaOf } from "./network.ts";

export interface CornerHeight {
  readonly height: number;
  readonly sd: number;
  /** Whether it was measured in this corner. */
  readonly said: boolean;
}

/** One height a corner, in their order: mm. Unmeasured corners take the mean of the measured ones, or the usual ceiling of the units. */
export function cornerHeights(
  corners: readonly Corner[],
  readings: readonly Reading[],
  units: Units,
): readonly CornerHeight[] {
  const said = corners.map(({ id }) =>
    weightedMean(readings.filter((one) => one.kind === "height" && one.from === id)),
  );
  const known = said.filter((one) => one !== undefined);
  const guess = unmeasured(known, units);
  return said.map((one) => (one ? { ...one, said: true } : { ...guess, said: false }));
}

function weightedMean(readings: readonly Reading[]): { height: number; sd: number } | undefined {
  if (readings.length === 0) return undefined;
  let weights = 0;
  let sum = 0;
  for (const reading of readings) {
    const weight = 1 / sigmaOf(reading) ** 2;
    weights += weight;
    sum += weight * reading.value;
  }
  return { height: sum / weights, sd: 1 / Math.sqrt(weights) };
}

function unmeasured(
  known: readonly { height: number; sd: number }[],
  units: Units,
): { height: number; sd: number } {
  const inch = units === "ft-in" || units === "in";
  if (known.length === 0)
    return { height: inch ? HEIGHT_GUESS.inch : HEIGHT_GUESS.metric, sd: HEIGHT_GUESS_SIGMA };
  const height = known.reduce((sum, one) => sum + one.height, 0) / known.length;
  const squares = known.reduce((sum, one) => sum + (one.height - height) ** 2, 0);
  // One more corner strays from the mean as the others do, and at least as ceilings usually do.
  const spread = known.length > 1 ? Math.sqrt(squares / (known.length - 1)) : 0;
  return { height, sd: Math.max(spread, HEIGHT_SPREAD) };
}
