import type { AccountMotif, AccountNote } from "../../account.ts";
import { between, type Facts, ids, motifStarts } from "../facts.ts";
import { beyond, type Rule } from "../rule.ts";
import { countInWords, placesInWords, shareInWords, timesInWords } from "../words.ts";

const MELODIC: readonly string[] = ["chromatic interval", "interval and rhythm", "degree", "finger"];

/** A motif of which more than this lies in stepwise runs is a scale, not an idea. [practice] */
const MOSTLY_SCALE = 0.5;

/** Motifs that a listener can follow as melody: four notes or more, not scales, the most heard first. */
function melodic(facts: Facts): AccountMotif[] {
  const running = new Set(facts.runs.flatMap(({ notes }) => ids(notes)));
  return facts.account.motifs
    .filter((motif) => MELODIC.includes(motif.viewpoint) && motif.length >= 4)
    .filter((motif) => {
      const notes = notesOf(facts, motif);
      return notes.filter((note) => running.has(note.id)).length <= MOSTLY_SCALE * notes.length;
    })
    .sort(
      (a, b) => b.length * b.occurrences.length - a.length * a.occurrences.length || (a.id < b.id ? -1 : 1),
    );
}

function notesOf(facts: Facts, motif: AccountMotif): AccountNote[] {
  return motif.occurrences.flatMap((occurrence) => between(facts.solo, facts.place, occurrence));
}

const intervals = (notes: readonly AccountNote[]) =>
  notes.slice(1).map((note, i) => note.pitch - notes[i]!.pitch);

export const MOTIVIC_DEVELOPMENT: readonly Rule[] = [
  {
    id: "motif-returns",
    heading: "melodic and motivic development",
    kind: "works",
    measure: "occurrences of one motif of four notes or more",
    threshold: 3,
    reason:
      "Once is an event, twice an echo, three times an idea [practice]; kept only when chance would not give it.",
    least: { notes: 24 },
    importance: 0.95,
    find(facts, threshold) {
      const motif = melodic(facts).find((one) => one.occurrences.length >= threshold);
      if (motif === undefined) return null;
      const starts = motifStarts(facts, motif);
      return {
        strength: beyond(motif.occurrences.length + motif.length / 2, threshold + 1, 5),
        evidence: ids(notesOf(facts, motif)),
        words: {
          length: countInWords(motif.length),
          times: timesInWords(motif.occurrences.length),
          places: placesInWords(starts, facts.account.alignment.choruses, 4),
        },
      };
    },
    wording: [
      "An idea of {length} notes is heard {times} ({places}). You stay with it long enough for a listener to make friends with it.",
      "You state something and you keep it: the same {length}-note idea is heard {times}, in {places}.",
    ],
    practice: null,
  },
  {
    id: "motif-moved",
    heading: "melodic and motivic development",
    kind: "works",
    measure: "occurrences of a motif at another pitch, by the same intervals or the same fingers",
    threshold: 2,
    reason: "Two moved statements show that it was moved on purpose [practice].",
    least: { notes: 24 },
    importance: 0.9,
    find(facts, threshold) {
      for (const motif of melodic(facts)) {
        const moved = motif.occurrences.filter(
          (one) =>
            (one.relation === "transposed" || one.relation === "same fingering") &&
            one.transposition !== null &&
            one.transposition % 12 !== 0,
        );
        if (moved.length < threshold) continue;
        const notes = moved.map((one) => facts.byId.get(one.firstNote)).filter((note) => note !== undefined);
        return {
          strength: beyond(moved.length, threshold - 1, 4),
          evidence: ids(notesOf(facts, motif)),
          words: {
            length: countInWords(motif.length),
            times: timesInWords(moved.length),
            places: placesInWords(notes, facts.account.alignment.choruses),
          },
        };
      }
      return null;
    },
    wording: [
      "You take an idea of {length} notes and move it, {times}, to another place under the hand ({places}): that is development.",
    ],
    practice: null,
  },
  {
    id: "motif-carried-over",
    heading: "melodic and motivic development",
    kind: "works",
    measure: "choruses in which the same motif is heard",
    threshold: 2,
    reason: "An idea that survives the double bar ties choruses together [practice].",
    least: { notes: 40, choruses: 2 },
    importance: 0.75,
    find(facts, threshold) {
      for (const motif of melodic(facts)) {
        const starts = motifStarts(facts, motif);
        const heard = new Set(starts.map((note) => note.chorus));
        if (heard.size < threshold) continue;
        return {
          strength: beyond(heard.size, threshold - 1, 3),
          evidence: ids(notesOf(facts, motif)),
          words: {
            choruses: countInWords(heard.size),
            places: placesInWords(starts, facts.account.alignment.choruses, 4),
          },
        };
      }
      return null;
    },
    wording: [
      "One idea lives in {choruses} choruses ({places}); the solo tells one story instead of starting anew each time.",
    ],
    practice: null,
  },
  {
    id: "no-motif-kept",
    heading: "melodic and motivic development",
    kind: "practise",
    measure: "solo notes without any motif of three notes or more that returns more often than chance",
    threshold: 48,
    reason: "In six bars of eighths an idea has had time to return [practice].",
    least: { notes: 48, phrases: 4 },
    importance: 0.85,
    find({ account, solo, phrases }, threshold) {
      if (solo.length < threshold) return null;
      if (account.motifs.some((motif) => motif.length >= 3 && MELODIC.includes(motif.viewpoint))) return null;
      const first = phrases.find(({ notes }) => notes.length >= 4) ?? phrases[0];
      if (first === undefined) return null;
      return {
        strength: beyond(solo.length, threshold, 100),
        evidence: ids(first.notes),
        words: { places: placesInWords(first.notes.slice(0, 1), account.alignment.choruses) },
      };
    },
    wording: [
      "There are many ideas and none of them comes back. Take the one in {places}, play it again on the next chord, and change only its end.",
      "Each phrase brings something new. Choose one you like, perhaps the one in {places}, and give it three chances before you leave it.",
    ],
    practice: {
      kind: "motif to every placement",
      title: "One idea, every place",
      text: "An idea of your own, moved with the same fingers to each placement of the form.",
    },
  },
  {
    id: "motif-never-moved",
    heading: "melodic and motivic development",
    kind: "practise",
    measure: "returns of a motif, all at the same pitch",
    threshold: 3,
    reason: "After three statements at one pitch a listener waits for it to move [practice].",
    least: { notes: 24 },
    importance: 0.6,
    find(facts, threshold) {
      const motifs = melodic(facts);
      const stay = (motif: AccountMotif) => motif.occurrences.every((one) => one.transposition === 0);
      const motif = motifs.find((one) => one.occurrences.length >= threshold && stay(one));
      if (motif === undefined || motifs.some((one) => !stay(one))) return null;
      const starts = motifStarts(facts, motif);
      return {
        strength: beyond(motif.occurrences.length, threshold - 1, 4),
        evidence: ids(notesOf(facts, motif)),
        words: {
          times: timesInWords(motif.occurrences.length),
          places: placesInWords(starts, facts.account.alignment.choruses),
        },
      };
    },
    wording: [
      "You keep your idea, {times} on the very same keys ({places}). Now carry it to the other placement with the same fingers and hear what the chord makes of it.",
    ],
    practice: {
      kind: "motif to every placement",
      title: "The same fingers, another place",
      text: "Your motif on every placement of the form, the fingering unchanged.",
    },
  },
  {
    id: "runs-take-over",
    heading: "melodic and motivic development",
    kind: "practise",
    measure: "share of solo notes in stepwise runs of five notes or more",
    threshold: 0.4,
    reason: "Beyond two notes in five, scales are the subject and no longer the link [practice].",
    least: { notes: 32 },
    importance: 0.85,
    find({ solo, runs, account }, threshold) {
      const inside = new Set(runs.flatMap(({ notes }) => ids(notes)));
      const share = inside.size / solo.length;
      if (share < threshold) return null;
      const longest = [...runs].sort((a, b) => b.run.length - a.run.length)[0]!;
      return {
        strength: beyond(share, threshold, 0.35),
        evidence: solo.filter((note) => inside.has(note.id)).map((note) => note.id),
        words: {
          share: shareInWords(share),
          longest: countInWords(longest.run.length),
          places: placesInWords(longest.notes.slice(0, 1), account.alignment.choruses),
        },
      };
    },
    wording: [
      "{share} of the notes run up or down a scale (the longest, {longest} notes, starts in {places}). Keep one run as an event, and turn or skip after four notes elsewhere.",
      "The scale is in your fingers: {share} of the notes belong to runs. Break the next one after three notes with a third, and leave a rest behind it.",
    ],
    practice: {
      kind: "call and answer",
      title: "Three notes, a turn, a breath",
      text: "Answer each given bar with no more than three steps in one direction.",
    },
  },
  {
    id: "one-run-as-event",
    heading: "melodic and motivic development",
    kind: "works",
    measure:
      "stepwise runs of six notes or more in a take where less than a quarter of the notes are in runs",
    threshold: 1,
    reason: "A run that is rare is heard as a gesture [practice].",
    least: { notes: 32 },
    importance: 0.35,
    find({ solo, runs, account }, threshold) {
      const long = runs.filter(({ run }) => run.length >= 6);
      const inside = runs.reduce((sum, { run }) => sum + run.length, 0);
      if (long.length < threshold || long.length > 3 || inside / solo.length > 0.25) return null;
      const notes = long.flatMap((one) => one.notes);
      return {
        strength: 0.6,
        evidence: ids(notes),
        words: {
          places: placesInWords(
            long.map((one) => one.notes[0]!),
            account.alignment.choruses,
          ),
        },
      };
    },
    wording: ["You save the fast scale for a moment that wants it ({places}), so it arrives as an event."],
    practice: null,
  },
  {
    id: "steps-and-leaps-balanced",
    heading: "melodic and motivic development",
    kind: "works",
    measure: "share of intervals inside phrases larger than a whole step",
    threshold: 0.3,
    reason: "Between three and six in ten, a line has both flow and corners [practice].",
    least: { notes: 24 },
    importance: 0.4,
    find({ phrases }, threshold) {
      const all = phrases.flatMap(({ notes }) => intervals(notes));
      if (all.length < 20) return null;
      const skips = all.filter((step) => Math.abs(step) > 2).length / all.length;
      const thirds = phrases.flatMap(({ notes }) =>
        notes.slice(1).filter((n, i) => Math.abs(n.pitch - notes[i]!.pitch) > 2),
      );
      if (skips < threshold || skips > 0.6) return null;
      return {
        strength: 1 - Math.min(1, Math.abs(skips - 0.45) / 0.15),
        evidence: ids(thirds.slice(0, 12)),
        words: { share: shareInWords(skips) },
      };
    },
    wording: [
      "Steps and skips are in balance: {share} of the moves are a third or more, so the line has corners to hold on to.",
    ],
    practice: null,
  },
  {
    id: "all-steps",
    heading: "melodic and motivic development",
    kind: "practise",
    measure: "share of intervals inside phrases that are steps",
    threshold: 0.8,
    reason: "Four of five moves by step: the line has no corners [practice].",
    least: { notes: 32 },
    importance: 0.6,
    find({ phrases, account }, threshold) {
      const steps = phrases.flatMap(({ notes }) =>
        notes.slice(1).filter((note, i) => {
          const size = Math.abs(note.pitch - notes[i]!.pitch);
          return size === 1 || size === 2;
        }),
      );
      const all = phrases.reduce((sum, { notes }) => sum + notes.length - 1, 0);
      if (all < 24 || steps.length / all < threshold) return null;
      return {
        strength: beyond(steps.length / all, threshold, 0.2),
        evidence: ids(steps.slice(0, 16)),
        words: {
          share: shareInWords(steps.length / all),
          places: placesInWords(steps, account.alignment.choruses, 2),
        },
      };
    },
    wording: [
      "{share} of your moves are steps. Let a phrase open with a third or a fifth, as if it called someone across the street.",
    ],
    practice: {
      kind: "call and answer",
      title: "Open with a skip",
      text: "Answer each given bar with a phrase whose first move is a third or more.",
    },
  },
  {
    id: "leaps-turned-back",
    heading: "melodic and motivic development",
    kind: "works",
    measure: "share of leaps of a fifth or more followed by a move in the other direction",
    threshold: 0.75,
    reason: "Gap-fill, a rule of any book on melody [practice].",
    least: { notes: 24 },
    importance: 0.4,
    find({ phrases, account }, threshold) {
      const leaps: { notes: readonly AccountNote[]; turned: boolean }[] = [];
      for (const { notes } of phrases) {
        for (let i = 1; i + 1 < notes.length; i++) {
          const leap = notes[i]!.pitch - notes[i - 1]!.pitch;
          if (Math.abs(leap) < 7) continue;
          const after = notes[i + 1]!.pitch - notes[i]!.pitch;
          leaps.push({ notes: notes.slice(i - 1, i + 2), turned: leap * after < 0 });
        }
      }
      const turned = leaps.filter((leap) => leap.turned);
      if (leaps.length < 4 || turned.length / leaps.length < threshold) return null;
      const notes = turned.flatMap((leap) => leap.notes);
      return {
        strength: beyond(turned.length / leaps.length, threshold, 0.25),
        evidence: [...new Set(ids(notes))],
        words: {
          count: countInWords(leaps.length),
          places: placesInWords(notes, account.alignment.choruses),
        },
      };
    },
    wording: [
      "Of your {count} wide leaps nearly all turn back into the gap they opened ({places}): leaps that sing.",
    ],
    practice: null,
  },
];
