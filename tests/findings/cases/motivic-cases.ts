import { eighths } from "../account-builder.ts";
import { motif, occurrence, phrasesAt, type RuleCases, talk } from "./case-kit.ts";

const heard = (occurrences: Parameters<typeof motif>[1], choruses = 1) => ({
  notes: talk(8 * choruses),
  choruses,
  over: { motifs: [motif(4, occurrences)] },
});

const moved = { relation: "transposed", transposition: 5 } as const;

/** Eight phrases, `runs` of which are a five-note scale. */
const scales = (runs: number) => ({
  notes: Array.from({ length: 8 }, (_, k) =>
    eighths(k * 6, k < runs ? [60, 62, 64, 65, 67] : [65, 69, 67, 72, 69]),
  ).flat(),
});

/** Eight phrases of five notes; in `skipping` of the 32 moves a third, else a step back and forth. */
const skips = (skipping: number) => ({
  notes: Array.from({ length: 8 }, (_, k) => {
    let pitch = 65;
    let up = true;
    const pitches = [pitch];
    for (let i = 0; i < 4; i++) {
      const size = k * 4 + i < skipping ? 3 : 2;
      pitch += up ? size : -size;
      up = !up;
      pitches.push(pitch);
    }
    return eighths(k * 6, pitches);
  }).flat(),
});

const TURNED = [60, 68, 66, 65, 63];
const NOT_TURNED = [60, 68, 70, 69, 68];

/** Phrases a half step apart, since the same leap again is no other leap, and one without a leap. */
const leaping = (phrases: readonly (readonly number[])[]) => [
  ...phrases.flatMap((pitches, k) =>
    phrasesAt(
      [k * 6],
      pitches.map((pitch) => pitch + k),
    ),
  ),
  ...phrasesAt([24]),
];

export const MOTIVIC_CASES: RuleCases = {
  "motif-returns": {
    fires: heard([occurrence(1, 4), occurrence(11, 4), occurrence(21, 4)]),
    near: heard([occurrence(1, 4), occurrence(11, 4)]),
  },
  "motif-moved": {
    fires: heard([occurrence(1, 4), occurrence(11, 4, moved), occurrence(21, 4, moved)]),
    near: heard([occurrence(1, 4), occurrence(11, 4, moved), occurrence(21, 4)]),
  },
  "motif-carried-over": {
    fires: heard([occurrence(1, 4), occurrence(46, 4, { chorus: 2 })], 2),
    near: heard([occurrence(1, 4), occurrence(11, 4)], 2),
  },
  "no-motif-kept": {
    fires: { notes: [...talk(8), ...phrasesAt([48, 54])].slice(0, 48), choruses: 2 },
    near: { notes: [...talk(8), ...phrasesAt([48, 54])].slice(0, 47), choruses: 2 },
  },
  "motif-never-moved": {
    fires: heard([occurrence(1, 4), occurrence(11, 4), occurrence(21, 4)]),
    near: heard([occurrence(1, 4), occurrence(11, 4), occurrence(21, 4, moved)]),
  },
  "runs-take-over": { fires: scales(4), near: scales(3) },
  "one-run-as-event": {
    fires: { notes: [...talk(7), ...eighths(42, [60, 62, 64, 65, 67, 69])] },
    near: { notes: [...talk(7), ...eighths(42, [60, 62, 64, 65, 67])] },
  },
  "steps-and-leaps-balanced": { fires: skips(13), near: skips(12) },
  "all-steps": { fires: skips(6), near: skips(7) },
  "leaps-turned-back": {
    fires: { notes: leaping([TURNED, TURNED, TURNED, TURNED]) },
    near: { notes: leaping([TURNED, TURNED, NOT_TURNED, NOT_TURNED]) },
  },
};
