/**
 * How likely a pattern is to return by chance: binomial tails over a Markov model of the same take, and the
 * false-discovery rate over all that was looked at. The idea after Conklin & Anagnostopoulou 2006, "Segmental pattern
 * discovery in music".
 */

/**
 * P(X >= k) for X binomial with n trials of chance p.
 *
 * @example binomialTail(12, 500, 0.01) // .005208
 */
export function binomialTail(k: number, n: number, p: number): number {
  if (k <= 0) return 1;
  if (k > n || p <= 0) return 0;
  if (p >= 1) return 1;
  const odds = p / (1 - p);
  if (k <= n * p) {
    // Nearer to 1: sum the shorter side, downwards from k - 1.
    let term = Math.exp(logBinomial(k - 1, n, p));
    let below = 0;
    for (let i = k - 1; i >= 0 && term > 1e-18 * (below + 1e-300); i--) {
      below += term;
      term *= i / ((n - i + 1) * odds);
    }
    return Math.min(1, Math.max(0, 1 - below));
  }
  let term = Math.exp(logBinomial(k, n, p));
  let above = 0;
  for (let i = k; i <= n && term > 1e-18 * above; i++) {
    above += term;
    term *= ((n - i) / (i + 1)) * odds;
  }
  return Math.min(1, above);
}

/** Natural logarithm of P(X = k). */
function logBinomial(k: number, n: number, p: number): number {
  return logFactorial(n) - logFactorial(k) - logFactorial(n - k) + k * Math.log(p) + (n - k) * Math.log1p(-p);
}

const SMALL_FACTORIALS = [0, 0];
for (let i = 2; i < 64; i++) SMALL_FACTORIALS.push(SMALL_FACTORIALS[i - 1]! + Math.log(i));

/** ln n!, exact sums below 64, else by Stirling's series. */
export function logFactorial(n: number): number {
  if (n < SMALL_FACTORIALS.length) return SMALL_FACTORIALS[n]!;
  const x = n + 1;
  return (
    (x - 0.5) * Math.log(x) -
    x +
    0.5 * Math.log(2 * Math.PI) +
    1 / (12 * x) -
    1 / (360 * x ** 3) +
    1 / (1260 * x ** 5)
  );
}
