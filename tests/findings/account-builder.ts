import {
  type AccountNote,
  type AccountPhrase,
  type AccountRun,
  type Analysis,
  type ChorusSummary,
  optionsSchema,
  type RhythmSummary,
} from "../../src/account.ts";
import { type Chart, chartText, chordSpans, formChart, keyName } from "../../src/chart/index.ts";
import { registerOf, restShare, summariseChoruses } from "../../src/compare/index.ts";
import { QUIET_HAND, UNPINNED } from "../plain-account.ts";

/** A solo note written by hand: where, what, and only the labels that the case is about. */
export interface Written extends Partial<AccountNote> {
  readonly at: number;
  readonly pitch: number;
  /** Quarter-note beats. */
  readonly beats: number;
}

export interface Case {
  readonly notes: readonly Written[];
  readonly chart?: Chart;
  readonly choruses?: number;
  readonly tempo?: number;
  readonly over?: Over;
  /** Silence in beats at which a phrase ends. */
  readonly breath?: number;
}

/** Parts of the account that are said outright; lists of choruses and phrases are laid over those of the notes. */
export interface Over {
  readonly source?: Partial<Analysis["source"]>;
  readonly options?: Partial<Analysis["options"]>;
  readonly alignment?: Partial<Analysis["alignment"]>;
  readonly handFit?: Partial<Analysis["handFit"]>;
  readonly rhythm?: Partial<RhythmSummary>;
  readonly placements?: Analysis["placements"];
  readonly motifs?: Analysis["motifs"];
  readonly choruses?: readonly Partial<ChorusSummary>[];
  readonly phrases?: readonly Partial<AccountPhrase>[];
}

const NEUTRAL: RhythmSummary = {
  swing: null,
  swingByBeat: [],
  timing: null,
  tempoStability: null,
  density: { perBar: null, perSecond: 0 },
  subdivisions: {},
  syncopation: null,
  rests: 0,
  intervals: {},
  runs: { share: 0, count: 0, leapsAfter: 0 },
  longestRest: null,
};

/** What the hand says of a note that it does not know. */
const NO_HAND = { placement: null, finger: null, fingerSource: "inferred", slide: null } as const;

/**
 * An account written by hand for a test, at an even tempo, straight. It fills in what follows from the notes
 * themselves (bars, phrases by silence, stepwise runs, summaries) and leaves every label neutral unless given.
 */
export function accountOf(written: Case): Analysis {
  const { over = {}, tempo = 120, choruses = 1, breath = 1 } = written;
  const chart = written.chart ?? formChart("blues-quick-change", "F");
  const placed = written.notes.map((one, i) => accountNote(one, i, chart, tempo));
  const phrases = phrasesOf(placed, breath, tempo);
  const notes = withPhrases(placed, phrases);
  const runs = runsOf(notes);
  const { placements = [], motifs = [] } = over;
  const alignment = alignmentOf(chart, choruses, tempo, over.alignment);
  const end = alignment.bars.at(-1)!.end;
  return {
    schemaVersion: 1,
    analysisVersion: "test",
    source: {
      name: "case",
      format: "midi",
      sha256: "0".repeat(64),
      notes: notes.length,
      seconds: end,
      title: "Case",
      parts: [],
      ...over.source,
    },
    chart: accountChart(chart),
    options: { ...optionsSchema.parse({}), ...over.options },
    alignment,
    notes,
    placements,
    handFit: { ...QUIET_HAND, ...over.handFit },
    phrases: phrases.map((phrase, i) => ({ ...phrase, ...over.phrases?.[i] })),
    runs,
    devices: [],
    motifs,
    choruses: summariseChoruses({
      ...{ notes, placements, phrases, runs, motifs, alignment, chart },
      swingOf: () => null,
    }).map((one, i) => ({ ...one, ...over.choruses?.[i] })),
    register: registerOf(notes.map((note) => note.pitch)),
    rhythm: { ...NEUTRAL, rests: restShare(notes, { start: 0, end }), ...over.rhythm },
    findings: [],
    withheld: [],
    corrections: [],
    warnings: [],
  };
}

function accountNote({ at, ...labels }: Written, i: number, chart: Chart, tempo: number): AccountNote {
  const spans = chordSpans(chart);
  const length = chart.bars.length * 4;
  const chorus = Math.max(0, Math.floor(at / length));
  const local = at - chorus * length;
  const bar = Math.floor(local / 4);
  const span = spans.findLast((candidate) => candidate.start <= local) ?? spans[0]!;
  return {
    id: `n${i + 1}`,
    spelling: `${["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"][labels.pitch % 12]}${Math.floor(labels.pitch / 12) - 1}`,
    onset: (at * 60) / tempo,
    duration: (labels.beats * 60) / tempo,
    velocity: 80,
    hand: "right",
    solo: true,
    chorus: chorus + 1,
    bar: bar + 1,
    beat: local - bar * 4 + 1,
    chord: span.symbol,
    degree: null,
    role: "fifth",
    guideTone: false,
    blueInKey: false,
    lineRole: "chord tone",
    target: null,
    strength: at % 4 === 0 ? 1 : at % 2 === 0 ? 0.5 : at % 1 === 0 ? 0.25 : 0.1,
    ...NO_HAND,
    phrase: null,
    motifs: [],
    timing: 0,
    account: "",
    position: at,
    source: `t1/${Math.round(at * 480)}/${labels.pitch}`,
    handMargin: 1,
    ...labels,
  };
}

/** The notes with the phrase that each belongs to. */
function withPhrases(notes: readonly AccountNote[], phrases: readonly AccountPhrase[]): AccountNote[] {
  const ids = phrases.flatMap((phrase) => Array<string>(phrase.notes).fill(phrase.id));
  return notes.map((note, i) => ({ ...note, phrase: ids[i] ?? note.phrase }));
}

function alignmentOf(
  chart: Chart,
  choruses: number,
  tempo: number,
  over: Over["alignment"],
): Analysis["alignment"] {
  return {
    method: "click",
    confidence: 1,
    choruses,
    pickupBeats: 0,
    tempo: { median: tempo, slowest: tempo, fastest: tempo },
    bars: Array.from({ length: choruses * chart.bars.length }, (_, k) => ({
      chorus: Math.floor(k / chart.bars.length) + 1,
      bar: (k % chart.bars.length) + 1,
      start: (k * 240) / tempo,
      end: ((k + 1) * 240) / tempo,
      confidence: 1,
    })),
    ...UNPINNED,
    chartFit: null,
    ...over,
  };
}

function accountChart(chart: Chart): Analysis["chart"] {
  const spans = chordSpans(chart);
  return {
    name: chart.name,
    key: keyName(chart.key),
    meter: chart.meter,
    idiom: chart.idiom,
    bars: chart.bars.map((bar) => ({
      number: bar.number,
      key: keyName(bar.key ?? chart.key),
      chords: bar.chords.map(({ symbol, beat, beats }) => {
        const span = spans.find((one) => one.bar === bar.number && one.beat === beat)!;
        return { symbol, beat, beats, function: span.function, numeral: span.numeral, scale: span.scale };
      }),
    })),
    source: "given",
    text: chartText(chart),
  };
}

function phrasesOf(notes: readonly AccountNote[], breath: number, tempo: number): AccountPhrase[] {
  const groups: AccountNote[][] = [];
  notes.forEach((note, i) => {
    const before = notes[i - 1];
    const gap = before === undefined ? Infinity : note.position! - before.position! - before.beats!;
    if (gap >= breath) groups.push([note]);
    else groups[groups.length - 1]!.push(note);
  });
  return groups.map((group, i) => {
    const [first, last] = [group[0]!, group[group.length - 1]!];
    const end = last.position! + last.beats!;
    const next = groups[i + 1]?.[0]?.position ?? end;
    const pitches = group.map((note) => note.pitch);
    return {
      id: `p${i + 1}`,
      firstNote: first.id,
      lastNote: last.id,
      notes: group.length,
      chorus: first.chorus,
      bar: first.bar,
      beat: first.beat,
      bars: (end - first.position!) / 4,
      seconds: ((end - first.position!) * 60) / tempo,
      restSeconds: ((next - end) * 60) / tempo,
      restBeats: next - end,
      low: Math.min(...pitches),
      high: Math.max(...pitches),
      shape: "arch",
      answers: null,
      boundary: 1,
      ends: "rest",
    };
  });
}

function runsOf(notes: readonly AccountNote[]): AccountRun[] {
  const runs: AccountRun[] = [];
  let start = 0;
  for (let i = 1; i <= notes.length; i++) {
    const step = (k: number) => (notes[k] === undefined ? 0 : notes[k]!.pitch - notes[k - 1]!.pitch);
    const goesOn =
      i < notes.length &&
      Math.abs(step(i)) <= 2 &&
      step(i) !== 0 &&
      (i === start + 1 || Math.sign(step(i)) === Math.sign(step(i - 1)));
    if (goesOn) continue;
    if (i - start >= 5) {
      const first = notes[start]!;
      runs.push({
        firstNote: first.id,
        lastNote: notes[i - 1]!.id,
        direction: step(start + 1) > 0 ? "up" : "down",
        length: i - start,
        chorus: first.chorus,
        bar: first.bar,
        beat: first.beat,
        leap: null,
      });
    }
    start = i;
  }
  return runs;
}

type Labels = Omit<Partial<AccountNote>, "beats" | "pitch">;

/** Notes an eighth apart from `at` on, one for each pitch; `each` adds labels to each. */
export function eighths(
  at: number,
  pitches: readonly number[],
  each: Labels | ((i: number) => Labels) = {},
): Written[] {
  return pitches.map((pitch, i) => ({
    at: at + i / 2,
    pitch,
    beats: 0.5,
    ...(typeof each === "function" ? each(i) : each),
  }));
}
