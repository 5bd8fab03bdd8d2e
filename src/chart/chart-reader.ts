/** Reads the lines of the chart format one after the other, then the bars in the order in which they are played. */
import { Problem, type Warning } from "../take/index.ts";
import { plainSigns } from "./chart-glyphs.ts";
import { ChartHeadings, oneLine, readMeter } from "./chart-headings.ts";
import {
  isInOrder,
  judgeChords,
  judgeCrowding,
  judgeJumps,
  judgeKeys,
  judgeSections,
  type PlacedChord,
  type Section,
} from "./chart-judgements.ts";
import { MAX_CHART_BARS, tooManyBars } from "./chart-limits.ts";
import { chartProblem, type Place } from "./chart-place.ts";
import { type ChartToken, chartTokens } from "./chart-tokens.ts";
import { ChartWarnings } from "./chart-warnings.ts";
import { type HeadingName, lineOfWords, meterInWords, withoutQuotes } from "./chart-words.ts";
import { timesInWords } from "./how-often.ts";
import { playOrder } from "./play-order.ts";
import type { ChartBar } from "./types.ts";
import { barsIn, type TokenLine, understandBars } from "./unbarred.ts";
import { BarWriter, type WrittenBar } from "./written-bars.ts";

export { MAX_CHART_BARS } from "./chart-limits.ts";

export class ChartReader {
  readonly headings = new ChartHeadings();
  private readonly warnings = new ChartWarnings();
  private lines: TokenLine[] = [];
  private chords: PlacedChord[] = [];
  private readonly sections: Section[] = [];
  /** Letters alone on a line: chords, or names of sections. */
  private readonly letters: Section[] = [];

  readLine(written: string, number: number): void {
    this.askAboutLines(written, number);
    const line = plainSigns(written);
    if (line.trim() === "") return;
    const place: Place = { line: number, bar: 0 };
    const words = lineOfWords(line, this.lines.length > 0);
    if (words?.kind === "words" || words?.kind === "left out" || words?.kind === "section") {
      const taken = this.readAsides(words.kind === "section" ? words.name : line, place);
      if (taken && words.kind === "left out") return;
    }
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
    this.settleLeadingLetters();
    this.headings.settleKey();
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
    if (this.lines.length > 0 && name === "key") {
      this.headings.changeKey(value, place);
      return;
    }
    if (this.lines.length > 0) {
      throw chartProblem(
        "unknown-heading",
        `The heading "${name}" stands after the first bar`,
        place,
        "Write headings above the first bar; only the key may change among the bars.",
      );
    }
    this.headings.set(name, value, place);
  }

  /** Takes the meter that a line of words names; a number of times has signs of its own. True when one was taken. */
  private readAsides(words: string, place: Place): boolean {
    const times = timesInWords(words);
    if (times !== null) {
      throw chartProblem(
        "repeat-sign",
        `"${oneLine(words).slice(0, 40)}" says "${times}", and not which bars are played so often`,
        place,
        'Write "|:" before the passage and the number behind it: |: C | F :| x4',
      );
    }
    const named = meterInWords(words);
    if (named === null || this.lines.length > 0) return false;
    const meter = readMeter(named, place);
    const { beats, unit } = this.headings.meter;
    if (meter.beats === beats && meter.unit === unit) return false;
    this.headings.meter = meter;
    this.warnings.add(
      "meter-in-words",
      place,
      `The meter ${named} was taken from a line of words. Write "meter: ${named}" to make it plain.`,
    );
    return true;
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
    if (this.headings.name === null) this.headings.name = oneLine(withoutQuotes(line.trim())) || null;
    else this.leaveOut(line, place);
  }

  private leaveOut(line: string, place: Place): void {
    this.warnings.add(
      "line-left-out",
      place,
      `"${oneLine(line).slice(0, 60)}" says nothing about the chords; it was left out.`,
    );
  }

  /** "|C||||F|": so many bar lines may be a thick one, or empty bars. */
  private askAboutLines(written: string, number: number): void {
    if (!/\|{4,}|\|{3}(?=.*[A-Z%])/.test(written.replace(/^\s*\|+/, ""))) return;
    this.warnings.add(
      "lines-in-a-row",
      { line: number, bar: 0 },
      "Several bar lines in a row were read as one. Put a space or % between them where bars are meant.",
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
    const [alone] = tokens;
    if (tokens.length === 1 && alone?.kind === "number" && !alone.dot) {
      throw chartProblem(
        "words-in-chart",
        `The number ${alone.value} stands alone on its line`,
        { line: number, bar: 0 },
        'Take the numbers of pages out; the number of an ending stands before its bars: "2. G7".',
      );
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

  /**
   * "A | C | F |" and below it "B | G7 | C |": letters that lead their lines in the order of rehearsal marks, two of
   * them at least, name sections.
   */
  private settleLeadingLetters(): void {
    const led = this.lines.filter(isLed);
    const letters = led.map(({ number, tokens }) => ({ name: letterOf(tokens[0])!, line: number }));
    if (led[0] !== this.lines[0] || new Set(letters.map(({ name }) => name)).size < 2) return;
    if (!isInOrder(letters)) return;
    this.lines = this.lines.map((line) => (isLed(line) ? { ...line, tokens: line.tokens.slice(1) } : line));
    for (const { line } of letters) {
      this.chords.splice(
        this.chords.findIndex(({ place }) => place.line === line),
        1,
      );
    }
    this.sections.push(...letters);
    this.sections.sort((a, b) => a.line - b.line);
    const { name, line } = letters[0]!;
    this.warnings.add(
      "section-letter",
      { line, bar: 0 },
      `The letter ${name} before the first bar line was read as the name of a section, not as a chord. Write | ${name} | for a bar of ${name}.`,
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
    const changes = this.headings.keyChanges();
    judgeKeys(changes, written);
    return order.map(({ bar }, index) => {
      const { chords, place } = written[bar]!;
      const key = changes.findLast(({ line }) => line < place.line)?.key ?? null;
      return { number: index + 1, key, chords };
    });
  }
}

function letterOf(token: ChartToken | undefined): string | null {
  return token?.kind === "chord" && /^[A-G]$/.test(token.written.text) ? token.written.text : null;
}

/** A line that begins with a letter and a bar line behind it. */
function isLed({ tokens }: TokenLine): boolean {
  return letterOf(tokens[0]) !== null && tokens[1]?.kind === "line";
}

/** The tokens without the meter that stands before them, and without the bar line behind it that opens the first bar. */
function withoutMeter(tokens: readonly ChartToken[]): readonly ChartToken[] {
  const at = tokens.findIndex(({ kind }) => kind === "meter");
  const opens = tokens[at + 1]?.kind === "line" ? 2 : 1;
  return [...tokens.slice(0, at), ...tokens.slice(at + opens)];
}
