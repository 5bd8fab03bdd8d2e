import type { AccountPhrase } from "../../../src/account.ts";
import { eighths, type Written } from "../account-builder.ts";
import { phrasesAt, type RuleCases, rhythm, talk } from "./case-kit.ts";

const phrases = (list: readonly Partial<AccountPhrase>[]) => ({
  notes: talk(list.length),
  over: { phrases: list },
});

/** `count` of eight phrases answer. */
const answering = (count: number) =>
  phrases(Array.from({ length: 8 }, (_, k) => (k > 0 && k <= count ? { answers: `p${k}` } : {})));

const shaped = (shapes: readonly AccountPhrase["shape"][]) => phrases(shapes.map((shape) => ({ shape })));

/** Phrases of so many notes, eight beats apart. */
const lengths = (counts: readonly number[]) => ({
  notes: counts.flatMap((count, k) =>
    eighths(
      k * 8,
      Array.from({ length: count }, (_, i) => 65 + (i % 2) * 4),
    ),
  ),
  choruses: 2,
});

/** The last note of the first `count` of eight phrases carries the labels. */
const ending = (count: number, labels: Pick<Partial<Written>, "role" | "guideTone">) => ({
  notes: talk(8, (k, i) => (i === 4 && k < count ? labels : {})),
});

const stream = (notes: number) => ({
  notes: eighths(
    0,
    Array.from({ length: notes }, (_, i) => 65 + (i % 2) * 4),
  ),
  choruses: 1,
});

/** So many notes in each of two choruses, four in a phrase. */
const densities = (firstChorus: number, second: number) => ({
  notes: [firstChorus, second].flatMap((count, chorus) =>
    Array.from({ length: count }, (_, i) => ({
      at: chorus * 48 + Math.floor(i / 4) * 4 + (i % 4) / 2,
      pitch: 65 + (i % 2) * 4,
      beats: 0.5,
    })),
  ),
  choruses: 2,
});

/** Highest note in the given phrase of eight. */
const peakIn = (phrase: number) => ({
  notes: Array.from({ length: 8 }, (_, k) => eighths(k * 6, [65, 69, k === phrase ? 81 : 67, 72, 69])).flat(),
});

export const PHRASING_CASES: RuleCases = {
  "rests-breathe": {
    fires: { notes: talk(), over: rhythm({ rests: 0.3 }) },
    near: { notes: talk(), over: rhythm({ rests: 0.23 }) },
  },
  "rests-few": {
    fires: { notes: talk(), over: rhythm({ rests: 0.1 }) },
    near: { notes: talk(), over: rhythm({ rests: 0.14 }) },
  },
  "phrases-answer": { fires: answering(3), near: answering(2) },
  "phrases-do-not-answer": { fires: answering(0), near: answering(1) },
  "phrase-starts-vary": {
    fires: { notes: phrasesAt([0, 6.5, 13, 19.5, 26, 32.5, 39, 43.5]) },
    near: { notes: phrasesAt([0, 8, 16, 19.5, 26, 32.5, 39, 43.5]) },
  },
  "phrase-starts-alike": {
    fires: { notes: phrasesAt([0, 4, 8, 12, 16, 20, 25, 30]) },
    near: { notes: phrasesAt([0, 4, 8, 12, 16, 21, 25.5, 30]) },
  },
  "phrase-without-breath": { fires: stream(50), near: stream(46) },
  "phrase-lengths-vary": {
    fires: lengths([3, 3, 3, 4, 5, 6, 6, 6]),
    near: lengths([5, 5, 5, 5, 6, 8, 8, 8]),
  },
  "phrase-shapes-vary": {
    fires: shaped(["arch", "valley", "rising", "falling", "arch", "arch"]),
    near: shaped(["arch", "valley", "rising", "arch", "arch", "arch"]),
  },
  "phrase-shapes-alike": {
    fires: shaped(["arch", "arch", "arch", "arch", "arch", "arch", "valley", "wave"]),
    near: shaped(["arch", "arch", "arch", "arch", "arch", "rising", "valley", "wave"]),
  },
  "seam-played-across": {
    fires: { notes: [...talk(7), ...eighths(46.5, [65, 69, 67, 72, 69])], choruses: 2 },
    near: {
      notes: [...talk(7), ...eighths(44.5, [65, 69, 67, 72, 69]), ...eighths(48, [65, 69])],
      choruses: 2,
    },
  },
  "density-builds": { fires: densities(20, 25), near: densities(20, 24) },
  "starts-full": { fires: densities(28, 20), near: densities(26, 20) },
  "peak-placed-late": { fires: peakIn(5), near: peakIn(3) },
  "endings-all-on-root": { fires: ending(5, { role: "root" }), near: ending(4, { role: "root" }) },
  "endings-open": { fires: ending(4, { guideTone: true }), near: ending(3, { guideTone: true }) },
};

/** Two halves of 20 notes, or three of 24, around given pitches. */
const around = (centres: readonly number[], notes: number) => ({
  notes: centres.flatMap((centre, chorus) =>
    Array.from({ length: notes }, (_, i) => ({
      at: chorus * 48 + Math.floor(i / 4) * 4 + (i % 4) / 2,
      pitch: centre + [0, 2, -2, 0][i % 4]!,
      beats: 0.5,
    })),
  ),
  choruses: centres.length,
});

/** Half of the notes at one pitch, half at the other. */
const between = (low: number, high: number) => ({
  notes: Array.from({ length: 40 }, (_, i) => ({
    at: Math.floor(i / 4) * 4 + (i % 4) / 2,
    pitch: i % 2 === 0 ? low : high,
    beats: 0.5,
  })),
});

export const RANGE_CASES: RuleCases = {
  "range-wide": { fires: between(60, 77), near: between(60, 76) },
  "range-narrow": { fires: between(60, 70), near: between(60, 71) },
  "register-climbs": { fires: around([65, 70], 20), near: around([65, 69], 20) },
  "register-static": { fires: around([65, 67, 66], 24), near: around([65, 68, 66], 24) },
  "low-register-used": {
    fires: { notes: talk(8).map((note, i) => (i < 8 ? { ...note, pitch: 57 } : note)) },
    near: { notes: talk(8).map((note, i) => (i < 7 ? { ...note, pitch: 57 } : note)) },
  },
};

export const NEXT_STEP_CASES: RuleCases = {
  // Twelve bars: 78 notes are six and a half a bar.
  "half-of-the-notes": {
    fires: {
      notes: eighths(
        0,
        Array.from({ length: 78 }, (_, i) => 60 + (i % 12)),
      ),
    },
    near: {
      notes: eighths(
        0,
        Array.from({ length: 77 }, (_, i) => 60 + (i % 12)),
      ),
    },
  },
};
