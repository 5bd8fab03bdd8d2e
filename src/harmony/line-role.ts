/**
 * The line role: what a note does between the notes around it and the chord after it. One function a rule; `RULES`
 * holds them in order of precedence, and the first that fits names the note.
 *
 * Throughout: a *chord tone* is a root, third, fifth or seventh (or its stand-in) of the chord at that note's own
 * onset; a *step* is one or two semitones, a *leap* more; repeated notes count as one note, so that "the note
 * before" and "after" have another pitch; a breath (see `line.ts`) leaves a note without the one beyond it.
 */
import { isSameChord, type Line, type LineNote, nextSpanOf, soundingOf } from "./line.ts";
import type { LineRole } from "./roles.ts";

/** How a role is played, for the words. */
export type Manner =
  | "held"
  | "repeated"
  | "struck"
  | "double neighbour"
  | "chromatic"
  | "diatonic"
  | "double chromatic"
  | "double diatonic"
  | "upper"
  | "lower"
  | "unprepared";

export interface Found {
  /** Position in the line of the note that it leads to, or null. */
  readonly target: number | null;
  readonly manner: Manner | null;
}

export interface LineRule {
  readonly role: LineRole;
  readonly fits: (line: Line, i: number) => Found | null;
}

/** A note is struck early enough to be heard as the next chord's when at most so many quarter notes before it. */
export const ANTICIPATION_BEATS = 0.5;

const NEAR = 1e-6;

/**
 * Anticipation: not a chord tone now, a chord tone of the next chord, struck at most half a beat before the change.
 * Half a beat is an eighth note; a swung off-beat stands on x.5 and counts the same. After the form's last chord
 * comes its first. The target is the same note struck again on the chord, where there is one.
 * In rubato, without beats: held over the change, or struck again as the first note of the next chord.
 * Source: Kostka & Payne, Tonal Harmony [memory].
 */
export function anticipation(line: Line, i: number): Found | null {
  const { note, sounding, change } = line.notes[i]!;
  if (sounding.chordTone) return null;
  const nextSpan = nextSpanOf(line.harmony, note.span);
  if (line.harmony.spans[nextSpan]!.chord === null) return null;
  if (!soundingOf(line.harmony, nextSpan, note.pitch).chordTone) return null;
  const next = line.next[i] ?? null;
  const following = next === null ? null : line.notes[next]!.note;
  const again = following !== null && following.pitch === note.pitch && following.span === nextSpan;
  const early = change.after === null ? again || change.heldInto : change.after <= ANTICIPATION_BEATS + NEAR;
  if (!early) return null;
  return { target: again ? next : null, manner: again ? "repeated" : change.heldInto ? "held" : "struck" };
}

/**
 * Suspension: held or repeated from a chord tone of the previous chord, then moves by step to a chord tone. A held
 * note must sound at least half a beat into the new chord and be foreign to it: a legato overlap is none.
 * Source: Kostka & Payne [memory]; an upward resolution (retardation) is counted in.
 */
export function suspension(line: Line, i: number): Found | null {
  const { note, sounding, change } = line.notes[i]!;
  const after = line.after[i] ?? null;
  if (after === null || !isStep(line, i, after) || !isChordTone(line, after)) return null;
  if (sounding.chordTone) {
    const nextSpan = nextSpanOf(line.harmony, note.span);
    const foreign = !soundingOf(line.harmony, nextSpan, note.pitch).chordTone;
    const resolvesThere = isSameChord(line.harmony, line.notes[after]!.note.span, nextSpan);
    return change.heldInto && foreign && resolvesThere ? { target: after, manner: "held" } : null;
  }
  const prepared = line.carried[i] ?? null;
  return prepared !== null && isChordTone(line, prepared) ? { target: after, manner: "repeated" } : null;
}

/** How far from its target (semitones) a note may stand to enclose it. */
const ENCLOSING = 2;

/** Within how many quarter-note beats an enclosure of three notes must reach its target. [practice] */
const LONG_ENCLOSURE = 1.5;

/**
 * Enclosure: two notes, one above and one below a following chord tone, each within two semitones of it, in either
 * order; across a bar line and into a new chord as well. Each leads on within a beat: a longer note stands by itself. One of the sides may take two half steps towards the target
 * (F, D, D sharp, E), all within two semitones and a beat and a half. Both (all) enclosing notes are labelled and share the target. When
 * they leave the very note that they return to it is a double neighbour.
 * Source: Coker; Ligon, Connecting Chords with Linear Harmony [memory].
 */
export function enclosure(line: Line, i: number): Found | null {
  // Nearest target first: as last note of a figure, then as one before the last, then as the first of three.
  for (let ahead = 1; ahead <= 3; ahead++) {
    for (const size of [2, 3]) {
      const first = i + ahead - size;
      if (ahead > size || first < 0) continue;
      if (encloses(line, first, size)) {
        const target = first + size;
        const left = line.previous[first] ?? null;
        const returns =
          size === 2 && left !== null && line.notes[left]!.note.pitch === line.notes[target]!.note.pitch;
        return { target, manner: returns ? "double neighbour" : null };
      }
    }
  }
  return null;
}

/**
 * Approach: into a chord tone that falls on a stronger place or right after. Chromatic: a half step from outside the
 * scale, whatever led to it. Diatonic: a scale step, from a note that is itself leapt to, repeated or turned to.
 * A double approach takes two half steps or two scale steps in one direction.
 * Not an approach is what the textbooks name otherwise by the note behind it: a diatonic note that only fills in a
 * step motion is passing, one that goes back to the pitch it came from is a neighbour, and one that is leapt to on a
 * stronger place than its resolution is an appoggiatura.
 * Source: Coker; Ligon; Levine, The Jazz Theory Book [memory].
 */
export function approach(line: Line, i: number): Found | null {
  if (isChordTone(line, i)) return null;
  const after = line.after[i] ?? null;
  if (after === null || !isStep(line, i, after)) return null;
  const before = line.before[i] ?? null;
  if (returnsByStep(line, before, i, after)) return null;
  const filling = before !== null && isStep(line, before, i) && sameDirection(line, before, i, after);
  const stepped = before !== null && isStep(line, before, i);
  if (isChordTone(line, after)) {
    if (!stepped && isStronger(line, i, after)) return null;
    if (inScale(line, i, line.notes[i]!.note.span) || inScale(line, i, line.notes[after]!.note.span)) {
      return filling ? null : { target: after, manner: "diatonic" };
    }
    return Math.abs(interval(line, i, after)) === 1 ? { target: after, manner: "chromatic" } : null;
  }
  const target = line.after[after] ?? null;
  if (filling || target === null || !isChordTone(line, target)) return null;
  if (!isStep(line, after, target) || !sameDirection(line, i, after, target)) return null;
  const steps = [interval(line, i, after), interval(line, after, target)].map(Math.abs);
  if (steps.every((step) => step === 1)) return { target, manner: "double chromatic" };
  const diatonic = [i, after].every((at) => inScale(line, at, line.notes[at]!.note.span));
  return diatonic ? { target, manner: "double diatonic" } : null;
}

/**
 * Passing: step in, step out, same direction, on a note that is no chord tone. In a run the target is the next chord
 * tone on the way, else the next note.
 * Source: Kostka & Payne [memory].
 */
export function passing(line: Line, i: number): Found | null {
  const before = line.before[i] ?? null;
  const after = line.after[i] ?? null;
  if (isChordTone(line, i) || before === null || after === null) return null;
  if (!isStep(line, before, i) || !isStep(line, i, after) || !sameDirection(line, before, i, after))
    return null;
  const half = Math.abs(interval(line, before, i)) === 1 && Math.abs(interval(line, i, after)) === 1;
  return { target: endOfRun(line, i, after), manner: half ? "chromatic" : "diatonic" };
}

/**
 * Neighbour: step out and back to the same pitch, on a note that is no chord tone.
 * Source: Kostka & Payne [memory].
 */
export function neighbour(line: Line, i: number): Found | null {
  const before = line.before[i] ?? null;
  const after = line.after[i] ?? null;
  if (isChordTone(line, i) || after === null || !returnsByStep(line, before, i, after)) return null;
  return { target: after, manner: interval(line, i, after) < 0 ? "upper" : "lower" };
}

/**
 * Appoggiatura: leapt to, on a stronger place than its resolution, resolved by step into a chord tone. A note after
 * a breath is counted as leapt to, since nothing prepares it [practice]. In rubato the longer note is the stronger.
 * Source: Kostka & Payne [memory].
 */
export function appoggiatura(line: Line, i: number): Found | null {
  const before = line.before[i] ?? null;
  const after = line.after[i] ?? null;
  if (isChordTone(line, i) || after === null || !isChordTone(line, after)) return null;
  if (before !== null && isStep(line, before, i)) return null;
  if (!isStep(line, i, after) || !isStronger(line, i, after)) return null;
  return { target: after, manner: before === null ? "unprepared" : null };
}

/**
 * Escape: stepped to, left by leap, on a note that is no chord tone.
 * Source: Kostka & Payne [memory], who ask besides that the leap turns back; here either direction counts.
 */
export function escapeTone(line: Line, i: number): Found | null {
  const before = line.before[i] ?? null;
  const after = line.after[i] ?? null;
  if (isChordTone(line, i) || before === null || after === null) return null;
  return isStep(line, before, i) && !isStep(line, i, after) ? { target: null, manner: null } : null;
}

/** Chord tone: root, third, fifth or seventh of the chord, or what stands in for it. */
export function chordTone(line: Line, i: number): Found | null {
  return isChordTone(line, i) ? { target: null, manner: null } : null;
}

/**
 * Held colour: a tension or blue note that does not move by step: it is left by leap, or a breath follows it.
 * Source: tensions as colours in their own right, Nettles & Graf [memory].
 */
export function heldColour(line: Line, i: number): Found | null {
  const { role } = line.notes[i]!.sounding;
  if (role !== "tension" && role !== "blue") return null;
  const after = line.after[i] ?? null;
  return after === null || !isStep(line, i, after) ? { target: null, manner: null } : null;
}

/** Free: what remains. */
export function free(): Found {
  return { target: null, manner: null };
}

/** The rules in order of precedence. */
export const RULES: readonly LineRule[] = [
  { role: "anticipation", fits: anticipation },
  { role: "suspension", fits: suspension },
  { role: "enclosure", fits: enclosure },
  { role: "approach", fits: approach },
  { role: "passing", fits: passing },
  { role: "neighbour", fits: neighbour },
  { role: "appoggiatura", fits: appoggiatura },
  { role: "escape", fits: escapeTone },
  { role: "chord tone", fits: chordTone },
  { role: "held colour", fits: heldColour },
  { role: "free", fits: free },
];

/** The line role of the `i`-th note of a line: the first rule that fits. */
export function lineRoleOf(line: Line, i: number): { readonly role: LineRole } & Found {
  for (const { role, fits } of RULES) {
    const found = fits(line, i);
    if (found !== null) return { role, ...found };
  }
  return { role: "free", ...free() };
}

function isChordTone(line: Line, i: number): boolean {
  return line.notes[i]!.sounding.chordTone;
}

/** Semitones from one note of the line to another. */
function interval(line: Line, from: number, to: number): number {
  return line.notes[to]!.note.pitch - line.notes[from]!.note.pitch;
}

function isStep(line: Line, from: number, to: number): boolean {
  const size = Math.abs(interval(line, from, to));
  return size === 1 || size === 2;
}

function sameDirection(line: Line, a: number, b: number, c: number): boolean {
  return Math.sign(interval(line, a, b)) === Math.sign(interval(line, b, c));
}

function returnsByStep(line: Line, before: number | null, i: number, after: number): boolean {
  return before !== null && isStep(line, before, i) && interval(line, before, after) === 0;
}

function inScale(line: Line, i: number, span: number): boolean {
  const { chord, scaleTones } = line.harmony.spans[span]!;
  const root = chord === null ? line.harmony.chart.key.tonicClass : chord.rootClass;
  return scaleTones.includes((((line.notes[i]!.note.pitch - root) % 12) + 12) % 12);
}

/** A note so many times longer than another is stressed by its length, where there is no beat. [practice] */
const AGOGIC = 1.5;

function isStronger(line: Line, i: number, than: number): boolean {
  const [a, b]: [LineNote, LineNote] = [line.notes[i]!, line.notes[than]!];
  if (a.note.beat === null || b.note.beat === null) return a.note.duration >= AGOGIC * b.note.duration;
  return a.strength > b.strength;
}

/** True when the `size` notes from `first` on enclose the note after them. */
function encloses(line: Line, first: number, size: number): boolean {
  const target = first + size;
  if (target >= line.notes.length || !isChordTone(line, target)) return false;
  const distances: number[] = [];
  for (let at = first; at < target; at++) {
    if (line.next[at] === null) return false;
    if (isLong(line, at)) return false;
    const distance = interval(line, target, at);
    if (distance === 0 || Math.abs(distance) > ENCLOSING) return false;
    distances.push(distance);
  }
  const sides = distances.map(Math.sign);
  if (!sides.includes(1) || !sides.includes(-1)) return false;
  if (size === 2) return true;
  // Of three notes the two on one side close in on the target by half steps, without delay.
  const [from, to] = [line.notes[first]!.note.position, line.notes[target]!.note.position];
  if (from !== null && to !== null && to - from > LONG_ENCLOSURE + NEAR) return false;
  const [a, b, c] = distances as [number, number, number];
  return closesIn(a, b) || closesIn(b, c);
}

/** True when the next note comes more than a beat later; nothing is long in rubato. */
function isLong(line: Line, i: number): boolean {
  const [here, next] = [line.notes[i]!.note.position, line.notes[i + 1]!.note.position];
  const beat = Math.max(1, 4 / line.harmony.chart.meter.unit);
  return here !== null && next !== null && next - here > beat + NEAR;
}

function closesIn(far: number, near: number): boolean {
  return Math.sign(far) === Math.sign(near) && Math.abs(far) === 2 && Math.abs(near) === 1;
}

/** The first chord tone that is reached by going on in steps in one direction, or `after` when there is none. */
function endOfRun(line: Line, i: number, after: number): number {
  let at = after;
  let from = i;
  while (!isChordTone(line, at)) {
    const further = line.after[at] ?? null;
    if (further === null || !isStep(line, at, further) || !sameDirection(line, from, at, further))
      return after;
    from = at;
    at = further;
  }
  return at;
}
