import type { Analysis, Finding } from "../account.ts";
import { type Trend, trendOf } from "./trend.ts";

/** A take with the day on which it was played. */
export interface DatedTake {
  /** Of the store. */
  readonly id: string;
  /** ISO date. */
  readonly date: string;
  readonly title: string;
  readonly analysis: Analysis;
}

export interface ProgressPoint {
  readonly take: string;
  readonly date: string;
  readonly value: number | null;
}

export interface Progress {
  /** In time order. */
  readonly takes: readonly {
    readonly id: string;
    readonly date: string;
    readonly title: string;
    readonly notes: number;
  }[];
  /** The few numbers that a teacher follows. */
  readonly measures: readonly {
    readonly id: string;
    readonly name: string;
    readonly unit: "share" | "notes a bar" | "semitones" | "ratio" | "count";
    /** Which way a teacher hopes it goes; null where neither is better. */
    readonly hope: "up" | "down" | null;
    readonly points: readonly ProgressPoint[];
    readonly trend: Trend | null;
    readonly sentence: string;
  }[];
  /** Every finding that was made, with the takes in which it was, and whether it is still there in the last one. */
  readonly findings: readonly {
    readonly id: string;
    readonly heading: Finding["heading"];
    readonly kind: Finding["kind"];
    readonly takes: readonly string[];
    readonly state: "new" | "lasting" | "gone";
    readonly text: string;
  }[];
  /** Goals of each take and whether they were reached. */
  readonly goals: readonly {
    readonly take: string;
    readonly text: string;
    readonly state: "reached" | "open" | "to be judged";
  }[];
  /** For each take the heaviest thing that works, with where to hear it. */
  readonly best: readonly {
    readonly take: string;
    /** Added: `Finding.id`. */
    readonly finding: string;
    readonly text: string;
    readonly evidence: readonly string[];
  }[];
}

interface Followed {
  readonly id: string;
  readonly name: string;
  readonly unit: Progress["measures"][number]["unit"];
  readonly hope: "up" | "down" | null;
  readonly of: (analysis: Analysis) => number | null;
}

/** Few on purpose: what fits on a term report. */
const FOLLOWED: readonly Followed[] = [
  { id: "rests", name: "Share of rest", unit: "share", hope: "up", of: (a) => a.rhythm.rests },
  {
    id: "answers",
    name: "Phrases that answer",
    unit: "share",
    hope: "up",
    of: (a) => ratio(a.phrases.filter((phrase) => phrase.answers !== null).length, a.phrases.length),
  },
  {
    id: "motifs",
    name: "Notes in returning ideas",
    unit: "share",
    hope: "up",
    of: (a) => soloShare(a, (note) => note.motifs.length > 0),
  },
  {
    id: "guide-tones",
    name: "Thirds and sevenths",
    unit: "share",
    hope: "up",
    of: (a) => soloShare(a, (note) => note.guideTone),
  },
  { id: "runs", name: "Notes in scale runs", unit: "share", hope: "down", of: (a) => a.rhythm.runs.share },
  {
    id: "places",
    name: "Places of the hand",
    unit: "count",
    hope: "up",
    of: (a) => new Set(a.placements.map((one) => `${one.shape}:${one.anchorPitch}`)).size,
  },
  { id: "slides", name: "Slides", unit: "count", hope: "up", of: (a) => a.handFit.slides.taken.length },
  {
    id: "range",
    name: "Range in use (10 % to 90 %)",
    unit: "semitones",
    hope: "up",
    of: ({ register: { quantiles } }) => (quantiles.length < 5 ? null : quantiles[4]! - quantiles[0]!),
  },
  {
    id: "swing-spread",
    name: "Spread of the swing",
    unit: "ratio",
    hope: "down",
    of: ({ rhythm: { swing } }) => (swing === null ? null : (swing.q3 - swing.q1) / swing.median),
  },
  {
    id: "density",
    name: "Notes a bar",
    unit: "notes a bar",
    hope: null,
    of: (a) => a.rhythm.density.perBar,
  },
];

/**
 * A player's takes over time: the few numbers that a teacher follows, with their trend in plain words, what was
 * found when, the goals, and the best moment of each take. Never a mark; three takes are the least for a trend.
 * Takes of the same day keep the order in which they are given.
 */
export function progressOf(takes: readonly DatedTake[]): Progress {
  const row = [...takes].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  return {
    takes: row.map(({ id, date, title, analysis }) => ({
      id,
      date,
      title,
      notes: analysis.notes.filter((note) => note.solo).length,
    })),
    measures: FOLLOWED.map(({ of, ...head }) => {
      const points = row.map(({ id, date, analysis }) => ({ take: id, date, value: of(analysis) }));
      const trend = trendOf(points.map((point) => point.value));
      return { ...head, points, trend, sentence: sentenceOf(head.name, head.hope, trend) };
    }),
    findings: findingHistory(row),
    goals: row.flatMap(({ id, analysis }) => goalsOf(id, analysis)),
    best: row.flatMap(({ id, analysis }) => {
      const best = analysis.findings
        .filter((finding) => finding.kind === "works" && finding.evidence.length > 0)
        .sort((a, b) => b.weight - a.weight)[0];
      return best === undefined
        ? []
        : [{ take: id, finding: best.id, text: best.text, evidence: best.evidence }];
    }),
  };
}

function sentenceOf(name: string, hope: "up" | "down" | null, trend: Trend | null): string {
  if (trend === null) return `${name}: too few takes to speak of a trend.`;
  if (trend.words === "no clear trend") return `${name}: no clear trend.`;
  const rises = trend.tau > 0;
  const wished = hope !== null && (hope === "up") === rises;
  return `${name}: ${trend.words}${wished ? ", as hoped" : ""}.`;
}

function findingHistory(row: readonly DatedTake[]): Progress["findings"] {
  const history = new Map<string, { finding: Finding; takes: string[] }>();
  for (const { id, analysis } of row) {
    for (const finding of analysis.findings) {
      if (finding.id.startsWith("goal-")) continue;
      const known = history.get(finding.id);
      history.set(finding.id, { finding, takes: [...(known?.takes ?? []), id] });
    }
  }
  const last = row[row.length - 1]?.id;
  return [...history.values()].map(({ finding, takes }) => ({
    id: finding.id,
    heading: finding.heading,
    kind: finding.kind,
    takes,
    state: takes[takes.length - 1] !== last ? "gone" : takes.length === 1 ? "new" : "lasting",
    text: finding.text,
  }));
}

function goalsOf(take: string, analysis: Analysis): Progress["goals"] {
  return analysis.options.goals.map((goal, i) => {
    const finding = analysis.findings.find((one) => one.id === `goal-${i + 1}`);
    const state =
      finding?.kind === "works" ? "reached" : finding?.kind === "practise" ? "open" : "to be judged";
    return { take, text: goal.text, state };
  });
}

function soloShare(analysis: Analysis, of: (note: Analysis["notes"][number]) => boolean): number | null {
  const solo = analysis.notes.filter((note) => note.solo);
  return ratio(solo.filter(of).length, solo.length);
}

function ratio(over: number, under: number): number | null {
  return under > 0 ? over / under : null;
}
