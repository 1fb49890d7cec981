/**
 * Cholesky factor of a small dense positive matrix, row by row in one flat array: A = L Lᵀ.
 *
 * The linear algebra library has this too, but reads every entry through a method call: on the normal matrix
 * of a 60-corner room (117 unknowns) factor and inverse took several times as long as these loops, and they
 * run at every iteration. Source: Golub and Van Loan, Matrix Computations, algorithm 4.2.2 and section 3.1.
 */

/** Lower factor of a positive matrix; `smallest` is its least squared pivot, at or below 0 where it failed. */
export interface Factor {
  readonly size: number;
  /** Row by row, upper part 0. */
  readonly lower: Float64Array;
  readonly smallest: number;
}

/** Factors the symmetric matrix (row by row, size × size). A pivot at or below `least` ends it with `smallest` at most `least`. */
export function factor(matrix: Float64Array, size: number, least: number): Factor {
  const lower = new Float64Array(size * size);
  let smallest = Number.POSITIVE_INFINITY;
  for (let row = 0; row < size; row++) {
    const start = row * size;
    for (let column = 0; column <= row; column++) {
      const other = column * size;
      let sum = matrix[start + column]!;
      for (let k = 0; k < column; k++) sum -= lower[start + k]! * lower[other + k]!;
      if (column < row) {
        lower[start + column] = sum / lower[other + column]!;
        continue;
      }
      // Written so that NaN fails too.
      if (!(sum > least)) return { size, lower, smallest: Math.min(least, Number.isNaN(sum) ? least : sum) };
      if (sum < smallest) smallest = sum;
      lower[start + row] = Math.sqrt(sum);
    }
  }
  return { size, lower, smallest };
}

/** x of L Lᵀ x = right. */
export function solveWith({ size, lower }: Factor, right: Float64Array): Float64Array {
  const x = Float64Array.from(right);
  for (let row = 0; row < size; row++) {
    let sum = x[row]!;
    for (let k = 0; k < row; k++) sum -= lower[row * size + k]! * x[k]!;
    x[row] = sum / lower[row * size + row]!;
  }
  for (let row = size - 1; row >= 0; row--) {
    let sum = x[row]!;
    for (let k = row + 1; k < size; k++) sum -= lower[k * size + row]! * x[k]!;
    x[row] = sum / lower[row * size + row]!;
  }
  return x;
}

/** The inverse of L Lᵀ, row by row, symmetric to the last digit. */
export function inverseOf({ size, lower }: Factor): Float64Array {
  // Rows of `inverse` are columns of L⁻¹, so that both loops below run along memory.
  const inverse = new Float64Array(size * size);
  for (let column = 0; column < size; column++) {
    const start = column * size;
    inverse[start + column] = 1 / lower[start + column]!;
    for (let row = column + 1; row < size; row++) {
      let sum = 0;
      for (let k = column; k < row; k++) sum -= lower[row * size + k]! * inverse[start + k]!;
      inverse[start + row] = sum / lower[row * size + row]!;
    }
  }
  const result = new Float64Array(size * size);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      let sum = 0;
      for (let k = row; k < size; k++) sum += inverse[row * size + k]! * inverse[column * size + k]!;
      result[row * size + column] = sum;
      result[column * size + row] = sum;
    }
  }
  return result;
}
