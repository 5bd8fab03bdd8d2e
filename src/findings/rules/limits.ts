import { ids } from "../facts.ts";
import { beyond, type Rule } from "../rule.ts";
import { placesInWords, shareInWords } from "../words.ts";

/** Notices about what the account itself can and cannot carry. */
export const LIMITS: readonly Rule[] = [
  {
    id: "take-is-short",
    heading: "phrasing and shape",
    kind: "notice",
    measure: "number of solo notes",
    threshold: 24,
    reason: "Most rules here need about two dozen notes to speak at all [practice].",
    least: { notes: 1 },
    importance: 1,
    find({ solo }, threshold) {
      if (solo.length >= threshold) return null;
      return { strength: 1, evidence: ids(solo), words: { notes: String(solo.length) } };
    },
    wording: [
      "This is a short take ({notes} notes), so little is said about habits. A chorus or two more would tell more.",
    ],
    practice: null,
  },
  {
    id: "bars-uncertain",
    heading: "time and feel",
    kind: "notice",
    measure: "confidence that the bars lie where the account puts them, 0 to 1",
    threshold: 0.6,
    reason: "Below it one bar in three or so may stand in the wrong place [practice].",
    least: { notes: 1 },
    importance: 1,
    find({ account }, threshold) {
      if (account.alignment.confidence >= threshold) return null;
      return {
        strength: beyond(account.alignment.confidence, threshold, -threshold),
        evidence: [],
        words: {},
      };
    },
    wording: [
      "It is not certain that the bar lines lie where this page puts them. Pin one or two bars by hand before you trust what is said about beats and chords.",
    ],
    practice: null,
  },
  {
    id: "free-time",
    heading: "time and feel",
    kind: "notice",
    measure: "1 when the take was read without a beat",
    threshold: 1,
    reason: "Without a beat there is no early or late, no swing and no off-beat to speak of.",
    least: { notes: 1 },
    importance: 0.8,
    find({ account }, threshold) {
      if ((account.alignment.method === "rubato" ? 1 : 0) < threshold) return null;
      return { strength: 1, evidence: [], words: {} };
    },
    wording: [
      "The take is in free time, so nothing is said about swing, beats and tempo; chords and phrases are read from what you play.",
    ],
    practice: null,
  },
  {
    id: "hand-not-explained",
    heading: "keyboard technique",
    kind: "notice",
    measure: "share of solo notes that lie in one of the shapes",
    threshold: 0.6,
    reason:
      "Below it more than every third note was fingered in a way that the shapes do not tell [practice].",
    least: { notes: 24 },
    importance: 0.5,
    find({ account, solo }, threshold) {
      if (account.handFit.share >= threshold) return null;
      const free = solo.filter((note) => note.placement === null);
      return {
        strength: beyond(account.handFit.share, threshold, -0.4),
        evidence: ids(free.slice(0, 24)),
        words: {
          share: shareInWords(account.handFit.share),
          places: placesInWords(free, account.alignment.choruses),
        },
      };
    },
    wording: [
      "Only {share} of the notes lie in a shape that this page knows ({places} do not). Your hand may use a shape of its own: it can be added.",
    ],
    practice: null,
  },
];
