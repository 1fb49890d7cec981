/**
 * The chi-square distribution, through the regularised incomplete gamma function: its series below a + 1 and
 * its continued fraction (Lentz) above. Source: Abramowitz and Stegun, Handbook of Mathematical Functions,
 * 6.5.29, 6.5.31, 6.1.40 and 26.4. The inverse is found by halving.
 */

const TINY = 1e-300;
const EPSILON = 1e-16;

/** Chance that a chi-square variable of `freedom` (> 0) degrees exceeds `value` (0 or more). */
export function chiSquareTail(value: number, freedom: number): number {
  if (!(freedom > 0) || !(value >= 0))
    throw new Error(`no chi-square tail for ${value} with ${freedom} degrees`);
  if (value === 0) return 1;
  const a = freedom / 2;
  const x = value / 2;
  const scale = Math.exp(a * Math.log(x) - x - logGamma(a));
  return x < a + 1 ? 1 - scale * series(a, x) : scale * continuedFraction(a, x);
}

/** The value a chi-square variable of `freedom` (whole or not, > 0) exceeds with chance `alpha` (between 0 and 1). */
export function chiSquareCritical(alpha: number, freedom: number): number {
  if (!(alpha > 0 && alpha < 1)) throw new Error(`no chi-square value exceeded with chance ${alpha}`);
  let low = 0;
  let high = Math.max(4, freedom);
  while (chiSquareTail(high, freedom) > alpha) high *= 2;
  // The tail falls steadily, so halving is safe, and 100 halvings reach the last digit.
  for (let step = 0; step < 100; step++) {
    const middle = (low + high) / 2;
    if (chiSquareTail(middle, freedom) > alpha) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function series(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < 10_000 && term > sum * EPSILON; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

function continuedFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let h = d;
  for (let n = 1; n < 10_000; n++) {
    const numerator = -n * (n - a);
    b += 2;
    d = 1 / (numerator * d + b || TINY);
    c = b + numerator / c || TINY;
    h *= c * d;
    if (Math.abs(c * d - 1) < EPSILON) break;
  }
  return h;
}

/** Stirling's series after shifting above 15 (6.1.40), good to about 1e-15 relative. */
function logGamma(a: number): number {
  let shift = 0;
  let z = a;
  for (; z < 15; z++) shift -= Math.log(z);
  const inverse = 1 / (z * z);
  const tail = (1 / 12 - inverse * (1 / 360 - inverse * (1 / 1260 - inverse / 1680))) / z;
  return shift + (z - 0.5) * Math.log(z) - z + Math.log(2 * Math.PI) / 2 + tail;
}
