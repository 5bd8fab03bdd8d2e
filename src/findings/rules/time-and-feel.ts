import type { AccountNote } from "../../account.ts";
import { ids } from "../facts.ts";
import { beyond, type Rule } from "../rule.ts";
import { countInWords, listInWords, placesInWords, shareInWords } from "../words.ts";

/** A difference in tempo smaller than this share cannot be heard (Friberg & Sundberg 1995). */
const HEARD_TEMPO = 0.025;

const offBeats = (notes: readonly AccountNote[]) =>
  notes.filter((note) => note.beat !== null && Math.abs((note.beat % 1) - 0.5) < 0.01);

const onBeats = (notes: readonly AccountNote[]) =>
  notes.filter((note) => note.beat !== null && Math.abs(note.beat % 1) < 0.01);

const ratio = (value: number) => `${value.toFixed(1)}:1`;

export const TIME_AND_FEEL: readonly Rule[] = [
  {
    id: "swing-settled",
    heading: "time and feel",
    kind: "works",
    measure: "spread of the beat-upbeat ratio: interquartile range over median",
    threshold: 0.45,
    reason:
      "Soloists' ratios scatter widely even in good playing (Corcoran & Frieler 2021); under half of the median the ear takes the pairs for one feel [practice].",
    least: { notes: 24 },
    importance: 0.7,
    find({ account, solo }, threshold) {
      const { swing } = account.rhythm;
      if (swing === null || swing.beats < 12 || swing.median < 1.15) return null;
      const spread = (swing.q3 - swing.q1) / swing.median;
      if (spread > threshold) return null;
      return {
        strength: beyond(spread, threshold, -0.3),
        evidence: ids(offBeats(solo).slice(0, 12)),
        words: { ratio: ratio(swing.median), beats: String(swing.beats) },
      };
    },
    wording: [
      "Your eighth notes keep one feel: long and short stay near {ratio} over {beats} beats, so the line swings without being pushed.",
      "The pairs of eighths agree with one another, about {ratio} over {beats} beats. That settled feel lets a listener follow the ideas.",
    ],
    practice: null,
  },
  {
    id: "swing-unsettled",
    heading: "time and feel",
    kind: "practise",
    measure: "spread of the beat-upbeat ratio: interquartile range over median",
    threshold: 0.9,
    reason:
      "Half of the pairs then lie further apart than straight eighths lie from triplets at the same median [practice]; the ratio itself is free, it falls with tempo (Friberg & Sundstrom 2002).",
    least: { notes: 24 },
    importance: 0.7,
    find({ account, solo }, threshold) {
      const { swing } = account.rhythm;
      if (swing === null || swing.beats < 12) return null;
      const spread = (swing.q3 - swing.q1) / swing.median;
      if (spread < threshold) return null;
      return {
        strength: beyond(spread, threshold, 0.8),
        evidence: ids(offBeats(solo).slice(0, 12)),
        words: { low: ratio(swing.q1), high: ratio(swing.q3) },
      };
    },
    wording: [
      "Your pairs of eighths change from beat to beat, mostly between {low} and {high}. Choose one feel for a chorus and sing it before you play.",
      "The short note of each pair wanders: from {low} to {high} in the middle half of your beats. Any of these can swing; let one of them lead.",
    ],
    practice: {
      kind: "even pairs",
      title: "One feel for eight bars",
      text: "Play the pairs on one placement, first sung, then played, at the slowest step of the plan; move to the next step when four bars in a row feel the same.",
    },
  },
  {
    id: "swing-changes-by-chorus",
    heading: "time and feel",
    kind: "notice",
    measure: "largest difference between the median ratios of two choruses",
    threshold: 0.45,
    reason: "Well outside the spread within one chorus of a settled player [practice].",
    least: { notes: 32, choruses: 2 },
    importance: 0.4,
    find({ account, solo }, threshold) {
      const known = account.choruses.filter((one) => one.swing !== null && one.swing.beats >= 8);
      if (known.length < 2) return null;
      const sorted = [...known].sort((a, b) => a.swing!.median - b.swing!.median);
      const [low, high] = [sorted[0]!, sorted[sorted.length - 1]!];
      const difference = high.swing!.median - low.swing!.median;
      if (difference < threshold) return null;
      return {
        strength: beyond(difference, threshold, 0.6),
        evidence: ids(
          offBeats(solo.filter((n) => n.chorus === low.chorus || n.chorus === high.chorus)).slice(0, 12),
        ),
        words: {
          straight: String(low.chorus),
          swung: String(high.chorus),
          low: ratio(low.swing!.median),
          high: ratio(high.swing!.median),
        },
      };
    },
    wording: [
      "Chorus {straight} is played straighter ({low}) than chorus {swung} ({high}). If that was meant, it is a strong contrast; listen whether it was.",
    ],
    practice: null,
  },
  {
    id: "tempo-steady",
    heading: "time and feel",
    kind: "works",
    measure: "standard deviation of the bars' tempos over their mean, without a click",
    threshold: HEARD_TEMPO,
    reason: "A change of 2.5 % is the least that can be heard (Friberg & Sundberg 1995).",
    least: { notes: 24 },
    importance: 0.75,
    find({ account }, threshold) {
      const { tempoStability } = account.rhythm;
      if (account.alignment.method !== "tracked" || tempoStability === null) return null;
      if (tempoStability.variation > threshold || Math.abs(tempoStability.drift) > 2.5) return null;
      return {
        strength: beyond(tempoStability.variation, threshold, -HEARD_TEMPO),
        evidence: [],
        words: { tempo: String(Math.round(account.alignment.tempo?.median ?? 0)) },
      };
    },
    wording: [
      "The tempo holds near {tempo} to within what an ear can tell, and a listener can lean on it.",
      "The pulse stays at about {tempo} from first bar to last; everything else can rest on that.",
    ],
    practice: null,
  },
  {
    id: "tempo-drifts",
    heading: "time and feel",
    kind: "practise",
    measure: "drift of the tempo, percent a minute",
    threshold: 4,
    reason:
      "Over a minute the tempo moves by more than one and a half times what can be heard at once (2.5 %, Friberg & Sundberg 1995).",
    least: { notes: 24 },
    importance: 0.8,
    find({ account }, threshold) {
      const drift = account.rhythm.tempoStability?.drift ?? 0;
      const { tempo, method } = account.alignment;
      if (method !== "tracked" || tempo === null || Math.abs(drift) < threshold) return null;
      const up = drift > 0;
      return {
        strength: beyond(Math.abs(drift), threshold, 10),
        evidence: [],
        words: {
          way: up ? "gets faster" : "slows down",
          low: String(Math.round(tempo.slowest)),
          high: String(Math.round(tempo.fastest)),
          drift: Math.abs(drift).toFixed(0),
        },
      };
    },
    wording: [
      "The tempo {way} by about {drift} % a minute (bars between {low} and {high}). Tap two and four with the foot and let the foot lead the hand.",
      "Over the take the pulse {way}, some {drift} % a minute. Busy bars are often where it starts: play them again slowly with a click on two and four.",
    ],
    practice: {
      kind: "steady time",
      title: "Click on two and four",
      text: "The same four bars with the click on two and four only, then with one click in two bars; check that you meet it.",
    },
  },
  {
    id: "tempo-uneven",
    heading: "time and feel",
    kind: "practise",
    measure: "standard deviation of the bars' tempos over their mean, without a click",
    threshold: 0.06,
    reason:
      "More than twice the least change that can be heard (2.5 %, Friberg & Sundberg 1995), bar for bar.",
    least: { notes: 24 },
    importance: 0.65,
    find({ account }, threshold) {
      const { tempoStability } = account.rhythm;
      if (account.alignment.method !== "tracked" || tempoStability === null) return null;
      if (tempoStability.variation < threshold || Math.abs(tempoStability.drift) >= 4) return null;
      return {
        strength: beyond(tempoStability.variation, threshold, 0.08),
        evidence: [],
        words: { percent: (tempoStability.variation * 100).toFixed(0) },
      };
    },
    wording: [
      "Bars come out longer and shorter by about {percent} %, without going one way. Count the rests aloud: that is where bars stretch.",
    ],
    practice: {
      kind: "steady time",
      title: "Count through the rests",
      text: "Two bars played, two bars of rest counted aloud, with the click on two and four.",
    },
  },
  {
    id: "early-against-the-beat",
    heading: "time and feel",
    kind: "practise",
    measure: "median of the timing, milliseconds early",
    threshold: 20,
    reason:
      "Three times the least difference that can be heard between short notes (6 ms, Friberg & Sundberg 1995), so that nothing near the limit is criticised.",
    least: { notes: 24 },
    importance: 0.7,
    find({ account, solo }, threshold) {
      const { timing } = account.rhythm;
      if (timing === null || !timing.heard || timing.median > -threshold) return null;
      return {
        strength: beyond(-timing.median, threshold, 40),
        evidence: ids(onBeats(solo.filter((note) => (note.timing ?? 0) < 0)).slice(0, 12)),
        words: {
          time: String(Math.round(-timing.median)),
          against: timing.against === "grid" ? "the click" : "your other hand",
        },
      };
    },
    wording: [
      "The line tends to run ahead of {against}, by about {time} milliseconds. Breathe out on beat one and let the beat come to you.",
      "Many notes arrive some {time} milliseconds before {against}. Play the same phrase laid back on purpose, then find the middle.",
    ],
    practice: {
      kind: "steady time",
      title: "Let the beat come",
      text: "Quarter notes on one placement against the click: four bars late on purpose, four bars early on purpose, four bars in the middle.",
    },
  },
  {
    id: "late-against-the-beat",
    heading: "time and feel",
    kind: "notice",
    measure: "median of the timing, milliseconds late",
    threshold: 20,
    reason:
      "Playing behind is a manner of many good soloists [practice]; said, not criticised, and only when it can be heard (6 ms or 2.5 %, Friberg & Sundberg 1995).",
    least: { notes: 24 },
    importance: 0.5,
    find({ account, solo }, threshold) {
      const { timing } = account.rhythm;
      if (timing === null || !timing.heard || timing.median < threshold) return null;
      return {
        strength: beyond(timing.median, threshold, 40),
        evidence: ids(onBeats(solo.filter((note) => (note.timing ?? 0) > 0)).slice(0, 12)),
        words: {
          time: String(Math.round(timing.median)),
          against: timing.against === "grid" ? "the click" : "your other hand",
        },
      };
    },
    wording: [
      "The line sits about {time} milliseconds behind {against}: laid back. Good if you meant it; try a chorus on top of the beat to own both.",
    ],
    practice: null,
  },
  {
    id: "off-beat-life",
    heading: "time and feel",
    kind: "works",
    measure: "share of onsets on weak places that are held over the next stronger place",
    threshold: 0.12,
    reason: "About one note in eight: at least one a bar in a line of eighths [practice].",
    least: { notes: 24 },
    importance: 0.55,
    find({ account, solo }, threshold) {
      const { syncopation } = account.rhythm;
      if (syncopation === null || syncopation < threshold) return null;
      const held = offBeats(solo).filter((note) => (note.beats ?? 0) >= 0.75);
      return {
        strength: beyond(syncopation, threshold, 0.2),
        evidence: ids(held.slice(0, 12)),
        words: { places: placesInWords(held, account.alignment.choruses) || "many bars" },
      };
    },
    wording: [
      "You play across the beat: notes struck on an off-beat and held over it give the line its lift (listen to {places}).",
      "Off-beats held over the next beat keep the line dancing; {places} show it well.",
    ],
    practice: null,
  },
  {
    id: "one-note-value",
    heading: "time and feel",
    kind: "practise",
    measure: "share of steps inside phrases that have the same length, in eighths",
    threshold: 0.88,
    reason: "Nearly nine notes in ten of one length leave rhythm without words of its own [practice].",
    least: { notes: 32 },
    importance: 0.6,
    find({ phrases }, threshold) {
      const steps = phrases.flatMap(({ notes }) =>
        notes.slice(1).flatMap((note, i) => {
          const before = notes[i]!;
          if (note.position === null || before.position === null) return [];
          return [{ note, length: Math.round((note.position - before.position) * 12) / 12 }];
        }),
      );
      if (steps.length < 24) return null;
      const counts = new Map<number, number>();
      for (const { length } of steps) counts.set(length, (counts.get(length) ?? 0) + 1);
      const [value, count] = [...counts].sort((a, b) => b[1] - a[1])[0]!;
      const share = count / steps.length;
      if (share < threshold) return null;
      const name =
        value === 0.5
          ? "eighth notes"
          : value === 1
            ? "quarter notes"
            : value === 0.25
              ? "sixteenths"
              : "one length";
      return {
        strength: beyond(share, threshold, 0.12),
        evidence: ids(steps.slice(0, 16).map(({ note }) => note)),
        words: { share: shareInWords(share), name },
      };
    },
    wording: [
      "Inside your phrases {share} of the notes are {name}. Say a sentence with the hands on your knees first, long and short, and then give it notes.",
      "{share} of the steps are {name}: the hand runs where it could speak. Keep the pitches of a phrase you like and change only its rhythm.",
    ],
    practice: {
      kind: "call and answer",
      title: "Same notes, new rhythm",
      text: "Play the given bar, then answer with the same notes in a rhythm that you clap first.",
    },
  },
  {
    id: "note-values-mixed",
    heading: "time and feel",
    kind: "works",
    measure: "number of different note lengths that each make up a tenth of the steps inside phrases",
    threshold: 3,
    reason: "Three lengths in real use are heard as a rhythm rather than as a stream [practice].",
    least: { notes: 24 },
    importance: 0.45,
    find({ phrases }, threshold) {
      const counts = new Map<number, AccountNote[]>();
      let steps = 0;
      for (const { notes } of phrases) {
        for (let i = 1; i < notes.length; i++) {
          const [a, b] = [notes[i - 1]!, notes[i]!];
          if (a.position === null || b.position === null) continue;
          const length = Math.round((b.position - a.position) * 12) / 12;
          counts.set(length, [...(counts.get(length) ?? []), b]);
          steps++;
        }
      }
      if (steps < 20) return null;
      const used = [...counts.values()].filter((notes) => notes.length / steps >= 0.1);
      if (used.length < threshold) return null;
      return {
        strength: beyond(used.length, threshold - 1, 3),
        evidence: ids(used.flatMap((notes) => notes.slice(0, 3)).sort((a, b) => a.onset - b.onset)),
        words: { count: countInWords(used.length) },
      };
    },
    wording: [
      "Long and short notes are mixed: {count} different lengths are in real use, so a listener can tell your phrases apart by rhythm alone.",
    ],
    practice: null,
  },
  {
    id: "time-varies-by-hand",
    heading: "time and feel",
    kind: "practise",
    measure: "interquartile range of the timing, milliseconds",
    threshold: 90,
    reason:
      "Half of the notes lie further apart than a sixteenth at a medium tempo is long in part; far above what can be heard (6 ms, Friberg & Sundberg 1995) and above the 30 to 60 ms of practised players [practice].",
    least: { notes: 32 },
    importance: 0.6,
    find({ account, solo }, threshold) {
      const { timing } = account.rhythm;
      if (timing === null) return null;
      const spread = timing.q3 - timing.q1;
      if (spread < threshold) return null;
      const far = solo
        .filter((note) => note.timing !== null)
        .sort((a, b) => Math.abs(b.timing!) - Math.abs(a.timing!))
        .slice(0, 8)
        .sort((a, b) => a.onset - b.onset);
      return {
        strength: beyond(spread, threshold, 80),
        evidence: ids(far),
        words: { places: placesInWords(far, account.alignment.choruses) || listInWords(["the take"]) },
      };
    },
    wording: [
      "Some notes arrive well before the beat and others well after it, most of all in {places}. Slow down until every note has its place, then come back by steps.",
    ],
    practice: {
      kind: "steady time",
      title: "Every note in its place",
      text: "Four bars of eighths on one placement with the click on every beat; a step faster only after two clean rounds.",
    },
  },
];
