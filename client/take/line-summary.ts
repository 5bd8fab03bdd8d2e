/** How the line goes and how it stands in time, in words and figures: runs, steps, breath, swing, tempo. */
import type { Analysis } from "../../src/account.ts";
import { beatInFigures, count, percent, placeInWords, tempoMark } from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { UNTIMED_WORDS } from "../views/readings/time.ts";
import { type Place, type ToldRow, toldSection } from "./summary-section.ts";

type Rhythm = Analysis["rhythm"];

export function lineTold(index: AccountIndex, store: SelectionStore): HTMLElement {
  const { rhythm, alignment } = index.analysis;
  return toldSection(
    "line-told",
    "How the line goes",
    "Counted over the whole solo. Differences of time that are too small to hear are not reported.",
    [
      runs(index),
      intervals(rhythm),
      phrases(index),
      rests(index, rhythm),
      { name: "Notes", words: density(rhythm) },
      { name: "Subdivision", words: subdivision(rhythm) },
      { name: "Swing", words: swing(rhythm) },
      { name: "Early and late", words: timing(rhythm) },
      { name: "Tempo", words: tempo(rhythm, alignment) },
    ],
    store,
  );
}

function runs(index: AccountIndex): ToldRow {
  const { runs: list, rhythm } = index.analysis;
  const leaps = rhythm.runs.leapsAfter;
  return {
    name: "Stepwise runs",
    words:
      list.length === 0
        ? "No run of five notes or more by step in one direction."
        : `${percent(rhythm.runs.share)} of the notes lie in ${count(list.length, "stepwise run")} of five notes or more; ${
            leaps === 0 ? "none is" : `${count(leaps, "of them is", "of them are")}`
          } followed by a leap.`,
    places: [...list]
      .sort((a, b) => b.length - a.length)
      .map((run) => ({
        words: `${count(run.length, "note")} ${run.direction}, ${placeInWords(run)}${run.leap === null ? "" : `, then a leap of ${Math.abs(run.leap)} semitones ${run.leap > 0 ? "up" : "down"}`}`,
        select: { kind: "stretch", first: run.firstNote, last: run.lastNote } satisfies Place["select"],
      })),
  };
}

const INTERVALS: readonly (readonly [string, string])[] = [
  ["repeat", "repeated"],
  ["step", "by step"],
  ["third", "thirds"],
  ["fourth-fifth", "fourths and fifths"],
  ["wide", "wider"],
];

function intervals({ intervals: shares }: Rhythm): ToldRow {
  const words = INTERVALS.filter(([name]) => (shares[name] ?? 0) > 0).map(
    ([name, said]) => `${percent(shares[name] ?? 0)} ${said}`,
  );
  return {
    name: "From note to note",
    words: words.length === 0 ? "Too few notes to say." : `${words.join(", ")}.`,
  };
}

function phrases(index: AccountIndex): ToldRow {
  const { phrases: list } = index.analysis;
  const lengths = list.flatMap((phrase) => (phrase.bars === null ? [] : [phrase.bars])).sort((a, b) => a - b);
  const shapes = new Map<string, number>();
  for (const { shape } of list) shapes.set(shape, (shapes.get(shape) ?? 0) + 1);
  const starts = new Map<string, number>();
  for (const { beat } of list) {
    if (beat === null) continue;
    const on =
      Math.abs(beat - 1) < 0.01
        ? "on the first beat"
        : beat % 1 === 0
          ? "on another beat"
          : "between the beats";
    starts.set(on, (starts.get(on) ?? 0) + 1);
  }
  return {
    name: "Phrases",
    words: phrasesInWords(lengths, shapes, starts),
    places: [...list]
      .sort((a, b) => b.seconds - a.seconds)
      .slice(0, 1)
      .map((phrase) => ({
        words: `the longest, from ${placeInWords(phrase)}`,
        select: { kind: "phrase", phrase: phrase.id } satisfies Place["select"],
      })),
  };
}

/**
 * How long the phrases are, how they go and where they start, each with its number; one phrase is told as one.
 *
 * @param lengths in bars, the shortest first
 * @param shapes phrases by their shape
 * @param starts phrases by where they start: "on the first beat"
 */
export function phrasesInWords(
  lengths: readonly number[],
  shapes: ReadonlyMap<string, number>,
  starts: ReadonlyMap<string, number>,
): string {
  const bars = (length: number) => (length === 1 ? "one bar" : `${shortNumber(length)} bars`);
  const [longest] = lengths.slice(-1);
  if (longest !== undefined && lengths.length === 1) {
    const [shape] = shapes.keys();
    const [start] = starts.keys();
    return `One, of ${bars(longest)}${shape === undefined ? "" : `, ${shape}`}${start === undefined ? "" : `; it starts ${start}`}.`;
  }
  const each = (counts: ReadonlyMap<string, number>) =>
    [...counts]
      .sort((a, b) => b[1] - a[1])
      .map(([name, n]) => `${n} ${name}`)
      .join(", ");
  return [
    longest === undefined
      ? ""
      : `Half of them last ${bars(lengths[Math.floor((lengths.length - 1) / 2)]!)} or less, the longest ${bars(longest)}.`,
    shapes.size === 0 ? "" : `Shapes: ${each(shapes)}.`,
    starts.size === 0 ? "" : `By where they start: ${each(starts)}.`,
  ]
    .filter(Boolean)
    .join(" ");
}

/** "2", "2.5". */
const shortNumber = (value: number): string => value.toFixed(1).replace(/\.0$/, "");

function rests(index: AccountIndex, { rests: share, longestRest }: Rhythm): ToldRow {
  const after = longestRest ? index.note.get(longestRest.after) : undefined;
  return {
    name: "Breath",
    words: `The solo rests for ${percent(share)} of its time.${
      longestRest
        ? ` The longest rest inside it lasts ${longestRest.seconds.toFixed(1)} s${longestRest.beats === null ? "" : ` (${beatInFigures(Number(longestRest.beats.toFixed(2)))} beats)`}.`
        : ""
    }`,
    places: after
      ? [{ words: `after ${placeInWords(after)}`, select: { kind: "note", note: after.id } }]
      : [],
  };
}

function density({ density: { perBar, perSecond }, syncopation }: Rhythm): string {
  const bar = perBar === null ? "" : `${perBar.toFixed(1)} a bar, `;
  const over =
    syncopation === null
      ? ""
      : ` ${percent(syncopation)} of them come on a weak place and are held over a stronger one.`;
  return `${bar}${perSecond.toFixed(1)} a second.${over}`;
}

function subdivision({ subdivisions }: Rhythm): string {
  const words = Object.entries(subdivisions)
    .filter(([, share]) => share > 0.005)
    .sort((a, b) => b[1] - a[1])
    .map(([name, share]) => `${percent(share)} ${name}`);
  return words.length === 0 ? "There is no beat to count by." : `${words.join(", ")}.`;
}

function swing({ swing: found }: Rhythm): string {
  if (found === null) return "Too few beats with one off-beat note to say.";
  const at = found.tempo === null ? "" : ` at ${tempoMark(found.tempo)}`;
  const short = found.short === null ? "" : `; the short note lasts about ${Math.round(found.short)} ms`;
  const doubt =
    found.interval === undefined
      ? ""
      : ` (between ${found.interval.low.toFixed(2)} and ${found.interval.high.toFixed(2)}, 95 % sure)`;
  return `${found.median.toFixed(2)} : 1${doubt}${at}, the middle half from ${found.q1.toFixed(2)} to ${found.q3.toFixed(2)}, over ${count(found.beats, "beat")}${short}.`;
}

export function timing({ timing: found, untimed }: Pick<Rhythm, "timing" | "untimed">): string {
  if (found === null) {
    return untimed === undefined ? "Cannot be said of this take." : UNTIMED_WORDS[untimed];
  }
  const against = found.against === "other hand" ? "the other hand" : "the click";
  if (!found.heard)
    return `No difference from ${against} that can be heard (under ${Math.round(found.threshold)} ms).`;
  const drift =
    found.drift === null
      ? ""
      : ` It drifts by ${Math.abs(Math.round(found.drift))} ms a minute ${found.drift > 0 ? "later" : "earlier"}.`;
  const doubt =
    found.interval === undefined
      ? ""
      : ` (between ${fromTo(found.interval.low, found.interval.high, " and ")}, 95 % sure)`;
  return `Half of the notes are ${Math.abs(Math.round(found.median))} ms or more ${found.median > 0 ? "late" : "early"} against ${against}${doubt}; the middle half from ${fromTo(found.q1, found.q3, " to ")}.${drift}`;
}

/** "24 and 21 ms early", "3 ms early and 12 ms late": milliseconds by their side of the beat. */
function fromTo(low: number, high: number, joint: string): string {
  const [a, b] = [Math.round(low), Math.round(high)];
  const side = (ms: number) => (ms < 0 ? "early" : "late");
  const early = a === 0 ? side(b) : side(a);
  return b === 0 || early === side(b)
    ? `${Math.abs(a)}${joint}${Math.abs(b)} ms ${early}`
    : `${Math.abs(a)} ms ${early}${joint}${b} ms ${side(b)}`;
}

function tempo({ tempoStability }: Rhythm, { tempo: played, method }: Analysis["alignment"]): string {
  if (played === null) return "There is no steady beat.";
  const median = tempoMark(played.median);
  if (tempoStability === null) {
    return method === "notated" ? `${median}, as notated.` : `${median}.`;
  }
  const { variation, drift } = tempoStability;
  const range = `${Math.round(played.slowest)} to ${Math.round(played.fastest)}`;
  return `${median}, bars from ${range}; their spread is ${(100 * variation).toFixed(1)} % of the tempo, the drift ${drift > 0 ? "+" : ""}${drift.toFixed(1)} % a minute.`;
}
