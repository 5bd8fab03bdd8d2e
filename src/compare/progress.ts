import type { Analysis, Finding } from "../account.ts";
import { followedInWords } from "../words/index.ts";
import { changeInWords, changeOfValues, changesOf } from "./change.ts";
import type { DatedTake } from "./dated-take.ts";
import { lensProgress } from "./lens-progress.ts";
import type { Progress } from "./progress-schema.ts";
import { sampleOf } from "./sample.ts";
import { trendOf } from "./trend.ts";

interface Followed {
  readonly id: string;
  /** Id of the measure of comparison that follows it phrase by phrase; null where only a whole take has a value. */
  readonly measure: string | null;
  readonly name: string;
  readonly unit: Progress["measures"][number]["unit"];
  readonly hope: "up" | "down" | null;
  readonly of: (analysis: Analysis) => number | null;
}

/** Few on purpose: what fits on a term report. */
const FOLLOWED: readonly Followed[] = [
  {
    id: "rests",
    measure: "rests",
    name: "Share of rest",
    unit: "share",
    hope: "up",
    of: (a) => a.rhythm.rests,
  },
  {
    id: "answers",
    measure: "answers",
    name: "Phrases that answer",
    unit: "share",
    hope: "up",
    of: (a) => ratio(a.phrases.filter((phrase) => phrase.answers !== null).length, a.phrases.length),
  },
  {
    id: "motifs",
    measure: "motifs",
    name: "Notes in returning ideas",
    unit: "share",
    hope: "up",
    of: (a) => soloShare(a, (note) => note.motifs.length > 0),
  },
  {
    id: "guide-tones",
    measure: "guide-tones",
    name: "Thirds and sevenths",
    unit: "share",
    hope: "up",
    of: (a) => soloShare(a, (note) => note.guideTone),
  },
  {
    id: "runs",
    measure: "runs",
    name: "Notes in scale runs",
    unit: "share",
    hope: "down",
    of: (a) => a.rhythm.runs.share,
  },
  {
    id: "places",
    measure: null,
    name: "Places of the hand",
    unit: "count",
    hope: "up",
    of: (a) => new Set(a.placements.map((one) => `${one.shape}:${one.anchorPitch}`)).size,
  },
  {
    id: "slides",
    measure: null,
    name: "Slides",
    unit: "count",
    hope: "up",
    of: (a) => a.handFit.slides.taken.length,
  },
  {
    id: "range",
    measure: "breadth",
    name: "Range in use (10 % to 90 %)",
    unit: "semitones",
    hope: "up",
    of: ({ register: { quantiles } }) => (quantiles.length < 5 ? null : quantiles[4]! - quantiles[0]!),
  },
  {
    id: "swing-spread",
    measure: null,
    name: "Spread of the swing",
    unit: "ratio",
    hope: "down",
    of: ({ rhythm: { swing } }) => (swing === null ? null : (swing.q3 - swing.q1) / swing.median),
  },
  {
    id: "density",
    measure: "density",
    name: "Notes a bar",
    unit: "notes a bar",
    hope: null,
    of: (a) => a.rhythm.density.perBar,
  },
];

/**
 * A player's takes over time: the few numbers that a teacher follows, each with what may be said of its change, what was
 * found when, the goals, and the best moment of each take. Changes are told of the takes on one chart, in whatever key:
 * the chart of most takes, of equally many the newest. Never a mark. Takes of the same day keep the order in which they
 * are given.
 */
export function progressOf(takes: readonly DatedTake[]): Progress {
  const row = [...takes].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  const chart = usualChart(row);
  const same = row.filter(({ analysis }) => formOf(analysis) === chart);
  const changes = changesOf(same.map(({ title, analysis }) => sampleOf(analysis, { name: title })));
  return {
    takes: row.map(({ id, date, title, analysis }) => ({
      id,
      date,
      title,
      notes: analysis.notes.filter((note) => note.solo).length,
      chart: {
        name: analysis.chart.name,
        key: analysis.chart.key,
        same: formOf(analysis) === chart,
      },
      lens: analysis.lens ?? null,
    })),
    measures: FOLLOWED.map(({ of, measure, ...head }) => {
      const points = row.map(({ id, date, analysis }) => ({ take: id, date, value: of(analysis) }));
      const values = same.map(({ analysis }) => of(analysis));
      const change = (measure === null ? undefined : changes.get(measure)) ?? changeOfValues(values);
      const known = values.filter((value) => value !== null);
      const ends =
        known.length < 2
          ? null
          : ([followedInWords(known[0]!, head.unit), followedInWords(known.at(-1)!, head.unit)] as const);
      const { short, sentence } = changeInWords(change, {
        ...head,
        ends,
        sides: same.map(({ title }) => title),
      });
      return { ...head, points, trend: trendOf(values), change, words: short, sentence };
    }),
    lens: lensProgress(same),
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

/** The chart's bars as numerals: the same form in another key is the same. */
function formOf({ chart }: Analysis): string {
  return chart.bars.map(({ chords }) => chords.map(({ numeral }) => numeral).join(" ")).join("|");
}

/** The form of most takes; of equally many the newest. */
function usualChart(row: readonly DatedTake[]): string | null {
  const counts = new Map<string, number>();
  for (const { analysis } of row) counts.set(formOf(analysis), (counts.get(formOf(analysis)) ?? 0) + 1);
  const most = Math.max(...counts.values());
  const newest = [...row].reverse().find(({ analysis }) => counts.get(formOf(analysis)) === most);
  return newest === undefined ? null : formOf(newest.analysis);
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
