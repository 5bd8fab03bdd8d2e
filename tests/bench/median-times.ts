/** Each round runs as often as fills this time, so that the collector's work is counted with its cause. */
const ROUND_MS = 25;
const ROUNDS = 21;
const WARM_MS = 1_000;

/**
 * Time of one call of each function, in milliseconds of this process's own time, so that neighbours do not count:
 * all are warm, rounds of one and the other alternate, and the median of the rounds stands.
 */
export function medianTimes(runs: readonly (() => unknown)[]): number[] {
  const often = runs.map((run) => {
    const start = processorMs();
    let calls = 0;
    while (processorMs() - start < WARM_MS) {
      run();
      calls++;
    }
    return Math.max(1, Math.round((calls * ROUND_MS) / (processorMs() - start)));
  });
  const times = runs.map((): number[] => []);
  for (let round = 0; round < ROUNDS; round++) {
    runs.forEach((run, index) => {
      const start = processorMs();
      for (let call = 0; call < often[index]!; call++) run();
      times[index]!.push((processorMs() - start) / often[index]!);
    });
  }
  return times.map((list) => list.sort((a, b) => a - b)[ROUNDS >> 1]!);
}

function processorMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
