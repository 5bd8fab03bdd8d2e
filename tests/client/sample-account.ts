/**
 * A made-up account for trying the pages: the right fields in the right ranges, with places, choruses and patterns as a
 * take would have them. Its labels are drawn by lot and mean nothing; the pages must show them as they stand.
 */
import { type AccountNote, type Analysis, optionsSchema } from "../../src/account.ts";
import { QUIET_HAND, UNPINNED } from "../plain-account.ts";
import { FORM, type Lots, lots, type SampleWishes, sampleNotes } from "./sample-notes.ts";

/** What no page is tried with: runs and devices. */
const NO_FIGURES = { runs: [], devices: [] };

export function sampleAccount(wishes: Partial<SampleWishes> & { readonly seed?: number } = {}): Analysis {
  const { choruses = 3, notesPerBar = 6, rubato = false, seed = 7 } = wishes;
  const lot = lots(seed);
  const notes = sampleNotes({ choruses, notesPerBar, rubato }, lot);
  const motifs = sampleMotifs(notes, lot);
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
    chart: sampleChart(),
    options: optionsSchema.parse({ name: "sample.mid", seed: 1 }),
    alignment: sampleAlignment(choruses, rubato),
    notes,
    placements: samplePlacements(notes),
    handFit: {
      ...QUIET_HAND,
      share: notes.filter((note) => note.placement).length / notes.length,
      byShape: { "third-and-steps": 0.9 },
      shifts: { count: 4, distance: 20, median: 5, late: [], common: [] },
      cost: 12,
    },
    phrases: samplePhrases(notes),
    ...NO_FIGURES,
    motifs,
    choruses: Array.from({ length: choruses }, (_, i) => sampleChorus(notes, i + 1, swing)),
    register: registerOf(notes),
    rhythm: sampleRhythm(notes, notesPerBar, swing),
    withheld: [],
    findings: [
      {
        id: "f1",
        heading: "phrasing and shape",
        kind: "works",
        weight: 1,
        text: "Phrases in chorus 1 breathe: there is a rest after every fourth bar.",
        evidence: notes.slice(0, 12).map((note) => note.id),
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

function sampleMotifs(notes: readonly AccountNote[], { next, pick }: Lots): Analysis["motifs"] {
  return Array.from({ length: 6 }, (_, m): Analysis["motifs"][number] => {
    const length = 4 + (m % 3);
    const occurrences = Array.from({ length: 3 + (m % 4) }, (_, i) => {
      const from = Math.floor(((i + next() * 0.6) / (3 + (m % 4))) * (notes.length - length));
      const part = notes.slice(from, from + length);
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
}

function sampleChart(): Analysis["chart"] {
  return {
    name: "12-bar blues with a II-V turnaround",
    key: "F",
    meter: { beats: 4, unit: 4 },
    idiom: "blues",
    bars: FORM.map((bar, i) => ({
      number: i + 1,
      key: "F",
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
  };
}

function sampleAlignment(choruses: number, rubato: boolean): Analysis["alignment"] {
  return {
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
  };
}

/** The notes of each placement or phrase, in order of first appearance. */
function grouped(
  notes: readonly AccountNote[],
  by: "placement" | "phrase",
): (readonly [string, readonly AccountNote[]])[] {
  const ids = new Set(notes.flatMap((note) => note[by] ?? []));
  return [...ids].map((id) => [id, notes.filter((note) => note[by] === id)]);
}

function samplePlacements(notes: readonly AccountNote[]): Analysis["placements"] {
  return grouped(notes, "placement").map(([id, list], i) => ({
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
  }));
}

function samplePhrases(notes: readonly AccountNote[]): Analysis["phrases"] {
  return grouped(notes, "phrase").map(([id, list], i) => ({
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
  }));
}

type Swing = Analysis["rhythm"]["swing"];

function sampleChorus(
  notes: readonly AccountNote[],
  chorus: number,
  swing: Swing,
): Analysis["choruses"][number] {
  const list = notes.filter((note) => note.chorus === chorus);
  return {
    chorus,
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
}

function registerOf(list: readonly AccountNote[]): Analysis["register"] {
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
}

function sharesOf(list: readonly AccountNote[], key: "role" | "lineRole" | "degree"): Record<string, number> {
  const shares: Record<string, number> = {};
  for (const note of list) {
    const name = note[key] ?? "none";
    shares[name] = (shares[name] ?? 0) + 1 / list.length;
  }
  return shares;
}

function sampleRhythm(notes: readonly AccountNote[], notesPerBar: number, swing: Swing): Analysis["rhythm"] {
  const isFree = swing === null;
  return {
    swing,
    swingByBeat: swing
      ? [1, 2, 3, 4].map((beat) => ({ beat, swing: { ...swing, median: 1.3 + beat * 0.12 } }))
      : [],
    timing: isFree
      ? null
      : {
          against: "grid",
          median: 14,
          q1: -6,
          q3: 32,
          notes: notes.length,
          threshold: 12,
          heard: true,
          drift: 2,
        },
    tempoStability: isFree ? null : { variation: 0.02, drift: 1.2 },
    density: { perBar: notesPerBar, perSecond: 3 },
    subdivisions: { beat: 0.4, eighth: 0.5, triplet: 0.1 },
    syncopation: 0.2,
    rests: 0.2,
    intervals: { repeat: 0.05, step: 0.6, third: 0.2, "fourth-fifth": 0.1, wide: 0.05 },
    runs: { share: 0.2, count: 4, leapsAfter: 2 },
    longestRest: { seconds: 1.4, beats: 3, after: notes.at(-1)!.id },
  };
}
