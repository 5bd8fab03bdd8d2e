/** What the parts of a chart say about each other once all of it is read: what to ask, and what to refuse. */
import type { WrittenChord } from "./bar-chords.ts";
import { chartProblem, type Place } from "./chart-place.ts";
import type { ChartWarnings } from "./chart-warnings.ts";
import { keyName } from "./key.ts";
import { askForNames, type NoteNames } from "./note-names.ts";
import type { Key } from "./types.ts";
import { barsIn, type TokenLine } from "./unbarred.ts";
import type { WrittenBar } from "./written-bars.ts";

/** A section of the chart by its name, and the line where it is named. */
export interface Section {
  readonly name: string;
  readonly line: number;
}

export interface PlacedChord {
  readonly written: WrittenChord;
  readonly place: Place;
}

/** Small letters and "Do7" are clear or not by what else the chart holds. */
export function judgeChords(
  chords: readonly PlacedChord[],
  names: NoteNames | null,
  warnings: ChartWarnings,
): void {
  const capital = chords.some(({ written }) => !written.small && written.chord !== null);
  const small = chords.filter(({ written }) => written.small);
  const bare = small.find(({ written }) => /^[A-G][b#♭♯]?\d*(?:$|[/(])/.test(written.text));
  if (capital && bare !== undefined) {
    const name = bare.written.text;
    throw chartProblem(
      "not-a-chord",
      `"${name.charAt(0).toLowerCase()}${name.slice(1)}" has a small root among capital ones: it may be minor or major`,
      bare.place,
      `Write ${name.replace(/^([A-G][b#♭♯]?)/, "$1m")} for the minor chord or ${name} for the major one.`,
    );
  }
  if (small.length > 0) {
    warnings.add(
      "lower-case-roots",
      small[0]!.place,
      `${small.length} of ${chords.length} chords have small roots; they were read as if capital, major where no m stands.`,
    );
  }
  const named = chords.filter(({ written }) => /^Do(?![a-z])/.test(written.text));
  if (named.length === 0 || names !== null) return;
  const [{ written, place }] = named as [(typeof named)[number]];
  if (named.length === chords.length) throw askForNames(written.text, "solfege", place);
  warnings.add(
    "o-in-a-name",
    place,
    `"${written.text}" was read as D diminished, ${written.symbol}. If do re mi are meant, write "names: solfege" above the first bar.`,
  );
}

/** A section that is named again without its bars would be lost. */
export function judgeSections(sections: readonly Section[], lines: readonly TokenLine[]): void {
  sections.forEach(({ name, line }, index) => {
    const end = sections[index + 1]?.line ?? Number.POSITIVE_INFINITY;
    if (end === line || lines.some(({ number }) => number >= line && number < end)) return;
    const before = sections.slice(0, index).some((one) => one.name === name);
    if (before) {
      throw chartProblem(
        "section-without-bars",
        `The section "${name}" returns without its bars`,
        { line, bar: 0 },
        "Write its bars out again in the place where it returns.",
      );
    }
  });
}

/** A key that is named among the bars needs a bar that stands in it. */
export function judgeKeys(
  changes: readonly { readonly line: number; readonly key: Key }[],
  written: readonly WrittenBar[],
): void {
  changes.forEach(({ line, key }, index) => {
    const end = changes[index + 1]?.line ?? Number.POSITIVE_INFINITY;
    if (written.some(({ place }) => place.line > line && place.line < end)) return;
    throw chartProblem(
      "key-without-bars",
      `No bar stands in ${keyName(key)}`,
      { line, bar: 0 },
      'Write "key: ..." on a line of its own, above the first bar that stands in it, or take it out.',
    );
  });
}

/** Lines of one crowded bar each are often meant as rows of bars. */
export function judgeCrowding(
  lines: readonly TokenLine[],
  written: readonly WrittenBar[],
  warnings: ChartWarnings,
): void {
  const one = lines.every((line) => barsIn(line) <= 1);
  const crowded = written.every(
    ({ chords }) => chords.length >= 3 && chords.length === written[0]!.chords.length,
  );
  const beats = lines.some(({ tokens }) =>
    tokens.some((token) => token.kind === "chord" && token.written.beats !== null),
  );
  const held = lines.some(({ tokens }) => tokens.some(({ kind }) => kind === "hold"));
  if (!one || !crowded || beats || held || written.length < 2) return;
  warnings.add(
    "crowded-bars",
    written[0]!.place,
    `Every line holds one bar of ${written[0]!.chords.length} chords. Put | between them if each is a bar of its own.`,
  );
}

/** A jump needs the place to which it leads. */
export function judgeJumps(lines: readonly TokenLine[], warnings: ChartWarnings): void {
  const roads = lines.flatMap(({ number, tokens }) =>
    tokens.flatMap((token) => (token.kind === "road" ? [{ ...token, line: number }] : [])),
  );
  const has = (sign: string) => roads.some((road) => road.sign === sign);
  const missing = (line: number, what: string, todo: string) =>
    chartProblem("repeat-sign", what, { line, bar: 0 }, todo);
  const codas = roads.filter(({ sign }) => sign === "coda").length;
  for (const { sign, to, line } of roads) {
    if (sign === "dal segno" && !has("segno"))
      throw missing(
        line,
        "D.S. goes back to a sign that is not there",
        'Write "Segno" before the bar that it goes back to.',
      );
    if (to !== null && sign !== "to coda" && to !== "fine" && to !== "coda")
      throw missing(
        line,
        `It is not clear where the piece ends after "al ${to}"`,
        'Write "D.C. al Fine", "D.C. al Coda" or "D.C. al 2nd ending", with its sign, or write the bars out.',
      );
    if ((sign === "to coda" || to === "coda") && codas === 0)
      throw missing(
        line,
        "The way to the coda leads nowhere",
        'Write "Coda" before the bar where the coda begins.',
      );
    if (to === "coda" && !has("to coda") && codas < 2)
      throw missing(
        line,
        "Nothing says where one leaves for the coda",
        'Write "To Coda" behind the bar where one leaves.',
      );
    if (to === "fine" && !has("fine")) {
      warnings.add(
        "no-fine",
        { line, bar: 0 },
        'The chart says "al Fine" and has no Fine; it was played to its end. Write "Fine" behind the last bar.',
      );
    }
  }
}

/** "A A B A", "B", "A B C": the letters of rehearsal marks; a chart may leave the first A out. */
export function isInOrder(letters: readonly Section[]): boolean {
  let next = Math.max("A".charCodeAt(0), Math.min(letters[0]!.name.charCodeAt(0), "B".charCodeAt(0)));
  return letters.every(({ name }) => {
    const code = name.charCodeAt(0);
    if (code > next) return false;
    if (code === next) next++;
    return true;
  });
}
