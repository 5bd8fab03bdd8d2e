/** Reads the lines of the chart format one after the other. */
import { Problem } from "../take/index.ts";
import { readChord, shareBeats, type WrittenChord } from "./bar-chords.ts";
import { chartProblem, type Place, placed } from "./chart-place.ts";
import { parseChord } from "./chord-symbol.ts";
import { parseKey } from "./key.ts";
import type { ChartBar, ChartChord, Idiom, Key, Meter } from "./types.ts";

export const MAX_CHART_BARS = 512;
const MAX_REPEATS = 32;
const MAX_CHORDS_IN_BAR = 16;

const HEADING = /^\s*(\p{L}{2,20})\s*:(.*)$/u;
const BAR_LINE = /:\|:|\|:(\d{1,3}(?=[\s]))?|:\|(\d{1,3})?|\|\||\|/y;

/** Reads line after line; bars are counted as they will be played. */
export class ChartReader {
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

/** A name fits on its heading's line. */
export function oneLine(name: string): string {
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
