/**
 * Lines of chords without bar lines. Whether each chord is a bar or the whole line is one can only be understood
 * from how many there are; what is understood is asked about, and what cannot be is refused.
 */
import { chartProblem, type Place } from "./chart-place.ts";
import type { ChartToken } from "./chart-tokens.ts";
import type { Meter } from "./types.ts";

export interface TokenLine {
  readonly number: number;
  readonly tokens: readonly ChartToken[];
}

export interface UnderstoodLines {
  readonly lines: readonly TokenLine[];
  /** What was understood, as a sentence, with its line; null when every bar was marked. */
  readonly asks: { readonly line: number; readonly message: string } | null;
}

const BAR: ChartToken = { kind: "line", double: false };

/** Puts in the bar lines that are meant. */
export function understandBars(lines: readonly TokenLine[], meter: Meter): UnderstoodLines {
  const anywhere = lines.some(hasBarLine);
  const rows = lines.filter((line) => !hasBarLine(line) && chordsIn(line) > 0);
  if (rows.length === 0) return { lines: lines.map(withoutGaps), asks: null };
  const barred = lines.filter(hasBarLine).map(barsIn);
  const reading = anywhere ? null : readingOf(rows, meter);
  let asks: UnderstoodLines["asks"] = null;
  const understood = lines.map((line) => {
    if (!rows.includes(line)) return withoutGaps(line);
    const way = reading ?? readingBeside(line, barred, meter);
    if (way.ask !== null) asks ??= { line: line.number, message: way.ask };
    return { number: line.number, tokens: way.cut(line).flatMap(timesBehindBar) };
  });
  return { lines: understood, asks };
}

/** "x2" at the end of a line plays all of it twice: the bar before it is whole. */
function timesBehindBar(token: ChartToken): ChartToken[] {
  return token.kind === "times" ? [BAR, token] : [token];
}

/** A way of cutting a line into bars, and the question that goes with it. */
interface Reading {
  readonly ask: string | null;
  cut(line: TokenLine): readonly ChartToken[];
}

const MEND = "Put | between the bars, or write one bar a line.";

const EACH_CHORD: Reading = {
  ask: `There are no bar lines; each chord was read as a bar of its own. ${MEND}`,
  cut: ({ tokens }) =>
    tokens.flatMap((token): readonly ChartToken[] =>
      token.kind === "chord" || token.kind === "again" ? [BAR, token] : [token],
    ),
};
const EACH_LINE: Reading = {
  ask: `There are no bar lines; each line was read as one bar, also where it holds several chords. ${MEND}`,
  cut: withoutGapsTokens,
};
const EACH_CELL: Reading = {
  ask: `There are no bar lines; what stands between commas or tabs was read as a bar. ${MEND}`,
  cut: ({ tokens }) => tokens.map((token) => (token.kind === "gap" ? BAR : token)),
};
const GOES_ON: ChartToken = { kind: "hold", sign: "-", count: 1 };
/** Rows of a table with the same number of cells, four or a multiple: in an empty cell the chord goes on. */
const EACH_CELL_OF_TABLE: Reading = {
  ask: `There are no bar lines; each cell was read as a bar, and the chord goes on in an empty one. ${MEND}`,
  cut: ({ tokens }) =>
    tokens.flatMap((token, at): readonly ChartToken[] => {
      if (token.kind !== "gap") return [token];
      const next = tokens[at + 1]?.kind;
      return next === undefined || next === "gap" ? [BAR, GOES_ON] : [BAR];
    }),
};
const AS_WRITTEN: Reading = { ask: null, cut: withoutGapsTokens };

/** How the lines of a chart without any bar line are meant. */
function readingOf(rows: readonly TokenLine[], meter: Meter): Reading {
  if (rows.some(({ tokens }) => tokens.some(({ kind }) => kind === "hold"))) return byStrokes(rows, meter);
  if (rows.some(hasGap)) return isTable(rows) ? EACH_CELL_OF_TABLE : EACH_CELL;
  const counts = rows.map(chordsIn);
  const most = Math.max(...counts);
  if (most === 1 || rows.every(hasBeats)) return AS_WRITTEN;
  const same = counts.every((count) => count === most);
  if (most === 2) {
    // Lines of one chord and lines of two: the lines are the bars. A lone pair of chords shares one.
    if (!same || rows.length === 1) return EACH_LINE;
  } else if (counts.every((count) => count % 4 === 0) || (same && rows.length > 1)) {
    return EACH_CHORD;
  }
  const odd = rows.find((row) => chordsIn(row) !== most) ?? rows[0]!;
  throw unclear({ line: odd.number, bar: 0 });
}

/** How a line without bar lines is meant in a chart that has them elsewhere. */
function readingBeside(line: TokenLine, barred: readonly number[], meter: Meter): Reading {
  const chords = chordsIn(line);
  if (chords === 1 || hasBeats(line)) return AS_WRITTEN;
  if (line.tokens.some(({ kind }) => kind === "hold")) return byStrokes([line], meter);
  if (hasGap(line)) return EACH_CELL;
  if (chords === 2) return EACH_LINE;
  if (barred.includes(chords)) return EACH_CHORD;
  throw unclear({ line: line.number, bar: 0 });
}

/** "F7 / / / Bb7 / / /": as many signs as the meter has beats make a bar. */
function byStrokes(rows: readonly TokenLine[], { beats }: Meter): Reading {
  const cut = ({ tokens }: TokenLine): ChartToken[] | null => {
    const out: ChartToken[] = [];
    let slots = 0;
    for (const token of tokens) {
      if (token.kind === "gap") continue;
      if (token.kind === "chord" || token.kind === "hold") {
        if (slots % beats === 0) {
          if (token.kind === "hold") return null;
          out.push(BAR);
        }
        slots += token.kind === "hold" ? token.count : 1;
      }
      out.push(token);
    }
    return slots % beats === 0 ? out : null;
  };
  const bad = rows.find((row) => cut(row) === null);
  if (bad !== undefined) {
    // A bar a line, each with its strokes, is clear as well.
    if (rows.every((row) => slotsIn(row) <= beats && row.tokens[0]?.kind === "chord")) return EACH_LINE;
    throw unclear({ line: bad.number, bar: 0 });
  }
  return {
    ask: `There are no bar lines; ${beats} chords and strokes were read as a bar. ${MEND}`,
    cut: (line) => cut(line)!,
  };
}

function unclear(place: Place) {
  return chartProblem(
    "bars-unclear",
    "A line has no bar lines, and its chords could be bars of their own or share one",
    place,
    'Put "|" between the bars: | F7 | Bb7 | Gm7 C7 |',
  );
}

function hasBarLine({ tokens }: TokenLine): boolean {
  return tokens.some(({ kind }) => kind === "line" || kind === "open" || kind === "close");
}

function hasGap(line: TokenLine): boolean {
  return withoutEdgeGaps(line.tokens).some(({ kind }) => kind === "gap");
}

function isTable(rows: readonly TokenLine[]): boolean {
  const cells = rows.map(({ tokens }) => tokens.filter(({ kind }) => kind === "gap").length + 1);
  return cells.every((count) => count === cells[0] && count % 4 === 0) && rows.every(startsWithChord);
}

function startsWithChord({ tokens }: TokenLine): boolean {
  return tokens[0]?.kind === "chord";
}

function hasBeats({ tokens }: TokenLine): boolean {
  return tokens.some((token) => token.kind === "chord" && token.written.beats !== null);
}

function chordsIn({ tokens }: TokenLine): number {
  return tokens.filter(({ kind }) => kind === "chord" || kind === "again").length;
}

function slotsIn({ tokens }: TokenLine): number {
  return tokens.reduce(
    (sum, token) => sum + (token.kind === "hold" ? token.count : token.kind === "chord" ? 1 : 0),
    0,
  );
}

/** Bars of a line that has bar lines: stretches with anything in them. */
export function barsIn({ tokens }: TokenLine): number {
  let bars = 0;
  let filled = false;
  for (const { kind } of tokens) {
    if (kind === "line" || kind === "open" || kind === "close") filled = false;
    else if ((kind === "chord" || kind === "again" || kind === "hold") && !filled) {
      filled = true;
      bars++;
    }
  }
  return bars;
}

function withoutEdgeGaps(tokens: readonly ChartToken[]): readonly ChartToken[] {
  const last = tokens.findLastIndex(({ kind }) => kind !== "gap");
  return tokens.slice(0, last + 1);
}

function withoutGaps(line: TokenLine): TokenLine {
  return { number: line.number, tokens: withoutGapsTokens(line) };
}

function withoutGapsTokens({ tokens }: TokenLine): readonly ChartToken[] {
  return tokens.filter(({ kind }) => kind !== "gap");
}
