import type { AccountPlacement, HandFit } from "../../../src/account.ts";
import type { Case } from "../account-builder.ts";
import { handFit, motif, occurrence, type RuleCases, talk } from "./case-kit.ts";

const SHAPE = "third-and-steps";

const used = (anchorDegree: "1" | "5", notes: number) => ({
  shape: SHAPE,
  anchorDegree,
  anchor: anchorDegree === "1" ? "F" : "C",
  notes,
});

const onF7 = (
  usedNow: HandFit["byChord"][number]["used"],
  unused: HandFit["byChord"][number]["used"] = [],
) => ({
  notes: talk(),
  over: handFit({ byChord: [{ chord: "F7", share: 1, used: usedNow, unused }] }),
});

const onTwoChords = (usedNow: HandFit["byChord"][number]["used"]) => ({
  notes: talk(),
  over: handFit({
    byChord: ["F7", "Bb7"].map((chord) => ({ chord, share: 1, used: usedNow, unused: [] })),
  }),
});

/** Placements of so many notes each, at two anchor pitches in turn. */
const standing = (notes: readonly number[]) => {
  let next = 1;
  const placements = notes.map((count, i): AccountPlacement => {
    const start = next;
    next += count;
    return {
      id: `h${i + 1}`,
      shape: SHAPE,
      anchorPitch: i % 2 === 0 ? 65 : 72,
      anchorFinger: 2,
      anchorDegree: i % 2 === 0 ? "1" : "5",
      chord: "F7",
      chorus: 1,
      bar: 1,
      beat: 1,
      firstNote: `n${start}`,
      lastNote: `n${next - 1}`,
      notes: count,
      shift: i === 0 ? null : 7,
      fitsChord: true,
    };
  });
  return { notes: talk(), over: { placements } };
};

const changes = (taken: readonly boolean[]) => ({
  notes: talk(),
  over: handFit({
    shifts: {
      count: 4,
      distance: 20,
      median: 5,
      late: [],
      common: taken.map((one, i) => ({
        chorus: 1,
        bar: i + 2,
        beat: 1,
        taken: one,
        placement: "index on F",
      })),
    },
  }),
});

const shifts = (part: Partial<HandFit["shifts"]>) => ({
  notes: talk(),
  over: handFit({ shifts: { count: 8, distance: 40, median: 5, late: [], common: [], ...part } }),
});

const slid = (count: number) => ({
  notes: talk(),
  over: handFit({
    slides: {
      taken: Array.from({ length: count }, (_, i) => ({
        from: `n${i * 5 + 1}`,
        to: `n${i * 5 + 2}`,
        idiomatic: true,
      })),
      missed: [],
      possible: count,
    },
  }),
});

/** The same fingers at notes 1 and 11, the second time a fourth higher. */
const sameFingers = (fingers: readonly number[]) => ({
  notes: talk(),
  over: {
    motifs: [
      {
        ...motif(fingers.length, [
          occurrence(1, fingers.length, { relation: "same fingering" }),
          occurrence(11, fingers.length, { relation: "same fingering", transposition: 5 }),
        ]),
        viewpoint: "finger" as const,
        pattern: [...fingers],
      },
    ],
  },
});

const missed = (count: number) => ({
  notes: talk(),
  over: handFit({
    slides: { taken: [], missed: Array.from({ length: count }, (_, i) => `n${i * 3 + 1}`), possible: count },
  }),
});

/** Nothing is said of fingers unless a keyboard was surely played; here the teacher chose the shape. */
const onKeys = (one: Case): Case => ({
  ...one,
  over: { ...one.over, options: { ...one.over?.options, shapes: [SHAPE] } },
});

const CASES: RuleCases = {
  "placements-both-used": {
    fires: onTwoChords([used("1", 9), used("5", 8)]),
    near: onTwoChords([used("1", 9), used("5", 7)]),
  },
  "one-placement-only": { fires: standing([28, 12]), near: standing([27, 13]) },
  "placement-unused": {
    fires: onF7([used("1", 12)], [used("5", 0)]),
    near: onF7([used("1", 11)], [used("5", 0)]),
  },
  "common-placement-kept": {
    fires: changes([true, true, false, false]),
    near: changes([true, false, false, false]),
  },
  "common-placement-left": {
    fires: changes([true, false, false, false, false]),
    near: changes([true, true, false, false, false]),
  },
  "slides-taken": { fires: slid(2), near: slid(1) },
  "slides-missed": { fires: missed(12), near: missed(11) },
  "fingering-moved": { fires: sameFingers([2, 3, 4, 2, 1]), near: sameFingers([2, 3, 4, 2]) },
  // Phrases start in bars 1, 2 (beat 3), 4 and 5: notes 1, 6, 11 and 16.
  "shifts-come-late": {
    fires: shifts({ late: ["n1", "n6", "n11"] }),
    near: shifts({ late: ["n1", "n2", "n6"] }),
  },
  "shifts-wide": { fires: shifts({ median: 9 }), near: shifts({ median: 8 }) },
  "wide-stretch": {
    fires: {
      notes: talk(),
      over: handFit({ beyond: ["n1", "n2"], caution: "Take care." }),
    },
    // Stretches beyond comfort are the hand's daily work: no caution for them.
    near: {
      notes: talk(),
      over: handFit({ stretches: [{ from: "n1", to: "n2", fingers: [2, 3], semitones: 4 }], caution: null }),
    },
  },
};

export const KEYBOARD_CASES: RuleCases = Object.fromEntries(
  Object.entries(CASES).map(([id, { fires, near }]) => [id, { fires: onKeys(fires), near: onKeys(near) }]),
);
