/** Each reading against the others: residual, redundancy, standardised residual, and which is suspect. */
import { showOf, type Reading } from "../document/tables.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { ReadingResult } from "./model.ts";
import { sigmaOf } from "./network.ts";
import { readingText } from "./reading-text.ts";
import type { Said } from "./said.ts";
import type { Settled } from "./settle.ts";

/** All readings of the room with their tests, in said order. */
export function testedReadings(said: Said, settled: Settled): readonly ReadingResult[] {
  return suspected([...planResults(said, settled), ...heightResults(said)], {
    order: said.readings,
    // What holds a floating corner is a drawing, not a reading; nothing is tested against it.
    planTested: settled.floating.length === 0,
  });
}

type Untested = Omit<ReadingResult, "suspect">;

function planResults({ planned, names, document }: Said, settled: Settled): Untested[] {
  const { units } = showOf(document);
  return planned.map((reading, row) => {
    const residual = settled.solution.residuals[row]!;
    const { sigma } = settled.ties[row]!;
    const text = readingText(reading, names, units);
    return tested({ reading, text, residual, sigma, redundancy: settled.solution.redundancy[row]! });
  });
}

/** Heights stand apart from the plan: each is controlled only by other readings in the same corner. */
function heightResults({ readings, corners, heights, names, document }: Said): Untested[] {
  const { units } = showOf(document);
  const indexOf = new Map(corners.map(({ id }, index) => [id, index]));
  return readings.flatMap((reading) => {
    const corner = indexOf.get(reading.from);
    if (reading.kind !== "height" || corner === undefined) return [];
    const { height, sd } = heights[corner]!;
    const sigma = sigmaOf(reading);
    const redundancy = Math.max(0, 1 - sd ** 2 / sigma ** 2);
    return [
      tested({
        reading,
        text: readingText(reading, names, units),
        residual: height - reading.value,
        sigma,
        redundancy,
      }),
    ];
  });
}

/** A reading is uncontrolled when the others leave it less than this: rounding, not evidence. */
const UNCONTROLLED = 1e-6;

function tested(one: Omit<Untested, "adjusted" | "standardised">): Untested {
  const controlled = one.redundancy > UNCONTROLLED;
  return {
    ...one,
    redundancy: controlled ? one.redundancy : 0,
    adjusted: one.reading.value + one.residual,
    standardised: controlled ? one.residual / (one.sigma * Math.sqrt(one.redundancy)) : 0,
  };
}

/**
 * Data snooping: of the readings whose standardised residual is beyond the critical value, the largest is
 * suspect, and with it all that share its size: among those the readings cannot tell. Back in said order.
 */
function suspected(
  results: readonly Untested[],
  { order, planTested }: { readonly order: readonly Reading[]; readonly planTested: boolean },
): readonly ReadingResult[] {
  const critical = figureOf("reading-suspect", "critical", "");
  const largest = (plan: boolean): number =>
    Math.max(0, ...results.filter((one) => isPlan(one) === plan).map((one) => Math.abs(one.standardised)));
  const [plan, height] = [largest(true), largest(false)];
  const place = new Map(order.map(({ id }, index) => [id, index]));
  return results
    .map((one) => {
      const most = isPlan(one) ? plan : height;
      const size = Math.abs(one.standardised);
      const tests = planTested || !isPlan(one);
      return { ...one, suspect: tests && size > critical && size >= most * (1 - 1e-6) };
    })
    .toSorted((a, b) => place.get(a.reading.id)! - place.get(b.reading.id)!);
}

function isPlan({ reading }: Untested): boolean {
  return reading.kind !== "height";
}
