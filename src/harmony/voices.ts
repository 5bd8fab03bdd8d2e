/**
 * Voices of the solo: chords, octaves and double notes taken apart into lines, so that every note has a note before
 * and after it and none is left without labels.
 */
import { STRUCK_TOGETHER } from "../take/index.ts";
import { type Compound, compoundStretches, voiceOf } from "./compound.ts";
import { type Harmony, type JoinedLine, type Joints, type LineNote, lineOf } from "./joined-line.ts";

/** A line, which of its notes are labelled by it, and the note that each of them doubles (or null). */
export interface Voice {
  readonly line: JoinedLine;
  /** Parallel to `line.notes`: true where the note gets its label here; the rest only gives the context. */
  readonly own: readonly boolean[];
}

/** Notes struck together, the highest first. */
type Moment = readonly LineNote[];

/**
 * Takes the notes of a solo (in order of onset) apart into voices. The main voice is the highest note of each
 * moment; the k-th note from the top continues in the k-th note of the next moment, or in its lowest where there are
 * fewer. Notes under a longer, higher note that is still held are taken apart by themselves, as an inner line.
 * Linear in the number of notes.
 */
export function voicesOf(harmony: Harmony, notes: readonly LineNote[]): Voice[] {
  const { crushed, rest } = crushedNotes(momentsOf(notes));
  const { outer, inner } = layersOf(rest);
  return [
    ...crushed.map((pair) => ({ line: lineOf(harmony, pair), own: [true, false] })),
    ...voicesOfLayer(harmony, outer),
    ...voicesOfLayer(harmony, inner),
  ];
}

/**
 * True for notes of which no two are struck together and none ends before an earlier one does: only two registers
 * woven into each other then take the line apart, whatever its pitches. In order of onset.
 */
export function isPlainLine(notes: readonly LineNote[]): boolean {
  let end = Number.NEGATIVE_INFINITY;
  return notes.every((note, i) => {
    const covered = end >= note.note.onset + note.note.duration;
    end = Math.max(end, note.note.onset + note.note.duration);
    const before = notes[i - 1];
    return !covered && (before === undefined || !struckTogether(before, note));
  });
}

/** The voices of a plain line, as `voicesOf` gives them; `joints` where they are known. */
export function voicesOfPlain(harmony: Harmony, notes: readonly LineNote[], joints?: Joints): Voice[] {
  const woven = compoundStretches(notes);
  const own = new Array<boolean>(notes.length).fill(true);
  for (const { first, last } of woven) own.fill(false, first, last + 1);
  return [
    { line: lineOf(harmony, notes, joints), own },
    ...woven.flatMap((stretch) => compoundVoices(harmony, notes, stretch)),
  ];
}

/**
 * True when two notes of a solo are struck together: at the very same time in notation, where a grace note is always
 * by itself, and within `STRUCK_TOGETHER` seconds otherwise.
 */
function struckTogether(first: LineNote, second: LineNote): boolean {
  const [a, b] = [first.note, second.note];
  if (a.printed === null) return b.onset - a.onset <= STRUCK_TOGETHER;
  return a.onset === b.onset && a.printed.grace === null && b.printed?.grace == null;
}

/** A note struck at most so many seconds before a chord is crushed into it. [practice] */
const CRUSH = 0.1;
/** As far (semitones) as a crushed note reaches. */
const CRUSH_STEP = 2;

/**
 * Takes out single notes that are crushed into an inner note of the chord right after them (E flat into the E under
 * a G): each makes a pair with that note, and does not come between two notes of the main voice.
 */
function crushedNotes(moments: readonly Moment[]): {
  crushed: (readonly [LineNote, LineNote])[];
  rest: Moment[];
} {
  const crushed: (readonly [LineNote, LineNote])[] = [];
  const rest = moments.filter((moment, at) => {
    const chord = moments[at + 1];
    if (moment.length > 1 || chord === undefined) return true;
    const note = moment[0]!;
    const isCrushed = note.note.printed?.grace != null || chord[0]!.note.onset - note.note.onset <= CRUSH;
    const reached = chord.filter((other) => Math.abs(other.note.pitch - note.note.pitch) <= CRUSH_STEP);
    // A note that reaches the top of the chord, or the single note that follows, belongs to the main voice.
    if (!isCrushed || reached.length === 0 || reached.includes(chord[0]!)) return true;
    crushed.push([note, reached[0]!]);
    return false;
  });
  return { crushed, rest };
}

function momentsOf(notes: readonly LineNote[]): Moment[] {
  const moments: LineNote[][] = [];
  for (const note of notes) {
    const open = moments.at(-1);
    if (open !== undefined && struckTogether(open[0]!, note)) open.push(note);
    else moments.push([note]);
  }
  for (const moment of moments) moment.sort((a, b) => b.note.pitch - a.note.pitch);
  return moments;
}

/** Nearer than this (semitones) an overlap is a legato or a trill in one line, not an inner voice. [practice] */
const INNER_DISTANCE = 3;

function layersOf(moments: readonly Moment[]): { outer: Moment[]; inner: Moment[] } {
  const outer: Moment[] = [];
  const inner: Moment[] = [];
  moments.forEach((moment, at) => {
    const held = outer.at(-1)?.[0]?.note;
    const isInner = isCovered(moment, held) && !isGraceOfLine(moment, moments[at + 1], held!);
    (isInner ? inner : outer).push(moment);
  });
  return { outer, inner };
}

/** True when a note lies clearly under a higher one that is held for all its length. */
function isCovered(moment: Moment, held: LineNote["note"] | undefined): boolean {
  const { note } = moment[0]!;
  return (
    held !== undefined &&
    held.pitch - note.pitch >= INNER_DISTANCE &&
    held.onset + held.duration >= note.onset + note.duration
  );
}

/** True when a note is crushed into one that outlasts the held note: a legato hides it, it is still in the line. */
function isGraceOfLine(moment: Moment, next: Moment | undefined, held: LineNote["note"]): boolean {
  const { note } = moment[0]!;
  if (next === undefined || next[0]!.note.onset - note.onset > CRUSH) return false;
  return Math.abs(next[0]!.note.pitch - note.pitch) <= CRUSH_STEP && !isCovered(next, held);
}

/** How many moments around its own notes a lower voice sees: as far as the widest rule (enclosure) looks. */
const SIGHT = 3;

function voicesOfLayer(harmony: Harmony, moments: readonly Moment[]): Voice[] {
  const top = moments.map((moment) => moment[0]!);
  const isChord = moments.map((moment) => moment.length > 1);
  const woven = compoundStretches(top).filter(
    ({ first, last }) => !isChord.slice(first, last + 1).includes(true),
  );
  const inCompound = new Set(woven.flatMap(({ first, last }) => range(first, last)));
  const voices: Voice[] = [{ line: lineOf(harmony, top), own: top.map((_, at) => !inCompound.has(at)) }];
  for (const stretch of woven) voices.push(...compoundVoices(harmony, top, stretch));
  // Places of the moments that have a k-th note: fewer with every k, so that the whole stays linear.
  let places = moments.map((_, at) => at);
  for (let k = 1; places.length > 0; k++) {
    places = places.filter((at) => moments[at]!.length > k);
    for (const [first, last] of stretches(places)) {
      const window = moments.slice(Math.max(0, first - SIGHT), last + SIGHT + 1);
      voices.push({
        line: lineOf(
          harmony,
          window.map((moment) => moment[Math.min(k, moment.length - 1)]!),
        ),
        own: window.map((moment) => moment.length > k),
      });
    }
  }
  return voices;
}

/** The two voices of a compound stretch, each between what comes before the stretch and where it goes on after it. */
function compoundVoices(harmony: Harmony, top: readonly LineNote[], stretch: Compound): Voice[] {
  const before = top.slice(Math.max(0, stretch.first - SIGHT), stretch.first);
  return ([0, 1] as const).map((parity) => {
    const voice = voiceOf(top, stretch, parity);
    const onward = goesOnAt(top, stretch.last, voice.at(-1)!);
    const after = top.slice(onward, onward + SIGHT);
    return {
      line: lineOf(harmony, [...before, ...voice, ...after]),
      own: [...before.map(() => false), ...voice.map(() => true), ...after.map(() => false)],
    };
  });
}

/** A voice goes on in the nearer in pitch of the two notes after its stretch. [practice] */
function goesOnAt(top: readonly LineNote[], last: number, { note }: LineNote): number {
  const [first, second] = [last + 1, last + 2].map((at) =>
    Math.abs((top[at]?.note.pitch ?? Infinity) - note.pitch),
  );
  return second! < first! ? last + 2 : last + 1;
}

function range(first: number, last: number): number[] {
  return Array.from({ length: last - first + 1 }, (_, i) => first + i);
}

/** Joins rising places to stretches wherever they see each other, so that every note is labelled in one window only. */
function stretches(places: readonly number[]): (readonly [number, number])[] {
  const found: [number, number][] = [];
  for (const place of places) {
    const open = found.at(-1);
    if (open !== undefined && place - open[1] <= SIGHT) open[1] = place;
    else found.push([place, place]);
  }
  return found;
}
