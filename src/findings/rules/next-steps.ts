import { ids } from "../facts.ts";
import { beyond, type Rule } from "../rule.ts";
import { placesInWords } from "../words.ts";

/** What anybody can do next; said only when a take leaves little else to say, hence their low importance. */
export const NEXT_STEPS: readonly Rule[] = [
  {
    id: "idea-in-another-key",
    heading: "melodic and motivic development",
    kind: "practise",
    measure: "notes of the longest phrase that lies in the middle of the take's phrase lengths",
    threshold: 4,
    reason:
      "Four notes are enough to carry to another key; an idea is owned when it can be played anywhere [practice].",
    least: { notes: 24, phrases: 3 },
    importance: 0.15,
    find({ phrases, account }, threshold) {
      const sorted = [...phrases].sort((a, b) => a.notes.length - b.notes.length);
      const middle = sorted[Math.floor(sorted.length / 2)];
      if (middle === undefined || middle.notes.length < threshold) return null;
      return {
        strength: beyond(middle.notes.length, threshold - 1, 6),
        evidence: ids(middle.notes),
        words: { places: placesInWords(middle.notes.slice(0, 1), account.alignment.choruses) },
      };
    },
    wording: [
      "The phrase that starts in {places} is worth owning: carry it to two other keys with the same fingers, slowly.",
    ],
    practice: {
      kind: "motif to every placement",
      title: "Your phrase, other keys",
      text: "The same fingers on every place of the form, here and in two other keys.",
    },
  },
  {
    id: "half-of-the-notes",
    heading: "phrasing and shape",
    kind: "practise",
    measure: "solo notes a bar",
    threshold: 3,
    reason: "From three notes a bar on there is something to leave out [practice].",
    least: { notes: 24 },
    importance: 0.14,
    find({ solo, account }, threshold) {
      const bars = account.alignment.bars.length;
      const density = bars === 0 ? 0 : solo.length / bars;
      if (density < threshold) return null;
      return {
        strength: beyond(density, threshold, 4),
        evidence: ids(solo.slice(0, 8)),
        words: { places: placesInWords(solo.slice(0, 1), account.alignment.choruses) },
      };
    },
    wording: [
      "Play the chorus again with half of the notes, beginning in {places}: keep those that you would sing.",
    ],
    practice: {
      kind: "rests",
      title: "What can be left out",
      text: "Two bars played, two bars left to the listener; sing what you do not play.",
    },
  },
  {
    id: "last-phrase-first",
    heading: "phrasing and shape",
    kind: "practise",
    measure: "notes of the last phrase",
    threshold: 4,
    reason:
      "A last phrase of four notes or more can open the next solo, so that takes grow out of each other [practice].",
    least: { notes: 24, phrases: 3 },
    importance: 0.13,
    find({ phrases, account }, threshold) {
      const last = phrases[phrases.length - 1];
      if (last === undefined || last.notes.length < threshold) return null;
      return {
        strength: beyond(last.notes.length, threshold - 1, 6),
        evidence: ids(last.notes),
        words: { places: placesInWords(last.notes.slice(0, 1), account.alignment.choruses) },
      };
    },
    wording: [
      "Begin the next solo with the phrase that ended this one (from {places}) and see where it leads from there.",
    ],
    practice: {
      kind: "call and answer",
      title: "The end as a beginning",
      text: "The printed bar asks; each answer must begin with its last two notes.",
    },
  },
];
