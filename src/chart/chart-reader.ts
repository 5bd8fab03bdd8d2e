/** Reads the lines of the chart format one after the other, then the bars in the order in which they are played. */
import { Problem, type Warning } from "../take/index.ts";
import { plainSigns } from "./chart-glyphs.ts";
import {
  isInOrder,
  judgeChords,
  judgeCrowding,
  judgeJumps,
  judgeSections,
  type PlacedChord,
  type Section,
} from "./chart-judgements.ts";
import { MAX_CHART_BARS, tooManyBars } from "./chart-limits.ts";
import { chartProblem, type Place, placed } from "./chart-place.ts";
import { type ChartToken, chartTokens } from "./chart-tokens.ts";
import { ChartWarnings } from "./chart-warnings.ts";
import { type HeadingName, lineOfWords } from "./chart-words.ts";
import { parseKey } from "./key.ts";
import { inEnglish, NOTE_NAMES, type NoteNames } from "./note-names.ts";
import { playOrder } from "./play-order.ts";
import type { ChartBar, Idiom, Key, Meter } from "./types.ts";
import { barsIn, type TokenLine, understandBars } from "./unbarred.ts";
import { BarWriter, type WrittenBar } from "./written-bars.ts";

export { MAX_CHART_BARS } from "./chart-limits.ts";

export interface ReadHeadings {
  name: string | null;
  key: Key | null;
  meter: Meter;
  idiom: Idiom | null;
  /** Null where the chart does not say. */
  names: NoteNames | null;
}

export class ChartReader {
  readonly headings: ReadHeadings = {
    name: null,
    key: null,
    meter: { beats: 4, unit: 4 },
    idiom: null,
    names: null,
  };
  private readonly warnings = new ChartWarnings();
  private lines: TokenLine[] = [];
  private chords: PlacedChord[] = [];
  private readonly sections: Section[] = [];
  /** Letters alone on a line: chords, or names of sections. */
  private readonly letters: Section[] = [];
  private keyText: { readonly text: string; readonly place: Place } | null = null;

  readLine(written: string, number: number): void {
    const line = plainSigns(written);
    if (line.trim() === "") return;
    const place: Place = { line: number, bar: 0 };
    const words = lineOfWords(line, this.lines.length > 0);
    switch (words?.kind) {
      case undefined:
        this.readBars(line, number);
        return;
      case "nothing":
        return;
      case "heading":
        this.readHeading(words.name, words.value, place);
        return;
      case "left out":
        this.leaveOut(line, place);
        return;
      case "words":
        this.readWords(line, place);
        return;
      case "section":
        if (words.asks) {
          this.letters.push({ name: words.name, line: number });
          this.readBars(line, number);
          return;
        }
        this.sections.push({ name: words.name, line: number });
        if (words.rest.trim() !== "") this.readBars(words.rest, number);
        return;
      case "unknown heading":
        throw chartProblem("unknown-heading", `"${words.word}" is not a heading`, place, words.mend);
    }
  }

  /** The bars of one chorus in the order of playing, and what was understood. */
  finish(): { readonly bars: ChartBar[]; readonly warnings: Warning[] } {
    this.settleLoneLetters();
    if (this.keyText !== null) {
      const { text, place } = this.keyText;
      this.headings.key = placed(place, () => parseKey(keyInEnglish(text, this.headings.names ?? "english")));
    }
    const { lines, asks } = understandBars(this.lines, this.headings.meter);
    if (asks !== null) this.warnings.add("bars-understood", { line: asks.line, bar: 0 }, asks.message);
    const writer = new BarWriter(this.headings.meter, this.warnings);
    for (const line of lines) writer.writeLine(line);
    const written = writer.finish();
    if (written.length === 0) {
      throw new Problem(
        "empty-chart",
        "The chart has no bars",
        null,
        'Write chords between bar lines: "| F7 | Bb7 |".',
      );
    }
    judgeChords(this.chords, this.headings.names, this.warnings);
    judgeSections(this.sections, this.lines);
    judgeCrowding(lines, written, this.warnings);
    judgeJumps(lines, this.warnings);
    return { bars: this.play(written), warnings: this.warnings.list() };
  }

  private readHeading(name: HeadingName, value: string, place: Place): void {
    if (this.lines.length > 0) {
      throw chartProblem(
        "unknown-heading",
        `The heading "${name}" stands after the first bar`,
        place,
        "Write headings above the first bar.",
      );
    }
    switch (name) {
      case "name":
        this.headings.name = oneLine(value) || null;
        return;
      case "key":
        this.keyText = { text: value, place };
        return;
      case "meter":
        this.headings.meter = readMeter(value, place);
        return;
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
        return;
      }
      case "names": {
        const names = NOTE_NAMES.find((one) => one === value.toLowerCase().replace("solfège", "solfege"));
        if (names === undefined) {
          throw chartProblem(
            "unknown-heading",
            `"${value.slice(0, 40)}" is not a way of naming notes`,
            place,
            'Write "names: english", "names: german" or "names: solfege".',
          );
        }
        this.headings.names = names;
        return;
      }
    }
  }

  private readWords(line: string, place: Place): void {
    if (this.lines.length > 0) {
      throw chartProblem(
        "words-in-chart",
        `"${line.trim().slice(0, 40)}" is a line of words among the bars`,
        place,
        "Take words out of the chart, or put a section's name in brackets: [Bridge].",
      );
    }
    if (this.headings.name === null) this.headings.name = oneLine(line) || null;
    else this.leaveOut(line, place);
  }

  private leaveOut(line: string, place: Place): void {
    this.warnings.add(
      "line-left-out",
      place,
      `"${oneLine(line).slice(0, 60)}" says nothing about the chords; it was left out.`,
    );
  }

  private readBars(line: string, number: number): void {
    const before = this.lines.reduce((sum, line) => sum + barsIn(line), 0);
    const start = { line: number, bar: before + 1 };
    const tokens = chartTokens(line, this.headings.names ?? "english", start);
    const first = tokens.findIndex(({ kind }) => kind === "chord" || kind === "again");
    const leading =
      this.lines.length === 0 ? tokens.slice(0, Math.max(0, first < 0 ? tokens.length : first)) : [];
    const meter = leading.find((token) => token.kind === "meter");
    if (meter?.kind === "meter") {
      const { beats, unit } = meter.meter;
      this.headings.meter = readMeter(`${beats}/${unit}`, { line: number, bar: 0 });
      // A meter alone is no bar, and its bar line opens the first one.
      if (first < 0) return;
    }
    for (const token of tokens) {
      if (token.kind === "chord") this.chords.push({ written: token.written, place: start });
      if (token.kind === "section") this.sections.push({ name: token.name, line: number });
      if (token.kind === "chord" && token.optional) {
        this.warnings.add("optional-chords", start, "Chords in brackets were read as played.");
      }
    }
    const bare = meter === undefined ? tokens : withoutMeter(tokens);
    // A section's name alone on its line is no line of bars.
    if (bare.some(({ kind }) => kind !== "section")) this.lines.push({ number, tokens: bare });
  }

  /**
   * Letters alone on their lines are names of sections where they come in the order of rehearsal marks and the chart
   * has bars beside them; else they are chords.
   */
  private settleLoneLetters(): void {
    const alone = new Set(this.letters.map(({ line }) => line));
    const others = this.lines.filter(({ number }) => !alone.has(number));
    const barred = others.some(({ tokens }) => tokens.some(({ kind }) => kind === "line"));
    const rows = others.length > 0 && others.every(({ tokens }) => tokens.length > 1);
    if (alone.size === 0 || !(barred || rows) || !isInOrder(this.letters)) return;
    this.lines = others;
    this.chords = this.chords.filter(({ place }) => !alone.has(place.line));
    this.sections.push(...this.letters);
    this.sections.sort((a, b) => a.line - b.line);
    const { name, line } = this.letters[0]!;
    this.warnings.add(
      "section-letter",
      { line, bar: 0 },
      `The letter ${name} alone on its line was read as the name of a section, not as a chord. Write | ${name} | for a bar of ${name}.`,
    );
  }

  private play(written: readonly WrittenBar[]): ChartBar[] {
    const { order, warnings, unplayed } = playOrder(
      written.map(({ road }) => road),
      MAX_CHART_BARS,
      () => tooManyBars(written.at(-1)!.place),
    );
    for (const { code, bar, message } of warnings) this.warnings.add(code, written[bar]!.place, message);
    for (const bar of unplayed) {
      this.warnings.add(
        "bars-not-played",
        written[bar]!.place,
        "By its repeat signs and endings the chart never comes to this bar. Check the signs there.",
      );
    }
    return order.map(({ bar }, index) => ({ number: index + 1, chords: written[bar]!.chords }));
  }
}

/** A name fits on its heading's line. */
export function oneLine(name: string): string {
  return name.slice(0, 200).replace(/\s+/g, " ").trim();
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

/** "h-Moll" and "Fa# minor" in English. */
function keyInEnglish(text: string, names: NoteNames): string {
  if (names === "english") return text;
  const plain = text.replace(/[\s-]*dur$/i, "").replace(/[\s-]*moll$/i, "m");
  const capital = names === "german" ? plain.charAt(0).toUpperCase() + plain.slice(1) : plain;
  return inEnglish(capital, names) ?? text;
}

/** The tokens without the meter that stands before them, and without the bar line behind it that opens the first bar. */
function withoutMeter(tokens: readonly ChartToken[]): readonly ChartToken[] {
  const at = tokens.findIndex(({ kind }) => kind === "meter");
  const opens = tokens[at + 1]?.kind === "line" ? 2 : 1;
  return [...tokens.slice(0, at), ...tokens.slice(at + opens)];
}
