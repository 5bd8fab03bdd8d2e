/**
 * The chart format: text that a musician can type.
 *
 *     key: F
 *     meter: 4/4
 *     idiom: blues
 *     | F7 | Bb7 | F7 | Cm7 F7 |
 *     | Bb7:3 Bdim7:1 | % | F7{Lydian b7} | D7(b9) |
 *
 * Bars stand between bar lines; the end of a line ends a bar. Chords share their bar evenly; `:N` gives a chord N
 * beats in the meter's unit, and the others share what is left. `%` repeats the bar before, `|: ... :|` plays a
 * passage twice, `|:3 ... :|` or `|: ... :|3` three times. `{name}` chooses a scale for one chord. `N.C.` is silence
 * of the harmony. Headings (`name`, `key`, `meter`, `idiom`) stand before the first bar.
 */
import { Problem } from "../take/index.ts";
import { parseChord } from "./chord-symbol.ts";
import { findKey } from "./find-key.ts";
import { keyName, parseKey } from "./key.ts";
import { scaleNamed } from "./scale.ts";
import type { Chart, ChartBar, ChartChord, Idiom, Key, Meter } from "./types.ts";

export const MAX_CHART_TEXT = 50_000;
export const MAX_CHART_BARS = 512;
const MAX_REPEATS = 32;
const MAX_CHORDS_IN_BAR = 16;

/** Two lengths closer than this, in beats, are the same. */
const SAME_BEATS = 1e-6;

interface Defaults {
  readonly name?: string;
  readonly key?: string;
  readonly idiom?: Idiom;
}

/**
 * Reads the chart format. What headings leave open comes from `defaults`; a key or an idiom that neither gives is
 * found from the chords, and the meter is 4/4.
 *
 * Throws `Problem` whose `where` is "line L, bar B": "not-a-chord", "empty-bar", "beats-do-not-fit", "repeat-sign",
 * "nothing-to-repeat", "unknown-heading", "not-a-key", "not-a-meter", "not-an-idiom", "not-a-scale", "empty-chart",
 * "chart-too-long".
 * @example parseChart("key: F\n| F7 | Bb7 |").bars.length // 2
 */
export function parseChart(text: string, defaults: Defaults = {}): Chart {
  if (text.length > MAX_CHART_TEXT) {
    throw new Problem(
      "chart-too-long",
      `The chart has ${text.length} characters`,
      null,
      `Write at most ${MAX_CHART_TEXT} characters and ${MAX_CHART_BARS} bars: one chorus.`,
    );
  }
  const reader = new ChartReader();
  for (const [index, line] of text.split(/\r\n|\r|\n/).entries()) reader.readLine(line, index + 1);
  const bars = reader.finish();
  const heading = reader.headings;
  const keyText = heading.key ?? (defaults.key === undefined ? null : parseKey(defaults.key));
  const idiomText = heading.idiom ?? defaults.idiom ?? null;
  const found = findKey(bars, { key: keyText, idiom: idiomText });
  return {
    name: heading.name ?? (oneLine(defaults.name ?? "") || null),
    key: found.key,
    meter: heading.meter,
    idiom: found.idiom,
    bars,
  };
}

/**
 * Prints a chart in the chart format, four bars a line, chords in the house style, with all headings. Reading it
 * gives the same chart, except that `text` of each chord is then its house style.
 */
export function chartText(chart: Chart): string {
  const lines = chart.name === null ? [] : [`name: ${chart.name}`];
  lines.push(`key: ${keyName(chart.key)}`, `meter: ${chart.meter.beats}/${chart.meter.unit}`);
  lines.push(`idiom: ${chart.idiom}`);
  for (let i = 0; i < chart.bars.length; i += 4) {
    const bars = chart.bars.slice(i, i + 4).map((bar) => barText(bar, chart.meter));
    lines.push(`| ${bars.join(" | ")} |`);
  }
  return `${lines.join("\n")}\n`;
}

function barText(bar: ChartBar, meter: Meter): string {
  const share = meter.beats / bar.chords.length;
  const even = bar.chords.every((chord) => chord.beats === share);
  return bar.chords
    .map(
      ({ symbol, scale, beats }) => symbol + (scale === null ? "" : `{${scale}}`) + (even ? "" : `:${beats}`),
    )
    .join(" ");
}

/** A chord with its written length, before its bar is known to be complete. */
interface WrittenChord {
  readonly symbol: string;
  readonly chord: ChartChord["chord"];
  readonly scale: string | null;
  readonly beats: number | null;
}

interface Place {
  readonly line: number;
  readonly bar: number;
}

const HEADING = /^\s*(\p{L}{2,20})\s*:(.*)$/u;
const BAR_LINE = /:\|:|\|:(\d{1,3}(?=[\s]))?|:\|(\d{1,3})?|\|\||\|/y;
const CHORD_TOKEN = /[^\s|{}:()]*(?:\([^()|{}:]*\)[^\s|{}:()]*)*/y;
const BROKEN_TOKEN = /[^\s|{}:]+|./y;

/** Reads line after line; bars are counted as they will be played. */
class ChartReader {
  readonly headings: { name: string | null; key: Key | null; meter: Meter; idiom: Idiom | null } = {
    name: null,
    key: null,
    meter: { beats: 4, unit: 4 },
    idiom: null,
  };
  private readonly bars: (readonly ChartChord[])[] = [];
  /** Index of the first bar of the passage that the next closing sign repeats, and the times asked for. */
  private passage: { start: number; times: number | null; place: Place } | null = null;
  private afterLastRepeat = 0;

  readLine(line: string, number: number): void {
    if (line.trim() === "") return;
    const heading = HEADING.exec(line);
    if (heading !== null && this.readHeading(heading[1]!, heading[2]!.trim(), number)) return;
    this.readBars(line, number);
  }

  finish(): ChartBar[] {
    if (this.passage !== null) {
      throw chartProblem(
        "repeat-sign",
        'A repeat is opened by "|:" and not closed',
        this.passage.place,
        'Close it with ":|".',
      );
    }
    if (this.bars.length === 0) {
      throw new Problem(
        "empty-chart",
        "The chart has no bars",
        null,
        'Write chords between bar lines: "| F7 | Bb7 |".',
      );
    }
    return this.bars.map((chords, index) => ({ number: index + 1, chords }));
  }

  /** False when the word before the colon is a chord: "Am:3 D7:1". */
  private readHeading(word: string, value: string, line: number): boolean {
    const name = word.toLowerCase();
    const known = name === "name" || name === "key" || name === "meter" || name === "idiom";
    if (!known && isChord(word)) return false;
    const place = { line, bar: 0 };
    if (known && this.bars.length > 0) {
      throw chartProblem(
        "unknown-heading",
        `The heading "${word}" stands after the first bar`,
        place,
        "Write headings above the first bar.",
      );
    }
    switch (name) {
      case "name":
        this.headings.name = oneLine(value) || null;
        return true;
      case "key":
        this.headings.key = placed(place, () => parseKey(value));
        return true;
      case "meter":
        this.headings.meter = readMeter(value, place);
        return true;
      case "idiom": {
        const idiom = value.toLowerCase();
        if (idiom !== "blues" && idiom !== "standard") {
          throw chartProblem(
            "not-an-idiom",
            `"${value.slice(0, 40)}" is not an idiom`,
            place,
            'Write "idiom: blues" or "idiom: standard".',
          );
        }
        this.headings.idiom = idiom;
        return true;
      }
      default:
        throw chartProblem(
          "unknown-heading",
          `"${word}" is not a heading`,
          place,
          "Write key, meter, idiom or name before the colon.",
        );
    }
  }

  private readBars(line: string, number: number): void {
    let at = 0;
    let written: WrittenChord[] = [];
    let barStart: number | null = null;
    const place = (): Place => ({ line: number, bar: this.bars.length + 1 });
    while (at < line.length) {
      BAR_LINE.lastIndex = at;
      const sign = BAR_LINE.exec(line);
      if (sign !== null) {
        if (written.length > 0) this.endBar(written, place());
        else if (barStart !== null && /^\s+$/.test(line.slice(barStart, at))) {
          throw chartProblem(
            "empty-bar",
            "A bar is empty",
            place(),
            "Write a chord, % or N.C. between its bar lines.",
          );
        }
        written = [];
        this.barLine(sign, place());
        at = BAR_LINE.lastIndex;
        barStart = at;
        continue;
      }
      if (/\s/.test(line.charAt(at))) {
        at += 1;
        continue;
      }
      const [chord, end] = readChord(line, at, place());
      written.push(chord);
      if (written.length > MAX_CHORDS_IN_BAR) {
        throw chartProblem(
          "beats-do-not-fit",
          `A bar has more than ${MAX_CHORDS_IN_BAR} chords`,
          place(),
          'Part the bars with "|".',
        );
      }
      at = end;
    }
    if (written.length > 0) this.endBar(written, place());
  }

  private endBar(written: readonly WrittenChord[], place: Place): void {
    if (written.length === 1 && written[0]!.symbol === "%") {
      const before = this.bars.at(-1);
      if (before === undefined) {
        throw chartProblem(
          "nothing-to-repeat",
          '"%" stands in the first bar',
          place,
          "Write the first bar's chords.",
        );
      }
      this.push(before, place);
      return;
    }
    this.push(shareBeats(written, this.headings.meter, place), place);
  }

  private barLine(sign: RegExpExecArray, place: Place): void {
    const text = sign[0];
    if (text.startsWith(":|")) {
      const times = readTimes(sign[2], place);
      const passage = this.passage ?? { start: this.afterLastRepeat, times: null, place };
      const asked = times ?? passage.times ?? 2;
      if (times !== null && passage.times !== null && times !== passage.times) {
        throw chartProblem(
          "repeat-sign",
          `A repeat is opened for ${passage.times} times and closed for ${times}`,
          place,
          "Write the number once.",
        );
      }
      const bars = this.bars.slice(passage.start);
      if (bars.length === 0) {
        throw chartProblem("repeat-sign", "A repeat has no bars", place, 'Write bars between "|:" and ":|".');
      }
      for (let time = 1; time < asked; time++) for (const bar of bars) this.push(bar, place);
      this.passage = null;
      this.afterLastRepeat = this.bars.length;
    }
    if (text.startsWith("|:") || text === ":|:") {
      if (this.passage !== null) {
        throw chartProblem(
          "repeat-sign",
          "A repeat is opened inside a repeat",
          place,
          'Close the first one with ":|".',
        );
      }
      this.passage = { start: this.bars.length, times: readTimes(sign[1], place), place };
    }
  }

  private push(bar: readonly ChartChord[], place: Place): void {
    if (this.bars.length >= MAX_CHART_BARS) {
      throw chartProblem(
        "chart-too-long",
        `The chart has more than ${MAX_CHART_BARS} bars`,
        place,
        "Write one chorus only.",
      );
    }
    this.bars.push(bar);
  }
}

function readMeter(value: string, place: Place): Meter {
  const match = /^(\d{1,2})\s?\/\s?(\d{1,2})$/.exec(value);
  const [beats, unit] = [Number(match?.[1] ?? 0), Number(match?.[2] ?? 0)];
  if (beats < 1 || beats > 32 || ![1, 2, 4, 8, 16, 32].includes(unit)) {
    throw chartProblem(
      "not-a-meter",
      `"${value.slice(0, 40)}" is not a meter`,
      place,
      "Write beats / unit, such as 4/4, 3/4 or 6/8; the unit is 1, 2, 4, 8, 16 or 32.",
    );
  }
  return { beats, unit };
}

function readTimes(digits: string | undefined, place: Place): number | null {
  if (digits === undefined) return null;
  const times = Number(digits);
  if (times < 1 || times > MAX_REPEATS) {
    throw chartProblem(
      "repeat-sign",
      `A passage cannot be played ${times} times`,
      place,
      `Write a number from 1 to ${MAX_REPEATS}.`,
    );
  }
  return times;
}

/** Reads "C7(b9){altered}:2" at a place of the line; gives the chord and where it ends. */
function readChord(line: string, at: number, place: Place): [WrittenChord, number] {
  let text = sticky(CHORD_TOKEN, line, at)![0];
  if (text === "" || /[()]/.test(line.charAt(at + text.length))) text = sticky(BROKEN_TOKEN, line, at)![0];
  let end = at + text.length;
  const chord = text === "%" ? null : placed(place, () => parseChord(text));
  let scale: string | null = null;
  const scaleText = sticky(/\{([^{}|]{0,60})\}/y, line, end);
  if (scaleText !== null) {
    scale = placed(place, () => scaleNamed(scaleText[1]!)).name;
    end += scaleText[0].length;
  }
  let beats: number | null = null;
  const length = sticky(/:(\d{1,3}(?:\.\d{1,20})?)/y, line, end);
  if (length !== null) {
    beats = Number(length[1]);
    end += length[0].length;
  } else if (line.charAt(end) === ":" && line.charAt(end + 1) !== "|") {
    throw chartProblem(
      "beats-do-not-fit",
      `"${text}:" has no number of beats`,
      place,
      'Write the beats after the colon: "C7:3".',
    );
  }
  if (text === "%" && (scale !== null || beats !== null)) {
    throw chartProblem(
      "nothing-to-repeat",
      '"%" takes no beats and no scale',
      place,
      "It repeats the whole bar before.",
    );
  }
  return [{ symbol: text === "%" ? "%" : (chord?.symbol ?? "N.C."), chord, scale, beats }, end];
}

/** Gives every chord of a bar its beats; those without a number share what is left evenly. */
function shareBeats(written: readonly WrittenChord[], meter: Meter, place: Place): ChartChord[] {
  if (written.some(({ symbol }) => symbol === "%")) {
    throw chartProblem(
      "nothing-to-repeat",
      '"%" stands beside a chord',
      place,
      "It repeats the whole bar before: let it stand alone.",
    );
  }
  const given = written.reduce((sum, { beats }) => sum + (beats ?? 0), 0);
  const sharing = written.filter(({ beats }) => beats === null).length;
  const left = meter.beats - given;
  const fits = sharing === 0 ? Math.abs(left) < SAME_BEATS : left > SAME_BEATS;
  if (!fits || written.some(({ beats }) => beats === 0)) {
    throw chartProblem(
      "beats-do-not-fit",
      `"${written.map(({ symbol, beats }) => symbol + (beats === null ? "" : `:${beats}`)).join(" ")}" does not fit a bar of ${meter.beats} beats`,
      place,
      `Write beats after ":" that add up to ${meter.beats}, or none at all to share the bar evenly.`,
    );
  }
  let beat = 1;
  return written.map(({ symbol, chord, scale, beats: own }) => {
    const beats = own ?? left / sharing;
    const start = beat;
    beat += beats;
    return { chord, symbol, beat: start, beats, scale };
  });
}

/** A name fits on its heading's line. */
function oneLine(name: string): string {
  return name.slice(0, 200).replace(/\s+/g, " ").trim();
}

function isChord(word: string): boolean {
  try {
    parseChord(word);
    return true;
  } catch {
    return false;
  }
}

function sticky(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}

function chartProblem(code: string, message: string, place: Place, todo: string): Problem {
  return new Problem(
    code,
    message,
    place.bar === 0 ? `line ${place.line}` : `line ${place.line}, bar ${place.bar}`,
    todo,
  );
}

/** Lets a problem of a part be told with its place in the chart. */
function placed<T>(place: Place, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    throw chartProblem(error.code, error.message, place, error.todo);
  }
}
