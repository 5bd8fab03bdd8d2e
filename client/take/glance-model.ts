/** Is this where we are? What can be said against the place that a take was given, each with its way back. */
import {
  beatIsDoubted,
  likelyReadings,
  placeIsAsked,
  placeIsDoubted,
  SURE_PLACE,
} from "../../src/account/asked-place.ts";
import type { Analysis } from "../../src/account.ts";
import { count, percent, tempoMark } from "../../src/words/index.ts";
import type { Answer } from "./question-model.ts";

/** Where one stands: a bar of the take. */
export interface BarPlace {
  readonly chorus: number;
  readonly bar: number;
}

type Anchor = Analysis["alignment"]["anchors"][number];

/** Tempos that can be told. */
const SLOWEST = 20;
const FASTEST = 400;
/** Bars from one pin to the next where a whole take is moved: between them the beat is followed as before. */
const PIN_EVERY = 4;
/** Tempos nearer than this are one tempo: 2 beats in 100. [practice] */
const SAME_TEMPO = 0.02;

/** Whether there are beats that could be put right. */
export const canBeMoved = ({ alignment }: Analysis): boolean =>
  alignment.method !== "notated" && alignment.method !== "rubato" && alignment.tempo !== null;

/** Whether no beat was found, so that bars follow the harmony alone: where there was one, it can be tapped. */
export const hasNoBeat = ({ alignment }: Analysis): boolean =>
  alignment.method === "rubato" && alignment.anchors.length === 0;

/** Whether the page asks where we are: as the account does, and where there is no beat and the harmony is not sure either. */
export const isAsked = (analysis: Analysis): boolean =>
  placeIsAsked(analysis) || (hasNoBeat(analysis) && analysis.alignment.confidence < SURE_PLACE);

/** The other readings that were weighed, by name; none that nobody would take. */
export function namedReadings(analysis: Analysis): readonly Answer[] {
  return likelyReadings(analysis)
    .filter((one) => one.tempo >= SLOWEST && one.tempo <= FASTEST)
    .map((one) => {
      const named = `${tempoMark(one.tempo)}, ${one.why}`;
      const answer =
        one.pins === undefined ? tempoAnswer(analysis, one.tempo, named) : pinned(analysis, named, one.pins);
      return {
        ...answer,
        label: `${named}: ${count(one.choruses, "chorus", "choruses")}, ${percent(one.score)} likely`,
      };
    });
}

/** The answer that a click was heard, where it is asked about. */
export function clickAnswers({ warnings, alignment, options }: Analysis): readonly Answer[] {
  if (!warnings.some(({ code }) => code === "click-cannot-be-told")) return [];
  return [
    {
      label: "A click was heard, at the file’s tempo",
      change: { anchors: [], options: { method: "click" } },
      said: "The take is read by the click of its file.",
      undo: { anchors: alignment.anchors, options: { method: options.method } },
    },
  ];
}

/** Bars and beats that were heard to be left out or put in, each as the answer that lays the rest of the take by it. */
export function heardSlips(analysis: Analysis): readonly Answer[] {
  const { irregular = [] } = analysis.alignment;
  const { beats: size, unit } = analysis.chart.meter;
  return irregular.map((slip) => {
    const beats = (slip.beats * unit) / 4;
    const [what, is] =
      beats === 2 * size
        ? ["Two bars", "are"]
        : [beats === size ? "A bar" : beats * 2 === size ? "Half a bar" : "A beat", "is"];
    const where = `bar ${slip.bar} of chorus ${slip.chorus}`;
    const label =
      slip.kind === "missing" ? `${what} ${is} missing at ${where}` : `${what} too many at ${where}`;
    return pinned(analysis, label, besides(analysis, slip, beats));
  });
}

type Slip = NonNullable<Analysis["alignment"]["irregular"]>[number];

/** Pins on bar lines as they sound, with the part of the take that lies beside the form moved to where it belongs. */
function besides({ alignment, chart }: Analysis, slip: Slip, beats: number): Anchor[] {
  const length = chart.bars.length;
  const size = chart.meter.beats;
  const at = (slip.chorus - 1) * length + slip.bar - 1;
  const by = (slip.kind === "missing") === (slip.side === "after") ? beats : -beats;
  const bars = alignment.bars.filter(({ bar }) => bar >= 1 && bar <= length);
  // Of what is too many no bar has a place of its own: the first after it must be among the pins.
  const reach = Math.max(1, beats / size);
  const pins: { readonly seconds: number; readonly place: number }[] = [];
  bars.forEach(({ chorus, bar, start }, i) => {
    const number = (chorus - 1) * length + bar - 1;
    const edge = Math.abs(number - at) <= reach || i === 0 || i === bars.length - 1;
    if (!edge && i % PIN_EVERY !== 0) return;
    const moved = number >= at === (slip.side === "after");
    const place = number * size + (moved ? by : 0);
    // Of two bars in one place the one that is moved gives way.
    while (!moved && pins.length > 0 && pins.at(-1)!.place >= place) pins.pop();
    if (place >= 0 && (pins.length === 0 || pins.at(-1)!.place < place)) pins.push({ seconds: start, place });
  });
  return pins.map(({ seconds, place }) => ({
    seconds: Number(seconds.toFixed(4)),
    chorus: Math.floor(place / (length * size)) + 1,
    bar: (Math.floor(place / size) % length) + 1,
    beat: (place % size) + 1,
  }));
}

/** Half and double, the form a bar earlier or later, a bar missing or one too many at `place`. */
export function moves(analysis: Analysis, place: BarPlace, named: readonly Answer[] = []): readonly Answer[] {
  const { tempo } = analysis.alignment;
  if (tempo === null) return [];
  // What stands among the readings by its tempo is not offered twice.
  const isNamed = (quarters: number) =>
    named.some(({ change }) => Math.abs((change.options?.tempo ?? 0) / quarters - 1) < SAME_TEMPO);
  const where = `bar ${place.bar} of chorus ${place.chorus}`;
  return [
    ...(tempo.median / 2 >= SLOWEST && !isNamed(tempo.median / 2)
      ? [tempoAnswer(analysis, tempo.median / 2, "Half as fast")]
      : []),
    ...(tempo.median * 2 <= FASTEST && !isNamed(tempo.median * 2)
      ? [tempoAnswer(analysis, tempo.median * 2, "Twice as fast")]
      : []),
    pinned(analysis, "The form begins one bar earlier", shifted(analysis, null, 1)),
    pinned(analysis, "The form begins one bar later", shifted(analysis, null, -1)),
    pinned(analysis, `A bar is missing at ${where}`, shifted(analysis, place, 1)),
    pinned(analysis, `One too many at ${where}`, shifted(analysis, place, -1)),
  ];
}

function tempoAnswer({ alignment, options }: Analysis, tempo: number, label: string): Answer {
  return {
    label,
    // Pins were set on the bars as they lay; another tempo lays others.
    change: { anchors: [], options: { tempo: Number(tempo.toFixed(3)) } },
    said: `The take is read at ${tempoMark(tempo)}.`,
    undo: { anchors: alignment.anchors, options: { tempo: options.tempo } },
  };
}

function pinned({ alignment }: Analysis, label: string, anchors: readonly Anchor[]): Answer {
  return {
    label,
    change: { anchors: [...anchors] },
    said: `${label}: the chart is laid anew.`,
    undo: { anchors: alignment.anchors },
  };
}

/**
 * Pins on bar lines as they sound now, under another number: all of them, or those from `from` on, with those before it
 * held where they are.
 */
function shifted({ alignment, chart }: Analysis, from: BarPlace | null, by: 1 | -1): Anchor[] {
  const length = chart.bars.length;
  const numberOf = ({ chorus, bar }: BarPlace) => (chorus - 1) * length + bar;
  const at = from === null ? Number.NEGATIVE_INFINITY : numberOf(from);
  // Where a bar is too many, it is the one after it that is moved: it is heard where the bar itself should be.
  const first = by === 1 ? at : at + 1;
  const bars = alignment.bars.filter((bar) => bar.bar >= 1 && bar.bar <= length);
  return bars.flatMap((bar, i): Anchor[] => {
    const number = numberOf(bar);
    const edge =
      number === first || number === Math.min(first - 1, at - 1) || i === 0 || i === bars.length - 1;
    if (!edge && i % PIN_EVERY !== 0) return [];
    // The bar that is too many has no place of its own.
    if (by === -1 && number === at) return [];
    const moved = number >= first ? number + by : number;
    if (moved < 1) return [];
    return [
      {
        seconds: Number(bar.start.toFixed(4)),
        chorus: Math.floor((moved - 1) / length) + 1,
        bar: ((moved - 1) % length) + 1,
        beat: 1,
      },
    ];
  });
}

/** How sure the bar lines are, and where they are least so, in a sentence; what was heard beside the form stands on its buttons. */
export function doubtWords(analysis: Analysis): string {
  const { alignment, chart } = analysis;
  const bars = alignment.bars.filter(({ bar }) => bar >= 1 && bar <= chart.bars.length);
  const [least] = [...bars].sort((a, b) => a.confidence - b.confidence);
  const where =
    least !== undefined && least.confidence < alignment.confidence - LEAST_STANDS_OUT
      ? `, least in bar ${least.bar} of chorus ${least.chorus} (${percent(least.confidence)})`
      : "";
  const sure = `${percent(alignment.confidence)} sure${where}`;
  if (alignment.method === "rubato") {
    return `No steady beat was found: the bars follow the harmony and are ${sure}. Where there was a beat, tap it.${leftOutWords(analysis)}`;
  }
  const found =
    alignment.method === "click"
      ? "The beat is the click of the file; which bar of the chart sounds where was found by ear and is"
      : "The bar lines were found by ear and are";
  return `${found} ${sure}. Listen, and say what is wrong, or that nothing is.${leftOutWords(analysis)}`;
}

function leftOutWords(analysis: Analysis): string {
  if (!placeIsDoubted(analysis)) return "";
  // Of free time nothing is told anyhow.
  const timeToo = analysis.alignment.method !== "rubato" && beatIsDoubted(analysis);
  const what = timeToo ? "harmony and time" : "the harmony";
  return ` Until you say, the findings leave ${what} out.`;
}

/** A bar this much less sure than the whole is named. [practice] */
const LEAST_STANDS_OUT = 0.05;

/** All is where it should be: every bar line is held where it sounds. */
export function asItIs(analysis: Analysis): Answer {
  const { alignment, chart } = analysis;
  const anchors = alignment.bars
    .filter(({ bar }) => bar >= 1 && bar <= chart.bars.length)
    .map(({ chorus, bar, start }) => ({ seconds: Number(start.toFixed(4)), chorus, bar, beat: 1 }));
  return {
    ...pinned(analysis, "Yes, this is where we are", anchors),
    said: "The bar lines are held where they sound.",
  };
}

/** The bar that sounds at a moment of the take (seconds); null before the first and after the last. */
export function barAt(
  { alignment }: Analysis,
  seconds: number,
): Analysis["alignment"]["bars"][number] | null {
  return alignment.bars.find((bar) => bar.start <= seconds && seconds < bar.end) ?? null;
}
