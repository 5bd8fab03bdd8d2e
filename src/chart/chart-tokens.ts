/** Cuts a line of bars into chords and signs. */
import { readChord, type WrittenChord } from "./bar-chords.ts";
import { chartProblem, type Place } from "./chart-place.ts";
import { TIMES, timesInWords, timesOf } from "./how-often.ts";
import { isChord, type NoteNames } from "./note-names.ts";
import type { WrittenSign } from "./road.ts";
import type { Meter } from "./types.ts";

export type ChartToken =
  /** "|", or "||" that also ends an ending. */
  | { readonly kind: "line"; readonly double: boolean }
  | { readonly kind: "open"; readonly times: string | null }
  /** `glued` is the number right behind the sign: times to play, or the next ending. */
  | { readonly kind: "close"; readonly times: string | null; readonly glued: string | null }
  | { readonly kind: "ending"; readonly passes: string }
  /** A number before a bar: its own number, or an ending's. */
  | {
      readonly kind: "number";
      readonly value: string;
      readonly dot: boolean;
      readonly atStart: boolean;
      /** True before the bar line that opens a line: "17 | C | F |". */
      readonly beforeLine: boolean;
    }
  | { readonly kind: "chord"; readonly written: WrittenChord; readonly optional: boolean }
  /** The chord before goes on: as many beats as there are signs. */
  | { readonly kind: "hold"; readonly sign: "/" | "." | "-"; readonly count: number }
  | { readonly kind: "again"; readonly bars: 1 | 2 }
  | {
      readonly kind: "road";
      readonly sign: WrittenSign;
      /** What stands behind "al", in small letters: "fine", "coda". */
      readonly to: string | null;
      /** "D.C. al 2nd ending": where the piece ends. */
      readonly ending: number | null;
    }
  | { readonly kind: "times"; readonly times: string }
  | { readonly kind: "meter"; readonly meter: Meter }
  | { readonly kind: "section"; readonly name: string }
  /** A comma, semicolon or tab. */
  | { readonly kind: "gap" };

const TIMES_HERE = new RegExp(TIMES, "iy");
const TIMES_BEHIND = new RegExp(`\\s{0,4}${TIMES}`, "iy");
const END = "(?=[\\s|,;)]|$)";
const WHERE_TO = "(?:\\s+(?:al|to)\\s+(?:the\\s+)?(?:\\d(?:st|nd|rd|th)?\\.?(?:\\s+(?:ending|time))?|\\w+))?";
const ROAD: readonly (readonly [RegExp, WrittenSign])[] = (
  [
    [`(?:d\\.\\s?c\\.?|dc|da\\s+capo)${WHERE_TO}`, "da capo"],
    [`(?:d\\.\\s?s\\.?|ds|dal\\s+segno)${WHERE_TO}`, "dal segno"],
    ["(?:to|da)\\s+(?:coda|\\u{1d10c})", "to coda"],
    ["fine", "fine"],
    ["(?:coda|\\u{1d10c})", "coda"],
    ["(?:segno|\\u{1d10b})", "segno"],
  ] as const
).map(([words, sign]) => [new RegExp(`[([]?\\s?${words}\\s?[)\\]]?[.:]?${END}`, "iuy"), sign] as const);
const AGAIN: readonly (readonly [RegExp, 1 | 2])[] = [
  [new RegExp(`(?:%%|2%|\\u{1d10f}|\\.?//\\.)${END}`, "uy"), 2],
  [new RegExp(`(?:%(?!%)|\\u{1d10e}|\\.?/\\.|"|〃|''|ditto|sim\\.|simile\\.?|sim${END})`, "uy"), 1],
];
const METER = new RegExp(`[[(]?\\s*(\\d{1,2})\\s?/\\s?(\\d{1,2})\\s*[\\])]?:?${END}`, "y");
const ENDING = new RegExp(
  "\\[\\s*(\\d{1,2}(?:\\s?[,.&–-]\\s?\\d{1,2})*)\\.?\\s*(?:ending)?\\s*\\]?|" +
    "(\\d{1,2}(?:\\.?\\s?[,&–-]\\s?\\d{1,2}|\\.\\/\\d{1,2}(?=\\.))+)\\.?(?=\\s*[A-Ga-g(\\s])|" +
    "(\\d)(?:st|nd|rd|th)(?:\\s+(?:ending|time)|(?=:))[:.]?",
  "iy",
);
const NUMBER = /(?:(\d{1,3})([.:)]?)|\((\d)\))(?=\s*([|A-Ga-gN%(/]|$))/y;
/** The same within a line, where a bare number that fills a bar is none. */
const ENDING_NUMBER = /(?:(\d{1,3})(?:([.:)])|(?!\s*\|))|\((\d)\))(?=\s*([|A-Ga-gN%(/]|$))/y;
const SECTION = /\[\s*(\p{L}[^\]|]{0,30})\]:?/uy;

/** The chords and signs of a line, left to right. Throws `Problem` for what is neither. */
export function chartTokens(line: string, names: NoteNames, start: Place): ChartToken[] {
  const tokens: ChartToken[] = [];
  const whole = new WholeBars();
  let depth = 0;
  let at = 0;
  const match = (pattern: RegExp): RegExpExecArray | null => {
    pattern.lastIndex = at;
    const found = pattern.exec(line);
    if (found !== null) at += found[0].length;
    return found;
  };
  while (at < line.length) {
    if (match(/[^\S\t]+/y) !== null) continue;
    // Each tab parts two cells of a table, also an empty one.
    if (match(/[\t,;][^\S\t]*/y) !== null) {
      tokens.push({ kind: "gap" });
      continue;
    }
    const place = { line: start.line, bar: start.bar + whole.after(tokens) };
    const sign = barSign(match) ?? wordSign(match, tokens);
    if (sign?.kind === "section") refuseInBrackets(sign.name, place);
    if (sign !== null) {
      if (sign.kind === "again" && /^(?:\{|:(?!\|))/.test(line.slice(at, at + 2))) throw beatsOfRepeat(place);
      if (sign.kind === "again" && /^ ?\d/.test(line.slice(at))) throw numberedAgain(place);
      tokens.push(sign);
      continue;
    }
    // The end of a bracket over an ending.
    if (match(/\](?=\s*(?::?\||$))/y) !== null) continue;
    if (depth > 0 && match(/\)/y) !== null) {
      depth--;
      continue;
    }
    if (match(/\((?=\s?[A-G])/y) !== null) {
      depth++;
      continue;
    }
    const [written, end] = readChord(line, at, {
      names,
      place,
      before: chordBefore(tokens, line, at),
      bracketed: depth > 0,
    });
    at = end;
    if (written.joined) tokens.pop();
    tokens.push({ kind: "chord", written, optional: depth > 0 });
    const held = match(/\/+(?=[\s|,;)]|$)/y);
    if (held !== null) tokens.push({ kind: "hold", sign: "/", count: held[0].length });
  }
  return tokens;
}

/** Counts the bars that are whole before the next token; told each token once, as a line may have thousands. */
class WholeBars {
  count = 0;
  #seen = 0;
  #filled = false;

  after(tokens: readonly ChartToken[]): number {
    // A chord that takes in the one before stands in its place, and changes no count.
    for (; this.#seen < tokens.length; this.#seen++) {
      const { kind } = tokens[this.#seen]!;
      if (kind === "line" || kind === "open" || kind === "close") {
        if (this.#filled) this.count++;
        this.#filled = false;
      } else if (kind === "chord" || kind === "again" || kind === "hold") this.#filled = true;
    }
    return this.count;
  }
}

/** "[G7]" is the chord of a song sheet, "[B2]" a section; "[repeat]" and "[Tag x2]" say what is played, not where. */
function refuseInBrackets(name: string, place: Place): void {
  if (timesInWords(name) !== null || /\b(?:repeat|rpt|bis)\b/i.test(name)) {
    throw chartProblem(
      "repeat-sign",
      `"[${name}]" says that something is repeated, and not which bars`,
      place,
      'Write "|:" before the passage and ":|" behind it, with the number of times: |: C | F :| x3',
    );
  }
  const words = name.split(/[\s,]+/);
  if (/^[A-Z][1-4]?['’]*$/.test(name) || !words.every(isChord)) return;
  throw chartProblem(
    "not-a-chord",
    words.length > 1
      ? `"[${name}]" holds chords in square brackets`
      : `"[${name}]" is a chord in square brackets`,
    place,
    "Take chords out of their brackets, and words out of the chart; square brackets name sections: [Bridge].",
  );
}

function beatsOfRepeat(place: Place) {
  return chartProblem(
    "nothing-to-repeat",
    '"%" takes no beats and no scale',
    place,
    "It repeats the whole bar before.",
  );
}

function numberedAgain(place: Place) {
  return chartProblem(
    "nothing-to-repeat",
    '"%" with a number may mean so many bars or so many times',
    place,
    "Write % for each bar that repeats the one before it, and %% where the two bars before return.",
  );
}

type Match = (pattern: RegExp) => RegExpExecArray | null;

function barSign(match: Match): ChartToken | null {
  if (match(/:\|:/y) !== null) return { kind: "close", times: "|:", glued: null };
  const open = match(/\|:(\d{1,3}(?=\s))?/y);
  if (open !== null) return { kind: "open", times: open[1] ?? null };
  if (match(/:\|/y) !== null) {
    const glued = match(/(\d{1,3})(?![\d\s]*[,&–-]\s?\d)(?!st|nd|rd|th|\s?x|\s?times)\.?/y)?.[1] ?? null;
    if (glued !== null) return { kind: "close", times: null, glued };
    const times = match(TIMES_BEHIND);
    return { kind: "close", times: times === null ? null : timesOf(times), glued: null };
  }
  const line = match(/\|\|?/y);
  return line === null ? null : { kind: "line", double: line[0].length > 1 };
}

function wordSign(match: Match, before: readonly ChartToken[]): ChartToken | null {
  const times = match(TIMES_HERE);
  if (times !== null) return { kind: "times", times: timesOf(times) };
  const meter = match(METER);
  if (meter !== null) return { kind: "meter", meter: { beats: Number(meter[1]), unit: Number(meter[2]) } };
  const ending = match(ENDING);
  if (ending !== null) return { kind: "ending", passes: (ending[1] ?? ending[2] ?? ending[3])! };
  const atStart = before.length === 0;
  const bare = before.at(-1)?.kind;
  if (atStart || bare === "line" || bare === "close") {
    const number = match(atStart ? NUMBER : ENDING_NUMBER);
    if (number !== null) {
      const [, plain, sign, bracketed, next] = number;
      const dot = sign !== undefined && sign !== "";
      return {
        kind: "number",
        value: (plain ?? bracketed)!,
        dot,
        atStart,
        beforeLine: atStart && next === "|",
      };
    }
  }
  const section = match(SECTION);
  if (section !== null) return { kind: "section", name: section[1]!.trim() };
  for (const [pattern, sign] of ROAD) {
    const found = match(pattern);
    if (found === null) continue;
    const to = /\s(?:al|to)\s+(?:the\s+)?([a-z]+|\d)/i.exec(found[0])?.[1]?.toLowerCase() ?? null;
    const ending = to !== null && /\d/.test(to) ? Number(to) : null;
    return { kind: "road", sign, to: ending === null ? to : null, ending };
  }
  for (const [pattern, bars] of AGAIN) if (match(pattern) !== null) return { kind: "again", bars };
  const held = match(/(?:\/+|\.+|[-–—]+)(?=[\s|,;)]|$)/y)?.[0];
  if (held === undefined) return null;
  const sign = held.startsWith("/") ? "/" : held.startsWith(".") ? "." : "-";
  return { kind: "hold", sign, count: held.length };
}

/** The chord right before a place, to which a lone "maj7" or "/E" may belong. */
function chordBefore(tokens: readonly ChartToken[], line: string, at: number): WrittenChord | null {
  const last = tokens.at(-1);
  return last?.kind === "chord" && /\s/.test(line.charAt(at - 1)) ? last.written : null;
}
