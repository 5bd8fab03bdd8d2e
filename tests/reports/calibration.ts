/** What is said of sureness against what is found: for reports. */

interface Said {
  readonly confidence: number;
  readonly right: boolean;
}

/** Of bars said to be so sure, how many are right: rows of ten hundredths. */
export function calibration(bars: readonly Said[]): { said: number; right: number; bars: number }[] {
  return Array.from({ length: 10 }, (_, row) => {
    const inside = bars.filter((bar) => Math.min(9, Math.floor(bar.confidence * 10)) === row);
    return {
      said: inside.reduce((sum, bar) => sum + bar.confidence, 0) / Math.max(1, inside.length),
      right: inside.filter((bar) => bar.right).length / Math.max(1, inside.length),
      bars: inside.length,
    };
  }).filter((row) => row.bars > 0);
}

/**
 * Answering without a question those that are surest: the largest share of `all` of which at least `precision` are
 * right, and the sureness from which on they are answered. A level holds for all that are as sure.
 *
 * @example answeredAt([{ confidence: 0.9, right: true }, { confidence: 0.5, right: false }], 0.95) // { share: 0.5, level: 0.9 }
 */
export function answeredAt(all: readonly Said[], precision: number): { share: number; level: number } {
  const surest = [...all].sort((a, b) => b.confidence - a.confidence);
  let best = { share: 0, level: Number.NaN };
  let right = 0;
  surest.forEach((one, i) => {
    if (one.right) right++;
    if (surest[i + 1]?.confidence === one.confidence || right < precision * (i + 1)) return;
    best = { share: (i + 1) / surest.length, level: one.confidence };
  });
  return best;
}
