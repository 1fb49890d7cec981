/**
 * What the readings leave undetermined, as a space of small movements of the corners: which corners move
 * against the rest, and which readings or square corners would stop them. Movements are vectors over the
 * parameters of the datum. Source: rigidity of frameworks, first-order (infinitesimal) theory.
 */
import type { Prediction } from "../solve/least-squares.ts";
import { column, inParameters, predictDistance, type Shape } from "./network.ts";
import { sees } from "./outline.ts";

export type Movements = readonly (readonly number[])[];

/** Less than this part of a movement does not count (no unit). */
const STILL = 1e-4;

/** The same space spanned by unit vectors square to each other. */
export function orthonormal(movements: Movements): Movements {
  const basis: number[][] = [];
  for (const movement of movements) {
    let rest = [...movement];
    // Twice is enough (Kahan): the second pass takes away what rounding left.
    for (let pass = 0; pass < 2; pass++) {
      for (const unit of basis) {
        const share = dot(rest, unit);
        rest = rest.map((value, k) => value - share * unit[k]!);
      }
    }
    const length = Math.hypot(...rest);
    if (length > 1e-6) basis.push(rest.map((value) => value / length));
  }
  return basis;
}

/** How strongly a figure with these derivatives by the parameters answers to the movements (orthonormal). */
export function grip(movements: Movements, row: Prediction): number {
  return Math.hypot(...movements.map((movement) => along(movement, row)));
}

/** The movements left when a figure with these derivatives is held. */
export function held(movements: Movements, row: Prediction): Movements {
  const shares = movements.map((movement) => along(movement, row));
  const squared = shares.reduce((sum, share) => sum + share * share, 0);
  if (squared === 0) return movements;
  const gone = movements[0]!.map((_, k) =>
    movements.reduce((sum, movement, m) => sum + shares[m]! * movement[k]!, 0),
  );
  return orthonormal(
    movements.map((movement, m) => movement.map((value, k) => value - (shares[m]! * gone[k]!) / squared)),
  );
}

/** Corners outside the largest set that moves as one; the set holding the earliest corners where several are as large. */
export function floatingCorners(movements: Movements, shape: Shape): readonly number[] {
  if (movements.length === 0) return [];
  const size = shape.length;
  const rigid = shape.map((_, a) => shape.map((__, b) => a !== b && !stretches(movements, shape, a, b)));
  let best: readonly number[] = [0];
  for (let a = 0; a < size; a++) {
    for (let b = a + 1; b < size; b++) {
      if (!rigid[a]![b]) continue;
      const set: number[] = [a, b];
      for (let c = 0; c < size; c++)
        if (!set.includes(c) && set.every((member) => rigid[c]![member])) set.push(c);
      if (set.length > best.length) best = set;
    }
  }
  return shape.flatMap((_, corner) => (best.includes(corner) ? [] : [corner]));
}

/** Shortest distances that hold all movements, lines inside the room first. Empty where nothing moves. */
export function distancesToFix(movements: Movements, shape: Shape): readonly (readonly [number, number])[] {
  const pairs = shape.flatMap((_, a) =>
    shape.slice(a + 1).map((__, i) => {
      const b = a + 1 + i;
      const row = inParameters(predictDistance(a, b, shape));
      return { a, b, row, length: row.value, outside: sees(shape, a, b) ? 0 : 1 };
    }),
  );
  pairs.sort((p, q) => p.outside - q.outside || p.length - q.length || p.a - q.a || p.b - q.b);
  const chosen: (readonly [number, number])[] = [];
  let left = movements;
  // A weak grip would fix the corner badly, so it is taken only where no better one is left.
  for (const least of [0.1, STILL]) {
    for (const { a, b, row } of pairs) {
      if (left.length === 0) return chosen;
      if (grip(left, row) < least) continue;
      chosen.push([a, b]);
      left = held(left, row);
    }
  }
  return chosen;
}

function stretches(movements: Movements, shape: Shape, a: number, b: number): boolean {
  const row = predictDistance(a, b, shape);
  const free = { ...row, at: row.at.map((coordinate) => column(coordinate)) };
  return movements.some((movement) => Math.abs(along(movement, free)) > STILL);
}

/** Derivative along a movement; a column below 0 is fixed by the datum. */
function along(movement: readonly number[], { at, slopes }: Pick<Prediction, "at" | "slopes">): number {
  let sum = 0;
  at.forEach((k, i) => {
    if (k >= 0) sum += slopes[i]! * movement[k]!;
  });
  return sum;
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}
