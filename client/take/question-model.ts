/** What is asked before a take is read: whether its chart is the right one, whether its beat is, and which hand plays. */

import type { TakeChange } from "../../server/contract/takes.ts";
import { chartIsAsked } from "../../src/account/rests-on.ts";
import type { Analysis } from "../../src/account.ts";
import { chartText, FORMS, parseChart, parseKey, transposeChart } from "../../src/chart/index.ts";
import { count, percent, tempoMark, withAccidentals } from "../../src/words/index.ts";

/** One answer: the words on its button, what is sent for it, what is said afterwards, and the way back. */
export interface Answer {
  readonly label: string;
  readonly change: TakeChange;
  readonly said: string;
  readonly undo: TakeChange;
}

export interface TakeQuestion {
  /** What is doubted, in a sentence; null when only the beat is asked about. */
  readonly doubt: string | null;
  /** What fits better, in a sentence; null where nothing does. */
  readonly better: string | null;
  readonly answers: readonly Answer[];
  /** Another reading of the beat, in a sentence, with its answer. */
  readonly reading: { readonly words: string; readonly answer: Answer } | null;
  /** Whether another hand than the one that was taken plays the solo, in a sentence, with its answers. */
  readonly hand: { readonly words: string; readonly answers: readonly Answer[] } | null;
}

/** A reading less likely than this is not offered: nine in ten say that the chosen one is right. [practice] */
const LEAST_READING = 0.1;
/** Tempos nearer than this are one tempo to whoever types it: 2 beats in 100. [practice] */
const SAME_TEMPO = 0.02;

/** The one question that a take raises; null when its chart, its beat and its hand are certain, or were vouched for. */
export function takeQuestion(analysis: Analysis): TakeQuestion | null {
  const doubt = chartDoubt(analysis);
  const reading = otherReading(analysis);
  const hand = otherHand(analysis);
  if (doubt === null && reading === null && hand === null) return null;
  const answers =
    doubt === null ? [] : [vouched(analysis), ...betterOnes(analysis).map((one) => inKey(analysis, one))];
  return {
    doubt,
    better: doubt === null ? null : betterWords(analysis),
    answers: answers.filter((answer) => answer !== null),
    reading,
    hand,
  };
}

type Better = NonNullable<Analysis["alignment"]["chartFit"]>["better"][number];

/** What fits better: none where the question is not asked. */
const betterOnes = ({ alignment }: Analysis): readonly Better[] => alignment.chartFit?.better ?? [];

function chartDoubt({ alignment, options }: Analysis): string | null {
  if (!chartIsAsked({ alignment, options })) return null;
  switch (alignment.chartFit?.verdict) {
    case "doubtful":
      return "It is not sure that this is the chart that was played.";
    case "cannot be told":
      return "Whether this is the chart that was played cannot be told while it is not sure where its bars lie.";
    default:
      return "The notes do not fit this chart.";
  }
}

/** "Fits better: the same chart in B♭; 12-bar blues in C." */
function betterWords(analysis: Analysis): string | null {
  const named = betterOnes(analysis).map(
    ({ chart, key }) => `${chart ?? "the same chart"} in ${withAccidentals(key)}`,
  );
  return named.length === 0 ? null : `Fits better: ${named.join("; ")}.`;
}

function vouched(analysis: Analysis): Answer {
  return {
    label: "This is the chart",
    change: { options: { chartConfirmed: true } },
    said: "The chart is confirmed; the harmony is told by it.",
    undo: { options: { chartConfirmed: analysis.options.chartConfirmed } },
  };
}

/** The take on a chart that fits better; null when the chart cannot be written in that key or its form has gone. */
function inKey({ chart, options }: Analysis, { chart: name, key }: Better): Answer | null {
  const wanted = name === null ? sameChartIn(chart.text, key) : formIn(name, key);
  if (wanted === null) return null;
  // A key that was set apart from the chart would hold the new chart to the old key.
  const free = options.key === null ? {} : { key: null };
  const was = options.key === null ? {} : { key: options.key };
  return {
    label: `${name ?? "Same chart"} in ${withAccidentals(key)}`,
    change: { ...wanted, options: { chartConfirmed: false, ...free } },
    said: `The take is read on ${name ?? "the same chart"} in ${withAccidentals(key)}.`,
    undo: { chart: chart.text, options: { chartConfirmed: false, ...was } },
  };
}

function sameChartIn(text: string, key: string): TakeChange | null {
  try {
    return { chart: chartText(transposeChart(parseChart(text), parseKey(key))) };
  } catch {
    // A chart that has no name in that key: its settings are still there to type it in.
    return null;
  }
}

function formIn(name: string, key: string): TakeChange | null {
  const form = FORMS.find((one) => one.name === name);
  return form === undefined ? null : { form: form.id, key };
}

function otherReading({ alignment, options }: Analysis): TakeQuestion["reading"] {
  const { alternatives = [], tempo, anchors } = alignment;
  // Who named the tempo or pinned a bar has answered already.
  if (tempo === null || options.tempo !== null || anchors.length > 0) return null;
  const other = alternatives.find(
    (one) =>
      one.score >= LEAST_READING &&
      Math.abs(one.tempo / tempo.median - 1) > SAME_TEMPO &&
      one.tempo >= 20 &&
      one.tempo <= 400,
  );
  if (other === undefined) return null;
  const mark = tempoMark(other.tempo);
  return {
    words: `Another reading: ${mark}, ${other.why}, ${count(other.choruses, "chorus", "choruses")} (${percent(other.score)} likely).`,
    answer: {
      label: `Read it at ${mark}`,
      change: { options: { tempo: other.tempo } },
      said: `The take is read at ${mark}.`,
      undo: { options: { tempo: null } },
    },
  };
}

type SoloHand = NonNullable<Analysis["options"]["soloHand"]>;

const BY_HAND: Readonly<Record<SoloHand, { readonly label: string; readonly said: string }>> = {
  left: { label: "The left hand", said: "The left hand’s line is the solo." },
  right: { label: "The right hand", said: "The right hand’s line is the solo." },
  both: { label: "Both hands", said: "Both hands share the solo." },
};

/** By the code of a warning: why it is asked which hand plays the solo, and the hands that answer it. */
const HANDS_ASKED: Readonly<Record<string, { readonly why: string; readonly hands: readonly SoloHand[] }>> = {
  "line-in-left-hand": {
    why: "A line of single keys runs below the chords, as a solo of the left hand would; the right hand was taken.",
    hands: ["left", "right"],
  },
  "line-lies-low": {
    why: "The line lies below middle C, where the left hand plays; the right hand was taken.",
    hands: ["left", "right"],
  },
  "line-for-two-hands": {
    why: "The line leaps further than one hand gets to in the time; the right hand was taken for all of it.",
    hands: ["both", "right"],
  },
  "doubled-line": {
    why: "Most strokes are of two keys and more, within one hand’s reach; the right hand was taken for all of them.",
    hands: ["both", "right"],
  },
};

function otherHand({ warnings, options }: Analysis): TakeQuestion["hand"] {
  const asked = warnings.map(({ code }) => HANDS_ASKED[code]).find((one) => one !== undefined);
  if (asked === undefined) return null;
  return {
    words: asked.why,
    answers: asked.hands.map((soloHand) => ({
      ...BY_HAND[soloHand],
      change: { options: { soloHand } },
      undo: { options: { soloHand: options.soloHand } },
    })),
  };
}

/** What sending the settings says of the chart: a proposed one is confirmed by it, a changed one is open again. */
export function confirming(
  { chart }: Analysis,
  sent: { readonly form?: string; readonly chart?: string },
): { readonly chartConfirmed?: boolean } {
  if (chart.source === "proposed") return { chartConfirmed: true };
  const changed = sent.form !== undefined || (sent.chart !== undefined && sent.chart !== chart.text);
  return changed ? { chartConfirmed: false } : {};
}
