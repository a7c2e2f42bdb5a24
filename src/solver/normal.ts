/** The normal distribution, as far as confidence needs it. */

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
/** Beyond this many standard deviations the series loses its digits, and no claim of this trade reaches so far. */
const FARTHEST = 6;

/**
 * Probability that a standard normal value is at most z. Formula: Abramowitz and Stegun, Handbook of Mathematical
 * Functions (1964), 26.2.11: Φ(z) = 1/2 + φ(z) · (z + z³/3 + z⁵/(3·5) + ...).
 */
export function normalProbability(z: number): number {
  if (Number.isNaN(z)) return Number.NaN;
  if (z >= FARTHEST) return 1;
  if (z <= -FARTHEST) return 0;
  let term = z;
  let sum = z;
  for (let odd = 3; Math.abs(term) > 1e-18; odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return 0.5 + (Math.exp((-z * z) / 2) / ROOT_TWO_PI) * sum;
}

/** The z that a standard normal value stays under with this probability, by halving. @param probability 0 to 1. */
export function normalQuantile(probability: number): number {
  let low = -FARTHEST;
  let high = FARTHEST;
  for (let halving = 0; halving < 80; halving++) {
    const middle = (low + high) / 2;
    if (normalProbability(middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
