/** Findings that would contradict each other on one page; the heavier of a pair is said. Read it like a list of faults. */
export const EXCLUSIONS: readonly (readonly [string, string])[] = [
  ["placements-both-used", "common-placement-left"],
  ["placements-both-used", "placement-unused"],
  ["placements-both-used", "one-placement-only"],
  ["placements-both-used", "shifts-wide"],
  ["common-placement-kept", "common-placement-left"],
  ["common-placement-kept", "shifts-come-late"],
  ["fingering-moved", "one-placement-only"],
  ["fingering-moved", "no-motif-kept"],
  ["slides-taken", "slides-missed"],
  ["motif-returns", "no-motif-kept"],
  ["motif-returns", "phrases-do-not-answer"],
  ["motif-moved", "motif-never-moved"],
  ["motif-moved", "no-motif-kept"],
  ["motif-moved", "phrases-do-not-answer"],
  ["motif-carried-over", "no-motif-kept"],
  ["motif-carried-over", "phrases-do-not-answer"],
  ["phrases-answer", "phrases-do-not-answer"],
  ["phrases-answer", "no-motif-kept"],
  ["anticipations-used", "changes-passed-by"],
  ["guide-tones-meet-changes", "changes-passed-by"],
  ["guide-tones-meet-changes", "roots-too-safe"],
  ["outside-notes-resolved", "outside-notes-left-hanging"],
  ["blue-notes-speak", "blues-without-blue-notes"],
  ["colours-held", "avoid-notes-leaned-on"],
  ["colours-held", "roots-too-safe"],
  ["steps-and-leaps-balanced", "all-steps"],
  ["steps-and-leaps-balanced", "runs-take-over"],
  ["one-run-as-event", "runs-take-over"],
  ["one-run-as-event", "all-steps"],
  ["rests-breathe", "rests-few"],
  ["rests-breathe", "phrase-without-breath"],
  ["rests-breathe", "half-of-the-notes"],
  ["phrase-lengths-vary", "phrase-without-breath"],
  ["phrase-shapes-vary", "phrase-shapes-alike"],
  ["phrase-starts-vary", "phrase-starts-alike"],
  ["endings-open", "endings-all-on-root"],
  ["density-builds", "starts-full"],
  ["range-wide", "range-narrow"],
  ["register-climbs", "register-static"],
  ["low-register-used", "range-narrow"],
  ["note-values-mixed", "one-note-value"],
  ["off-beat-life", "one-note-value"],
  ["swing-settled", "swing-unsettled"],
  ["swing-settled", "swing-changes-by-chorus"],
  ["tempo-steady", "tempo-drifts"],
  ["tempo-steady", "tempo-uneven"],
  ["early-against-the-beat", "late-against-the-beat"],
];

/** Findings that would say the same thing twice; the heavier of a pair is said. */
export const REPEATS: readonly (readonly [string, string])[] = [
  ["motif-returns", "motif-carried-over"],
  ["one-placement-only", "placement-unused"],
  ["changes-passed-by", "third-of-a-chord-unplayed"],
  ["runs-take-over", "all-steps"],
];

/** True when a list pairs the two. */
export function arePaired(pairs: typeof EXCLUSIONS, a: string, b: string): boolean {
  return pairs.some(([x, y]) => (x === a && y === b) || (x === b && y === a));
}
