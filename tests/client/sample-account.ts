/**
 * A made-up account for trying the pages: the right fields in the right ranges, with places, choruses and patterns as a
 * take would have them. Its labels are drawn by lot and mean nothing; the pages must show them as they stand.
 */
import { type AccountNote, type Analysis, optionsSchema } from "../../src/account.ts";
import { HARMONIC_ROLES, LINE_ROLES } from "../../src/harmony/roles.ts";

export interface SampleWishes {
  readonly choruses?: number;
  readonly notesPerBar?: number;
  readonly rubato?: boolean;
  readonly seed?: number;
}

const FORM = ["F7", "Bb7", "F7", "Cm7 F7", "Bb7", "Bo7", "F7", "D7", "Gm7", "C7", "F7 D7", "Gm7 C7"];
const NAMES = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"];
const DEGREE = ["1", "b9", "9", "b3", "3", "11", "#11", "5", "b13", "13", "b7", "7"] as const;

/** Mulberry32, for repeatable lots. */
function lots(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const PLAIN = { guideTone: false, blueInKey: false, target: null, slide: null, motifs: [] };

/** What no page is tried with: runs and devices. */
const NO_FIGURES = { runs: [], devices: [] };

/** An alignment that nobody has corrected and that nothing was to be said of. */
const UNPINNED = { anchors: [], map: [], warnings: [] };

export function sampleAccount(wishes: SampleWishes = {}): Analysis {
  const { choruses = 3, notesPerBar = 6, rubato = false, seed = 7 } = wishes;
  const lot = lots(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(lot() * list.length)]!;
  const beatSeconds = 0.5;
  const notes: AccountNote[] = [];
  let pitch = 65;
  let placement = 0;
  let phrase = 1;
  const placementsOf = new Map<string, AccountNote[]>();
  const phrasesOf = new Map<string, AccountNote[]>();
  for (let chorus = 1; chorus <= choruses; chorus++) {
    for (let bar = 1; bar <= FORM.length; bar++) {
      const chords = FORM[bar - 1]!.split(" ");
      placement++;
      for (let i = 0; i < notesPerBar; i++) {
        const place = (i * 4) / notesPerBar;
        if (bar % 4 === 0 && place >= 2.5) {
          if (i + 1 === notesPerBar) phrase++;
          continue;
        }
        const step = pick([-4, -3, -2, -2, -1, -1, 1, 1, 2, 2, 3, 4]);
        pitch = Math.min(86, Math.max(54, pitch + step));
        const beat = Math.floor(place * 2) / 2 + 1;
        const position = ((chorus - 1) * FORM.length + bar - 1) * 4 + beat - 1;
        const timing = (lot() - 0.4) * 0.12;
        const note: AccountNote = {
          id: `n${notes.length + 1}`,
          pitch,
          spelling: `${NAMES[pitch % 12]}${Math.floor(pitch / 12) - 1}`,
          onset: (position + timing) * beatSeconds + 1,
          duration: 0.2,
          beats: rubato ? null : 0.4,
          velocity: 80,
          hand: "right",
          solo: true,
          chorus,
          bar,
          beat: rubato ? null : beat,
          chord: chords[beat > 2.9 ? chords.length - 1 : 0]!,
          degree: pick(DEGREE),
          role: pick([...HARMONIC_ROLES, "root", "third", "fifth", "seventh"] as const),
          lineRole: pick(LINE_ROLES),
          strength: beat === 1 ? 1 : 0.5,
          placement: lot() < 0.9 ? `p${placement}` : null,
          ...PLAIN,
          finger: (1 + Math.floor(lot() * 5)) as 1 | 2 | 3 | 4 | 5,
          fingerSource: "inferred",
          phrase: `ph${phrase}`,
          timing: rubato ? null : timing,
          account: `A sample sentence about ${NAMES[pitch % 12]} over ${chords[0]}, drawn by lot for trying the pages.`,
          position: rubato ? null : position,
          source: `t1/${notes.length}/${pitch}`,
          handMargin: 1,
        };
        notes.push(note);
        if (note.placement)
          placementsOf.set(note.placement, [...(placementsOf.get(note.placement) ?? []), note]);
        phrasesOf.set(`ph${phrase}`, [...(phrasesOf.get(`ph${phrase}`) ?? []), note]);
      }
    }
  }
  const solo = notes.slice();
  const motifs = Array.from({ length: 6 }, (_, m): Analysis["motifs"][number] => {
    const length = 4 + (m % 3);
    const occurrences = Array.from({ length: 3 + (m % 4) }, (_, i) => {
      const from = Math.floor(((i + lot() * 0.6) / (3 + (m % 4))) * (solo.length - length));
      const part = solo.slice(from, from + length);
      for (const note of part) (note.motifs as string[]).push(`m${m + 1}`);
      return {
        firstNote: part[0]!.id,
        lastNote: part.at(-1)!.id,
        chorus: part[0]!.chorus,
        bar: part[0]!.bar,
        beat: part[0]!.beat,
        relation:
          i === 0
            ? ("exact" as const)
            : pick(["exact", "transposed", "same fingering", "rhythm", "varied"] as const),
        change: "",
        transposition: null,
        notes: length,
        phrase: part[0]!.phrase,
      };
    });
    return {
      id: `m${m + 1}`,
      viewpoint: pick(["chromatic interval", "finger", "rhythm"] as const),
      pattern: Array.from({ length: length - 1 }, () => pick([-2, -1, 1, 2, 3])),
      length,
      occurrences,
      expected: 0.6,
      q: 0.03,
      coverage: 0.1,
      compactness: 0.9,
      weight: 1,
      development: { firstHeard: { chorus: 1, bar: 1 }, byChorus: [], carriedOver: [], droppedFrom: null },
      answers: [],
    };
  });
  const registerOf = (list: readonly AccountNote[]): Analysis["register"] => {
    const pitches = list.map((note) => note.pitch).sort((a, b) => a - b);
    const counts = new Map<number, number>();
    for (const p of pitches) counts.set(p, (counts.get(p) ?? 0) + 1);
    const at = (q: number) => pitches[Math.floor(q * (pitches.length - 1))] ?? 60;
    return {
      low: pitches[0] ?? null,
      high: pitches.at(-1) ?? null,
      quantiles: [0.1, 0.25, 0.5, 0.75, 0.9].map(at),
      histogram: [...counts].map(([p, n]) => ({ pitch: p, notes: n })),
    };
  };
  const sharesOf = (
    list: readonly AccountNote[],
    key: "role" | "lineRole" | "degree",
  ): Record<string, number> => {
    const shares: Record<string, number> = {};
    for (const note of list) {
      const name = note[key] ?? "none";
      shares[name] = (shares[name] ?? 0) + 1 / list.length;
    }
    return shares;
  };
  const swing = rubato ? null : { median: 1.6, q1: 1.3, q3: 1.9, beats: 20, tempo: 120, short: 190 };
  return {
    schemaVersion: 1,
    analysisVersion: "sample",
    source: {
      name: "sample.mid",
      format: "midi",
      sha256: "0".repeat(64),
      notes: notes.length,
      seconds: choruses * 24 + 1,
      title: "Sample",
      parts: [{ id: "t1", name: "Piano", staves: 1, program: 0, notes: notes.length }],
    },
    chart: {
      name: "12-bar blues with a II-V turnaround",
      key: "F",
      meter: { beats: 4, unit: 4 },
      idiom: "blues",
      bars: FORM.map((bar, i) => ({
        number: i + 1,
        chords: bar.split(" ").map((symbol, j, all) => ({
          symbol,
          beat: 1 + (j * 4) / all.length,
          beats: 4 / all.length,
          function: "none",
          numeral: "I7",
          scale: "Mixolydian",
        })),
      })),
      source: "given",
      text: `key: F\n${FORM.join(" | ")}`,
    },
    options: optionsSchema.parse({ name: "sample.mid", seed: 1 }),
    alignment: {
      method: rubato ? "rubato" : "tracked",
      confidence: 0.93,
      choruses,
      pickupBeats: 0,
      tempo: rubato ? null : { median: 120, slowest: 116, fastest: 124 },
      bars: Array.from({ length: choruses * FORM.length }, (_, i) => ({
        chorus: Math.floor(i / FORM.length) + 1,
        bar: (i % FORM.length) + 1,
        start: i * 2 + 1,
        end: i * 2 + 3,
        confidence: i === 5 || i === 6 ? 0.52 : 0.95,
      })),
      ...UNPINNED,
      chartFit: null,
    },
    notes,
    placements: [...placementsOf].map(([id, list], i) => ({
      id,
      shape: "third-and-steps",
      anchorPitch: list[Math.floor(list.length / 2)]!.pitch,
      anchorFinger: 2,
      anchorDegree: i % 2 === 0 ? "1" : "5",
      chord: list[0]!.chord,
      chorus: list[0]!.chorus,
      bar: list[0]!.bar,
      beat: list[0]!.beat,
      firstNote: list[0]!.id,
      lastNote: list.at(-1)!.id,
      notes: list.length,
      shift: i === 0 ? null : 5,
      fitsChord: i % 5 !== 0,
    })),
    handFit: {
      share: solo.filter((note) => note.placement).length / solo.length,
      byShape: { "third-and-steps": 0.9 },
      byChorus: [],
      byChord: [],
      shifts: { count: 4, distance: 20, median: 5, late: [], common: [] },
      slides: { taken: [], missed: [], possible: 0 },
      moved: [],
      cost: 12,
      alternatives: [],
      stretches: [],
      caution: null,
    },
    phrases: [...phrasesOf].map(([id, list], i) => ({
      id,
      firstNote: list[0]!.id,
      lastNote: list.at(-1)!.id,
      notes: list.length,
      chorus: list[0]!.chorus,
      bar: list[0]!.bar,
      beat: list[0]!.beat,
      bars: 3.6,
      seconds: 7,
      restSeconds: 0.7,
      restBeats: 1.5,
      low: Math.min(...list.map((note) => note.pitch)),
      high: Math.max(...list.map((note) => note.pitch)),
      shape: "arch" as const,
      answers: i % 2 === 1 ? `ph${i}` : null,
      boundary: 0.9,
      ends: "rest" as const,
    })),
    ...NO_FIGURES,
    motifs,
    choruses: Array.from({ length: choruses }, (_, i) => {
      const list = solo.filter((note) => note.chorus === i + 1);
      return {
        chorus: i + 1,
        notes: list.length,
        roles: sharesOf(list, "role"),
        lineRoles: sharesOf(list, "lineRole"),
        degrees: sharesOf(list, "degree"),
        register: registerOf(list),
        density: { perBar: list.length / 12, perSecond: 3 },
        swing,
        placements: [],
        placementShare: 0.9,
        motifs: [],
        runShare: 0.2,
        rests: 0.2,
        phrases: 3,
      };
    }),
    register: registerOf(solo),
    rhythm: {
      swing,
      swingByBeat: swing
        ? [1, 2, 3, 4].map((beat) => ({ beat, swing: { ...swing, median: 1.3 + beat * 0.12 } }))
        : [],
      timing: rubato
        ? null
        : {
            against: "grid",
            median: 14,
            q1: -6,
            q3: 32,
            notes: solo.length,
            threshold: 12,
            heard: true,
            drift: 2,
          },
      tempoStability: rubato ? null : { variation: 0.02, drift: 1.2 },
      density: { perBar: notesPerBar, perSecond: 3 },
      subdivisions: { beat: 0.4, eighth: 0.5, triplet: 0.1 },
      syncopation: 0.2,
      rests: 0.2,
      intervals: { repeat: 0.05, step: 0.6, third: 0.2, "fourth-fifth": 0.1, wide: 0.05 },
      runs: { share: 0.2, count: 4, leapsAfter: 2 },
      longestRest: { seconds: 1.4, beats: 3, after: solo.at(-1)!.id },
    },
    withheld: [],
    findings: [
      {
        id: "f1",
        heading: "phrasing and shape",
        kind: "works",
        weight: 1,
        text: "Phrases in chorus 1 breathe: there is a rest after every fourth bar.",
        evidence: solo.slice(0, 12).map((note) => note.id),
        bars: [{ chorus: 1, bar: 4 }],
        practice: null,
      },
    ],
    corrections: [],
    warnings: [
      { code: "tempo-ignored", message: "The file's tempo does not fit what was played", where: null },
    ],
  };
}
