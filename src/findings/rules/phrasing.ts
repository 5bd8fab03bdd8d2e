import type { AccountNote } from "../../account.ts";
import { ids } from "../facts.ts";
import { beyond, type Rule } from "../rule.ts";
import { countInWords, listInWords, placesInWords, shareInWords, timesInWords } from "../words.ts";

/** Place in the bar at which a note starts, in the meter's beats, or null. */
const startBeat = (note: AccountNote | undefined) => note?.beat ?? null;

export const PHRASING: readonly Rule[] = [
  {
    id: "rests-breathe",
    heading: "phrasing and shape",
    kind: "works",
    measure: "share of the solo's time in which it rests",
    threshold: 0.2,
    reason: "Between a fifth and a half, as a singer or a wind player must [practice].",
    least: { notes: 16, phrases: 3 },
    importance: 0.8,
    find({ account, phrases }, threshold) {
      const { rests } = account.rhythm;
      if (rests < threshold || rests > 0.55) return null;
      const after = phrases
        .filter(({ phrase }) => phrase.restSeconds > 0)
        .map(({ notes }) => notes[notes.length - 1]);
      const ends = after.filter((note) => note !== undefined);
      return {
        strength: 1 - Math.min(1, Math.abs(rests - 0.36) / 0.16),
        evidence: ids(ends),
        words: { share: shareInWords(rests), places: placesInWords(ends, account.alignment.choruses) },
      };
    },
    wording: [
      "You leave room: {share} of the time the line is silent, and what you played goes on sounding in the listener (after {places}).",
      "Your phrases breathe. {share} of the time is rest, and the rests do as much work as the notes (listen after {places}).",
    ],
    practice: null,
  },
  {
    id: "rests-few",
    heading: "phrasing and shape",
    kind: "practise",
    measure: "share of the solo's time in which it rests",
    threshold: 0.12,
    reason: "Under an eighth of the time: half a bar in four, less than a breath for each phrase [practice].",
    least: { notes: 32 },
    importance: 0.85,
    find({ account, phrases }, threshold) {
      const { rests } = account.rhythm;
      if (rests > threshold) return null;
      const longest = [...phrases].sort((a, b) => b.phrase.seconds - a.phrase.seconds)[0];
      const notes = longest?.notes ?? [];
      return {
        strength: beyond(rests, threshold, -0.12),
        evidence: ids(notes),
        words: {
          share: rests < 0.02 ? "hardly any" : shareInWords(rests),
          places: placesInWords(notes.slice(0, 1), account.alignment.choruses) || "the first bar",
        },
      };
    },
    wording: [
      "The line rests {share} of the time. Play two bars, count two bars: start where your longest phrase starts, in {places}.",
      "There is much to hear and {share} of the time to take it in. Breathe out audibly after each phrase and do not play until you have breathed in; begin at {places}.",
    ],
    practice: {
      kind: "rests",
      title: "Two bars on, two bars off",
      text: "Play only in the bars that carry notes; the left hand or the click carries the others.",
    },
  },
  {
    id: "phrases-answer",
    heading: "phrasing and shape",
    kind: "works",
    measure: "share of phrases that answer the one before",
    threshold: 0.3,
    reason: "Nearly one in three: a conversation rather than a list [practice].",
    least: { notes: 16, phrases: 4 },
    importance: 0.85,
    find({ phrases, account }, threshold) {
      const answers = phrases.filter(({ phrase }) => phrase.answers !== null);
      const share = answers.length / phrases.length;
      if (answers.length < 2 || share < threshold) return null;
      const notes = answers.flatMap((one) => one.notes);
      return {
        strength: beyond(share, threshold, 0.4),
        evidence: ids(notes),
        words: {
          times: timesInWords(answers.length),
          places: placesInWords(
            answers.flatMap((one) => one.notes.slice(0, 1)),
            account.alignment.choruses,
          ),
        },
      };
    },
    wording: [
      "Your phrases talk to each other: {times} one answers the phrase before it ({places}).",
      "Call and answer is at work: the phrases that start in {places} reply to what came before.",
    ],
    practice: null,
  },
  {
    id: "phrases-do-not-answer",
    heading: "phrasing and shape",
    kind: "practise",
    measure: "share of phrases that answer the one before",
    threshold: 0.1,
    reason: "Fewer than one in ten, in eight phrases or more, is a list of ideas [practice].",
    least: { notes: 32, phrases: 8 },
    importance: 0.65,
    find({ phrases, account }, threshold) {
      const answers = phrases.filter(({ phrase }) => phrase.answers !== null);
      if (answers.length / phrases.length > threshold) return null;
      const first = phrases.find(({ notes }) => notes.length >= 4) ?? phrases[0]!;
      return {
        strength: beyond(answers.length / phrases.length, threshold, -0.1),
        evidence: ids(first.notes),
        words: {
          count: countInWords(phrases.length),
          places: placesInWords(first.notes.slice(0, 1), account.alignment.choruses),
        },
      };
    },
    wording: [
      "Of {count} phrases hardly one takes up the phrase before it. Ask with the phrase in {places}, wait, and answer in the same rhythm.",
    ],
    practice: {
      kind: "call and answer",
      title: "Ask and answer",
      text: "The printed bar asks; answer it in the empty bar, first with the same rhythm, then with your own.",
    },
  },
  {
    id: "phrase-starts-vary",
    heading: "phrasing and shape",
    kind: "works",
    measure: "largest share of phrases that start on the same beat of the bar",
    threshold: 0.35,
    reason: "With eight places an eighth apart, a third on the favourite one is well spread [practice].",
    least: { notes: 24, phrases: 6 },
    importance: 0.5,
    find({ phrases, account }, threshold) {
      const { share, count } = favouriteStart(phrases.map(({ notes }) => notes[0]));
      if (count < 6 || share > threshold) return null;
      const starts = phrases.map(({ notes }) => notes[0]).filter((note) => note !== undefined);
      return {
        strength: beyond(share, threshold, -0.2),
        evidence: ids(starts),
        words: { count: countInWords(count), places: placesInWords(starts, account.alignment.choruses) },
      };
    },
    wording: [
      "Your {count} phrases start on many different beats, so nobody can guess when you will speak next ({places}).",
    ],
    practice: null,
  },
  {
    id: "phrase-starts-alike",
    heading: "phrasing and shape",
    kind: "practise",
    measure: "largest share of phrases that start on the same beat of the bar",
    threshold: 0.7,
    reason: "Seven in ten on one of eight places [practice].",
    least: { notes: 24, phrases: 6 },
    importance: 0.65,
    find({ phrases, account }, threshold) {
      const { share, beat, notes } = favouriteStart(phrases.map((one) => one.notes[0]));
      if (notes.length < 4 || share < threshold || beat === null) return null;
      return {
        strength: beyond(share, threshold, 0.3),
        evidence: ids(notes),
        words: {
          share: shareInWords(share),
          beat: beatInWords(beat),
          places: placesInWords(notes, account.alignment.choruses),
        },
      };
    },
    wording: [
      "{share} of your phrases start on {beat} ({places}). Begin the same phrase an eighth later, then two beats later, and keep the one that surprises you.",
    ],
    practice: {
      kind: "entries",
      title: "The same phrase, another beat",
      text: "Your phrase entering on each beat in turn, then on each off-beat.",
    },
  },
  {
    id: "phrase-without-breath",
    heading: "phrasing and shape",
    kind: "practise",
    measure: "longest phrase in seconds",
    threshold: 12,
    reason: "Longer than a wind player's comfortable breath in mid-phrase, about 8 to 10 seconds [practice].",
    least: { notes: 32 },
    importance: 0.6,
    find({ phrases, account }, threshold) {
      const longest = [...phrases].sort((a, b) => b.phrase.seconds - a.phrase.seconds)[0];
      if (longest === undefined || longest.phrase.seconds < threshold || longest.notes.length < 16)
        return null;
      return {
        strength: beyond(longest.phrase.seconds, threshold, 12),
        evidence: ids(longest.notes),
        words: {
          seconds: String(Math.round(longest.phrase.seconds)),
          places: placesInWords(longest.notes.slice(0, 1), account.alignment.choruses),
        },
      };
    },
    wording: [
      "The phrase that starts in {places} goes on for {seconds} seconds. Play it while you breathe out; where the breath ends, the phrase ends.",
    ],
    practice: {
      kind: "rests",
      title: "One breath, one phrase",
      text: "No phrase longer than one breath, and a full breath between two.",
    },
  },
  {
    id: "phrase-lengths-vary",
    heading: "phrasing and shape",
    kind: "works",
    measure: "longest middle phrase over shortest: quartiles of the number of notes",
    threshold: 1.8,
    reason: "Short and long phrases side by side: the upper quartile nearly twice the lower [practice].",
    least: { notes: 24, phrases: 6 },
    importance: 0.4,
    find({ phrases, account }, threshold) {
      const lengths = phrases.map(({ notes }) => notes.length).sort((a, b) => a - b);
      const low = lengths[Math.floor(lengths.length / 4)]!;
      const high = lengths[Math.floor((3 * lengths.length) / 4)]!;
      if (low < 1 || high / low < threshold) return null;
      const short = phrases.filter(({ notes }) => notes.length === low).slice(0, 1);
      const long = phrases.filter(({ notes }) => notes.length === high).slice(0, 1);
      const starts = [...short, ...long].flatMap(({ notes }) => notes.slice(0, 1));
      return {
        strength: beyond(high / low, threshold, 2),
        evidence: ids([...short, ...long].flatMap(({ notes }) => notes)),
        words: {
          low: countInWords(low),
          high: countInWords(high),
          places: placesInWords(starts, account.alignment.choruses),
        },
      };
    },
    wording: [
      "Short phrases of {low} notes stand beside long ones of {high} ({places}); the story has short sentences and long ones.",
    ],
    practice: null,
  },
  {
    id: "phrase-shapes-vary",
    heading: "phrasing and shape",
    kind: "works",
    measure: "different outlines among the phrases of four notes or more",
    threshold: 4,
    reason: "Four of the six outlines in use [practice].",
    least: { notes: 24, phrases: 6 },
    importance: 0.4,
    find({ phrases, account }, threshold) {
      const shaped = phrases.filter(({ notes }) => notes.length >= 4);
      const shapes = [...new Set(shaped.map(({ phrase }) => phrase.shape))];
      if (shapes.length < threshold) return null;
      const shown = shapes.map((shape) => shaped.find(({ phrase }) => phrase.shape === shape)!);
      return {
        strength: beyond(shapes.length, threshold - 1, 3),
        evidence: ids(shown.flatMap(({ notes }) => notes)),
        words: {
          shapes: listInWords(shapes),
          places: placesInWords(
            shown.flatMap(({ notes }) => notes.slice(0, 1)),
            account.alignment.choruses,
          ),
        },
      };
    },
    wording: [
      "The outlines differ ({shapes}): look at the phrases in {places} and see how each draws another line.",
    ],
    practice: null,
  },
  {
    id: "phrase-shapes-alike",
    heading: "phrasing and shape",
    kind: "practise",
    measure: "share of phrases of four notes or more with the same outline",
    threshold: 0.75,
    reason: "Three in four draw the same line [practice].",
    least: { notes: 32, phrases: 6 },
    importance: 0.5,
    find({ phrases, account }, threshold) {
      const shaped = phrases.filter(({ notes }) => notes.length >= 4);
      if (shaped.length < 6) return null;
      const counts = new Map<string, number>();
      for (const { phrase } of shaped) counts.set(phrase.shape, (counts.get(phrase.shape) ?? 0) + 1);
      const [shape, count] = [...counts].sort((a, b) => b[1] - a[1])[0]!;
      if (count / shaped.length < threshold) return null;
      const alike = shaped.filter(({ phrase }) => phrase.shape === shape);
      return {
        strength: beyond(count / shaped.length, threshold, 0.25),
        evidence: ids(alike.flatMap(({ notes }) => notes)),
        words: {
          share: shareInWords(count / shaped.length),
          shape: OUTLINES[shape] ?? shape,
          places: placesInWords(
            alike.flatMap(({ notes }) => notes.slice(0, 1)),
            account.alignment.choruses,
          ),
        },
      };
    },
    wording: [
      "{share} of your phrases {shape} ({places}). Draw the opposite line in the air with a finger, then play it.",
    ],
    practice: {
      kind: "call and answer",
      title: "Answer with the other outline",
      text: "Where the printed bar rises, your answer falls, and the other way round.",
    },
  },
  {
    id: "seam-played-across",
    heading: "phrasing and shape",
    kind: "works",
    measure: "phrases that go across the end of a chorus",
    threshold: 1,
    reason: "The double bar is for the eye; a phrase across it hides the form [practice].",
    least: { notes: 24, choruses: 2 },
    importance: 0.5,
    find({ phrases, account }, threshold) {
      const last = account.chart.bars.length;
      const across = phrases.filter(({ notes }) =>
        notes.some((note, i) => i > 0 && note.chorus > notes[i - 1]!.chorus && notes[i - 1]!.bar === last),
      );
      if (across.length < threshold) return null;
      return {
        strength: beyond(across.length, threshold - 1, 3),
        evidence: ids(across.flatMap(({ notes }) => notes)),
        words: {
          times: timesInWords(across.length),
          places: placesInWords(
            across.flatMap(({ notes }) => notes.slice(0, 1)),
            account.alignment.choruses,
          ),
        },
      };
    },
    wording: [
      "You play across the seam between choruses ({times}: the phrase from {places}), so the form flows on.",
    ],
    practice: null,
  },
  {
    id: "density-builds",
    heading: "phrasing and shape",
    kind: "works",
    measure: "notes a bar in the last chorus over the first",
    threshold: 1.25,
    reason:
      "A quarter more is heard as growth [practice]; the last chorus must also be the fullest or next to it.",
    least: { notes: 40, choruses: 2 },
    importance: 0.6,
    find({ account, solo }, threshold) {
      const densities = account.choruses.map((one) => one.density.perBar);
      const [first, last] = [densities[0]!, densities[densities.length - 1]!];
      if (first <= 0 || last / first < threshold) return null;
      if (densities.filter((density) => density > last).length > 1) return null;
      return {
        strength: beyond(last / first, threshold, 0.75),
        evidence: ids(solo.filter((note) => note.chorus === account.choruses.length).slice(0, 16)),
        words: { first: first.toFixed(1), last: last.toFixed(1) },
      };
    },
    wording: ["The solo grows: from {first} notes a bar in the first chorus to {last} in the last."],
    practice: null,
  },
  {
    id: "starts-full",
    heading: "phrasing and shape",
    kind: "practise",
    measure: "notes a bar in the first chorus over the last",
    threshold: 1.35,
    reason: "A third more at the start than at the end is heard as running out [practice].",
    least: { notes: 40, choruses: 2 },
    importance: 0.5,
    find({ account, solo }, threshold) {
      const densities = account.choruses.filter((one) => one.notes > 0).map((one) => one.density.perBar);
      if (densities.length < 2) return null;
      const [first, last] = [densities[0]!, densities[densities.length - 1]!];
      if (last <= 0 || first / last < threshold) return null;
      return {
        strength: beyond(first / last, threshold, 1),
        evidence: ids(solo.filter((note) => note.chorus === 1).slice(0, 16)),
        words: { first: first.toFixed(1), last: last.toFixed(1) },
      };
    },
    wording: [
      "You begin with {first} notes a bar and end with {last}. Start the first chorus with half of what you know, and you have somewhere to go.",
    ],
    practice: {
      kind: "rests",
      title: "A first chorus of few words",
      text: "One short phrase in every second bar, the rest is silence; the next time round one phrase a bar.",
    },
  },
  {
    id: "peak-placed-late",
    heading: "phrasing and shape",
    kind: "works",
    measure: "place of the highest note, as a share of the solo's length",
    threshold: 0.55,
    reason: "After the middle and before the very end, as in most well-made melodies [practice].",
    least: { notes: 32, phrases: 4 },
    importance: 0.45,
    find({ solo, account }, threshold) {
      const top = Math.max(...solo.map((note) => note.pitch));
      const peaks = solo.filter((note) => note.pitch === top);
      const [first, last] = [solo[0]!, solo[solo.length - 1]!];
      const length = last.onset - first.onset;
      if (peaks.length > 3 || length <= 0) return null;
      const where = (peaks[0]!.onset - first.onset) / length;
      if (where < threshold || where > 0.95) return null;
      return {
        strength: 0.6,
        evidence: ids(peaks),
        words: { places: placesInWords(peaks, account.alignment.choruses), note: peaks[0]!.spelling },
      };
    },
    wording: [
      "The highest note, {note}, is saved for {places}: the solo has a summit, and it stands where a summit should.",
    ],
    practice: null,
  },
  {
    id: "endings-all-on-root",
    heading: "phrasing and shape",
    kind: "practise",
    measure: "share of phrases that end on the chord's root",
    threshold: 0.6,
    reason: "With four chord tones to end on, more than half on one says full stop too often [practice].",
    least: { notes: 24, phrases: 5 },
    importance: 0.55,
    find({ phrases, account }, threshold) {
      const ends = phrases.map(({ notes }) => notes[notes.length - 1]).filter((note) => note !== undefined);
      const roots = ends.filter((note) => note.role === "root");
      if (roots.length / ends.length < threshold) return null;
      return {
        strength: beyond(roots.length / ends.length, threshold, 0.4),
        evidence: ids(roots),
        words: {
          share: shareInWords(roots.length / ends.length),
          places: placesInWords(roots, account.alignment.choruses),
        },
      };
    },
    wording: [
      "{share} of your phrases end on the root ({places}), each like a full stop. End one on a third or a ninth and hear it ask for more.",
    ],
    practice: {
      kind: "call and answer",
      title: "Question marks",
      text: "End the first answer on the third, the second on the fifth, and only the last on the root.",
    },
  },
  {
    id: "endings-open",
    heading: "phrasing and shape",
    kind: "works",
    measure: "share of phrases that end on a third, a seventh or a tension",
    threshold: 0.5,
    reason: "Half of the phrases ask for more [practice].",
    least: { notes: 24, phrases: 5 },
    importance: 0.4,
    find({ phrases, account }, threshold) {
      const ends = phrases.map(({ notes }) => notes[notes.length - 1]).filter((note) => note !== undefined);
      const open = ends.filter((note) => note.guideTone || note.role === "tension");
      if (open.length / ends.length < threshold) return null;
      return {
        strength: beyond(open.length / ends.length, threshold, 0.4),
        evidence: ids(open),
        words: {
          share: shareInWords(open.length / ends.length),
          places: placesInWords(open, account.alignment.choruses),
        },
      };
    },
    wording: [
      "{share} of your phrases end open, on a third, a seventh or a colour ({places}), and make one want the next.",
    ],
    practice: null,
  },
];

const OUTLINES: Readonly<Record<string, string>> = {
  arch: "rise and fall again",
  valley: "fall and rise again",
  rising: "rise",
  falling: "fall",
  level: "stay level",
  wave: "move in waves",
};

function beatInWords(beat: number): string {
  const whole = Math.floor(beat);
  return Math.abs(beat - whole) < 0.01
    ? `beat ${countInWords(whole)}`
    : `the off-beat after ${countInWords(whole)}`;
}

function favouriteStart(starts: readonly (AccountNote | undefined)[]): {
  share: number;
  count: number;
  beat: number | null;
  notes: AccountNote[];
} {
  const byBeat = new Map<number, AccountNote[]>();
  let count = 0;
  for (const note of starts) {
    const beat = startBeat(note);
    if (note === undefined || beat === null) continue;
    const rounded = Math.round(beat * 2) / 2;
    byBeat.set(rounded, [...(byBeat.get(rounded) ?? []), note]);
    count++;
  }
  const [beat, notes] = [...byBeat].sort((a, b) => b[1].length - a[1].length)[0] ?? [null, []];
  return { share: count === 0 ? 0 : notes.length / count, count, beat, notes };
}
