import type { AccountNote } from "../../account.ts";
import { ids } from "../facts.ts";
import { beyond, type Rule } from "../rule.ts";
import { countInWords, listInWords, placesInWords, shareInWords, timesInWords } from "../words.ts";

const RESOLVING = new Set(["approach", "enclosure", "passing", "neighbour", "anticipation", "appoggiatura"]);

const choruses = (notes: readonly AccountNote[]) => Math.max(1, ...notes.map((note) => note.chorus));

export const HARMONIC_AWARENESS: readonly Rule[] = [
  {
    id: "guide-tones-meet-changes",
    heading: "harmonic awareness",
    kind: "works",
    measure: "share of chord changes met with a third or seventh within the first beat",
    threshold: 0.45,
    reason: "Chance alone gives about two tones of seven, 0.29 [practice]; this is half as much again.",
    least: { notes: 20 },
    importance: 0.9,
    find({ entries, solo }, threshold) {
      const met = entries.filter((entry) => entry.after < 1);
      if (met.length < 6) return null;
      const good = met.filter((entry) => entry.note.guideTone).map((entry) => entry.note);
      const share = good.length / met.length;
      if (share < threshold) return null;
      return {
        strength: beyond(share, threshold, 0.35),
        evidence: ids(good),
        words: { share: shareInWords(share), places: placesInWords(good, choruses(solo)) },
      };
    },
    wording: [
      "You meet {share} of the chord changes with a third or a seventh: the line alone tells which chord it is (for example {places}).",
      "The changes can be heard in your line without the left hand: {share} of them begin on a guide tone, as in {places}.",
    ],
    practice: null,
  },
  {
    id: "changes-passed-by",
    heading: "harmonic awareness",
    kind: "practise",
    measure: "share of chord changes met with a third or seventh within the first beat",
    threshold: 0.15,
    reason: "Half of what chance would give (about two tones of seven, 0.29) [practice].",
    least: { notes: 20 },
    importance: 0.8,
    find({ entries, solo }, threshold) {
      const met = entries.filter((entry) => entry.after < 1);
      if (met.length < 8) return null;
      const good = met.filter((entry) => entry.note.guideTone);
      const share = good.length / met.length;
      if (share > threshold) return null;
      const missed = met.filter((entry) => !entry.note.guideTone).map((entry) => entry.note);
      return {
        strength: beyond(share, threshold, -0.15),
        evidence: ids(missed),
        words: {
          good: timesInWords(good.length),
          all: String(met.length),
          places: placesInWords(missed, choruses(solo)),
        },
      };
    },
    wording: [
      "Of {all} chord changes that you play into, a third or a seventh greets the new chord {good}. Aim for the third at one change, say in {places}, and let the rest follow.",
    ],
    practice: {
      kind: "guide tones",
      title: "Thirds and sevenths through the form",
      text: "Half notes first: the third and the seventh of each chord by the shortest way. Then fill the way between them with your own notes.",
    },
  },
  {
    id: "third-of-a-chord-unplayed",
    heading: "harmonic awareness",
    kind: "practise",
    measure: "solo notes on a chord whose third is never played",
    threshold: 10,
    reason:
      "Ten notes leave room for every tone of a seven-tone scale; the third is the one that names the chord [practice].",
    least: { notes: 24 },
    importance: 0.7,
    find({ solo }, threshold) {
      const byChord = new Map<string, AccountNote[]>();
      for (const note of solo) {
        if (note.chord === null) continue;
        byChord.set(note.chord, [...(byChord.get(note.chord) ?? []), note]);
      }
      const without = [...byChord]
        .filter(([, notes]) => notes.length >= threshold && !notes.some((note) => note.role === "third"))
        .sort((a, b) => b[1].length - a[1].length);
      const [chord, notes] = without[0] ?? [];
      if (chord === undefined || notes === undefined) return null;
      return {
        strength: beyond(notes.length, threshold - 1, 20),
        evidence: ids(notes),
        words: { chord, notes: countInWords(notes.length), places: placesInWords(notes, choruses(solo)) },
      };
    },
    wording: [
      "Over {chord} you play {notes} notes and never its third, the note that tells {chord} from its neighbours. Find it under the hand and let one phrase land on it.",
      "The third of {chord} has not been played yet. Put it under a finger before {places} comes round, and wait for it.",
    ],
    practice: {
      kind: "guide tones",
      title: "The third of {chord}",
      text: "Land on the third each time that {chord} comes; play anything on the way there.",
    },
  },
  {
    id: "avoid-notes-leaned-on",
    heading: "harmonic awareness",
    kind: "practise",
    measure:
      "avoid notes on a strong place or held a beat or longer, not resolved by step, for each hundred notes",
    threshold: 4,
    reason:
      "One in twenty-five is heard as an accident; more as a habit [practice]. Avoid notes after the chord-scale handbooks (Nettles & Graf) [memory].",
    least: { notes: 24 },
    importance: 0.75,
    find({ solo }, threshold) {
      const leaned = solo.filter(
        (note) =>
          note.role === "avoid" &&
          (note.strength >= 0.5 || (note.beats ?? 0) >= 1) &&
          !(note.lineRole !== null && RESOLVING.has(note.lineRole)),
      );
      const rate = (100 * leaned.length) / solo.length;
      if (leaned.length < 2 || rate < threshold) return null;
      const named = [
        ...new Set(leaned.map((note) => `${note.spelling.replace(/-?\d+$/, "")} on ${note.chord}`)),
      ];
      return {
        strength: beyond(rate, threshold, 8),
        evidence: ids(leaned),
        words: {
          times: timesInWords(leaned.length),
          named: listInWords(named.slice(0, 2)),
          places: placesInWords(leaned, choruses(solo)),
        },
      };
    },
    wording: [
      "You lean {times} on a note that rubs against the chord ({named}). It is a fine passing note: move it on by a step, as you can try in {places}.",
      "{named}: a note that wants to move. You stay on it {times}, in {places}; resolve it to the chord tone a step away.",
    ],
    practice: {
      kind: "approach notes",
      title: "From the rub to the rest",
      text: "Play the rubbing note on purpose and resolve it by step, on every chord of the form.",
    },
  },
  {
    id: "outside-notes-resolved",
    heading: "harmonic awareness",
    kind: "works",
    measure: "share of notes outside the scale that lead by step into a chord tone",
    threshold: 0.75,
    reason: "Three in four: the ear takes them for direction, not for mistakes [practice].",
    least: { notes: 24 },
    importance: 0.6,
    find({ solo }, threshold) {
      const outside = solo.filter((note) => note.role === "outside");
      if (outside.length < 4) return null;
      const led = outside.filter(
        (note) => note.target !== null || (note.lineRole !== null && RESOLVING.has(note.lineRole)),
      );
      const share = led.length / outside.length;
      if (share < threshold) return null;
      return {
        strength: beyond(share, threshold, 0.25),
        evidence: ids(led),
        words: {
          share: shareInWords(share),
          count: countInWords(outside.length),
          places: placesInWords(led, choruses(solo)),
        },
      };
    },
    wording: [
      "Your chromatic notes go somewhere: {share} of the {count} step into a chord tone (hear {places}).",
      "You use {count} notes from outside the chord's scale and resolve {share} of them. That is control, not luck.",
    ],
    practice: null,
  },
  {
    id: "outside-notes-left-hanging",
    heading: "harmonic awareness",
    kind: "practise",
    measure: "notes outside the scale that do not lead anywhere, for each hundred notes",
    threshold: 6,
    reason: "About one note in sixteen, two bars of eighths: often enough to be heard as a habit [practice].",
    least: { notes: 24 },
    importance: 0.65,
    find({ solo }, threshold) {
      const hanging = solo.filter(
        (note) =>
          note.role === "outside" &&
          note.target === null &&
          !(note.lineRole !== null && RESOLVING.has(note.lineRole)),
      );
      const rate = (100 * hanging.length) / solo.length;
      if (hanging.length < 3 || rate < threshold) return null;
      return {
        strength: beyond(rate, threshold, 10),
        evidence: ids(hanging),
        words: { times: countInWords(hanging.length), places: placesInWords(hanging, choruses(solo)) },
      };
    },
    wording: [
      "{times} notes from outside the chord are left hanging ({places}). Keep the surprise, and finish it: one more step takes it home.",
    ],
    practice: {
      kind: "approach notes",
      title: "A half step home",
      text: "Into each chord tone from a half step below, then from above, chord by chord.",
    },
  },
  {
    id: "enclosures-used",
    heading: "harmonic awareness",
    kind: "works",
    measure: "chord tones reached from both sides",
    threshold: 2,
    reason: "Twice is not chance: it is in the vocabulary [practice].",
    least: { notes: 16 },
    importance: 0.6,
    find({ solo }, threshold) {
      const targets = [...new Set(solo.filter((n) => n.lineRole === "enclosure").map((n) => n.target))];
      if (targets.length < threshold) return null;
      const notes = solo.filter((note) => note.lineRole === "enclosure");
      return {
        strength: beyond(targets.length, threshold - 1, 4),
        evidence: ids(notes),
        words: { times: timesInWords(targets.length), places: placesInWords(notes, choruses(solo)) },
      };
    },
    wording: [
      "You circle a chord tone from above and below before you land, {times}: {places}. It makes the arrival feel earned.",
    ],
    practice: null,
  },
  {
    id: "approaches-land",
    heading: "harmonic awareness",
    kind: "works",
    measure: "share of solo notes that approach a chord tone by step",
    threshold: 0.1,
    reason: "One in ten: about one approach a bar in a line of eighths [practice].",
    least: { notes: 24 },
    importance: 0.5,
    find({ solo }, threshold) {
      const notes = solo.filter((note) => note.lineRole === "approach");
      const share = notes.length / solo.length;
      if (notes.length < 4 || share < threshold) return null;
      return {
        strength: beyond(share, threshold, 0.15),
        evidence: ids(notes),
        words: { times: timesInWords(notes.length), places: placesInWords(notes, choruses(solo)) },
      };
    },
    wording: [
      "You lead into chord tones by step, {times}; in {places} the line clearly knows where it is going.",
      "Approach notes lead your line to its targets ({times}, for instance in {places}).",
    ],
    practice: null,
  },
  {
    id: "anticipations-used",
    heading: "harmonic awareness",
    kind: "works",
    measure: "notes that play the next chord just before it comes",
    threshold: 3,
    reason: "Three show a habit of hearing ahead [practice].",
    least: { notes: 24 },
    importance: 0.6,
    find({ solo }, threshold) {
      const notes = solo.filter((note) => note.lineRole === "anticipation");
      if (notes.length < threshold) return null;
      return {
        strength: beyond(notes.length, threshold - 1, 5),
        evidence: ids(notes),
        words: { times: timesInWords(notes.length), places: placesInWords(notes, choruses(solo)) },
      };
    },
    wording: [
      "You hear ahead: {times} a note of the next chord is there just before the chord itself ({places}).",
    ],
    practice: null,
  },
  {
    id: "blue-notes-speak",
    heading: "harmonic awareness",
    kind: "works",
    measure: "share of blue notes in a blues",
    threshold: 0.06,
    reason:
      "About one in sixteen gives each phrase or two its blue note; above a quarter it is no colour any more [practice].",
    least: { notes: 24 },
    importance: 0.55,
    find({ account, solo }, threshold) {
      if (account.chart.idiom !== "blues") return null;
      const notes = solo.filter((note) => note.role === "blue");
      const share = notes.length / solo.length;
      if (notes.length < 3 || share < threshold || share > 0.28) return null;
      return {
        strength: beyond(share, threshold, 0.12),
        evidence: ids(notes),
        words: { times: timesInWords(notes.length), places: placesInWords(notes, choruses(solo)) },
      };
    },
    wording: [
      "Blue notes are there as colour and not as wallpaper: {times}, well placed in {places}.",
      "The blue third and its friends come {times}, enough to say blues and few enough to matter ({places}).",
    ],
    practice: null,
  },
  {
    id: "blues-without-blue-notes",
    heading: "harmonic awareness",
    kind: "practise",
    measure: "blue notes in a blues",
    threshold: 0,
    reason: "A blues chorus without one is rare in the repertoire [practice].",
    least: { notes: 32 },
    importance: 0.45,
    find({ account, solo }, threshold) {
      if (account.chart.idiom !== "blues") return null;
      const majors = solo.filter((note) => note.role === "third" && note.degree === "3");
      if (solo.some((note) => note.blueInKey) || majors.length === 0) return null;
      if (solo.filter((note) => note.role === "blue").length > threshold) return null;
      return {
        strength: 0.6,
        evidence: ids(majors.slice(0, 8)),
        words: { places: placesInWords(majors, choruses(solo)) },
      };
    },
    wording: [
      "The line is clear and sweet, and no blue note comes in it. Slide into a third from a half step below, for a start in {places}.",
    ],
    practice: {
      kind: "slides",
      title: "Into the third from below",
      text: "The fourth finger falls from the black key to the white key above it, into the third of the chord.",
    },
  },
  {
    id: "roots-too-safe",
    heading: "harmonic awareness",
    kind: "practise",
    measure: "share of solo notes that are the chord's root",
    threshold: 0.32,
    reason: "Twice the share that even use of a seven-tone scale would give (0.14) and more [practice].",
    least: { notes: 24 },
    importance: 0.55,
    find({ solo }, threshold) {
      const notes = solo.filter((note) => note.role === "root");
      const share = notes.length / solo.length;
      if (share < threshold) return null;
      return {
        strength: beyond(share, threshold, 0.2),
        evidence: ids(notes.slice(0, 16)),
        words: { share: shareInWords(share) },
      };
    },
    wording: [
      "{share} of your notes are the root of the chord. The bass has it already: start a phrase on the third, or end one on the ninth.",
    ],
    practice: {
      kind: "guide tones",
      title: "Leave the root to the bass",
      text: "One chorus in which no phrase begins or ends on a root.",
    },
  },
  {
    id: "colours-held",
    heading: "harmonic awareness",
    kind: "works",
    measure: "tensions or blue notes that stand for themselves, for each hundred notes",
    threshold: 8,
    reason: "One in twelve: a colour in nearly every phrase [practice].",
    least: { notes: 24 },
    importance: 0.5,
    find({ solo }, threshold) {
      const notes = solo.filter((note) => note.lineRole === "held colour" && note.role === "tension");
      const rate = (100 * notes.length) / solo.length;
      if (notes.length < 3 || rate < threshold) return null;
      const degrees = [...new Set(notes.map((note) => note.degree!))].slice(0, 3);
      return {
        strength: beyond(rate, threshold, 8),
        evidence: ids(notes),
        words: { degrees: listInWords(degrees), places: placesInWords(notes, choruses(solo)) },
      };
    },
    wording: ["You dare to rest on colours ({degrees}) and let them ring, as in {places}."],
    practice: null,
  },
];
