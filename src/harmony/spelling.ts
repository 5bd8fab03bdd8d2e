/**
 * Spelling: which of its names a pitch gets. Chord first, direction second, key third.
 *
 * 1. What the chord names, and what belongs to its scale or is blue in it, is spelled from the chord's root.
 * 2. What is foreign to the chord and has one name over any root (ninth, third, fourth, fifth, sixth, major seventh)
 *    takes it. What has two leans on the note that it moves to: raised when it rises by a half step, lowered when it
 *    falls by one; so does an altered tension that rises, and a sharp eleventh that falls. A sharp ninth that falls by
 *    step is written on the third's letter (B flat over G7, on its way to A or A flat).
 * 3. What is left is spelled by the key and by what is played around it (`tonal-spelling.ts`).
 * Double accidentals are not used under a chord: players read D, not E double flat [practice].
 */
import type { ChordSpan, Key } from "../chart/types.ts";
import { accidentalOf, fifthsOf, isBlackKey, nearestTo, signatureOf } from "../pitch/index.ts";
import type { KeyMark, PlacedNote } from "../take/index.ts";
import { aboveRoot, degreeOf } from "./degree.ts";
import { DEGREE_FIFTHS } from "./degree-fifths.ts";
import type { HarmonicRole } from "./roles.ts";
import { spellTonally } from "./tonal-spelling.ts";

/** The note that a note moves to. */
export interface Ahead {
  readonly pitch: number;
  /** Its place on the line of fifths, or null where only the key can tell. */
  readonly place: number | null;
}

/** A diminished second on the line of fifths: from a name to its enharmonic twin. */
const TWIN = 12;

/** A diminished seventh, on the line of fifths: the top of such a chord is its seventh, not its sixth. */
const DIMINISHED_SEVENTH = -9;

/**
 * Place on the line of fifths of a pitch under a chord, by the chord and by direction; null where neither tells.
 * The blue fifth is written raised when it rises to the fifth, and natural where it is a white key (B over F7); the
 * blue third keeps its name, since that is what it is called. [practice]
 *
 * @param role the harmonic role of the pitch under `span`
 * @example over C7 in a blues: 63 -> Eb whatever follows; 66 -> F# before G, else Gb
 * @example over C7: 61 before 62 -> C#; 61 before 60 -> Db; 71 before 70 -> B, its major seventh
 */
export function spellUnder(
  pitch: number,
  role: HarmonicRole,
  span: ChordSpan,
  ahead: Ahead | null,
): number | null {
  if (span.chord === null) return null;
  const above = aboveRoot(pitch, span);
  const root = fifthsOf(span.chord.root);
  const isRisingBlueFifth = role === "blue" && above === 6 && ahead?.pitch === pitch + 1;
  if (isRisingBlueFifth) return withoutDoubles(root + DEGREE_FIFTHS["#11"]);
  if (role === "outside") {
    const only = ONLY_NAMES[above];
    return only === undefined ? byDirection(pitch, span.key, ahead) : withoutDoubles(root + only);
  }
  const step = (ahead?.pitch ?? pitch) - pitch;
  if (leansOnward(above, span, step)) return byDirection(pitch, span.key, ahead);
  const isSharpNinth = degreeOf(above, span) === "#9";
  if (isSharpNinth && (step === -1 || Math.abs(step) === 2)) return withoutDoubles(root + DEGREE_FIFTHS.b3);
  if (role === "blue" && above === 6 && !isBlackKey(pitch)) return nearestTo(pitch % 12, NATURALS_CENTRE);
  const isTopOfDiminished = span.chord.quality === "diminished-seventh" && above === 9;
  return withoutDoubles(
    root + (isTopOfDiminished ? DIMINISHED_SEVENTH : DEGREE_FIFTHS[degreeOf(above, span)]),
  );
}

/** Steps on the line of fifths to what has one name over any root, by semitones. */
const ONLY_NAMES: Readonly<Record<number, number>> = { 2: 2, 4: 4, 5: -1, 7: 1, 9: 3, 11: 5 };

/** True for an altered tension that a line passes by half steps: raised on its way up, and #11 lowered on its way down. */
function leansOnward(above: number, span: ChordSpan, step: number): boolean {
  if (!span.altered.some(({ semitones }) => semitones === above)) return false;
  return step === 1 || (step === -1 && above === 6);
}

/** Middle of the seven naturals on the line of fifths, F to B. */
const NATURALS_CENTRE = 2;

/**
 * The key signature in force at each note: the source's where it changes key on its way, else the chart's, which may
 * change as well. One signature throughout tells nothing that the chart does not know better: files without a key
 * state C major.
 */
export function signaturesOf(
  spans: readonly ChordSpan[],
  marks: readonly KeyMark[],
): (note: PlacedNote) => number {
  const own = spans.map(({ key }) => signatureOf(key));
  if (new Set(marks.map(({ fifths }) => fifths)).size < 2) return ({ span }) => own[span]!;
  return ({ tick }) => (marks.findLast((mark) => mark.tick <= tick) ?? marks[0]!).fifths;
}

/** Quarter notes a second that rubato is taken to have, to tell what lies near in time. [practice] */
const RUBATO_QUARTERS = 2;

/**
 * Names the notes whose place is still open from the key and the notes around, in which those already named count.
 * @param places parallel to `notes`
 * @param signatureAt the key signature in force at a note
 */
export function spellTheRest(
  notes: readonly PlacedNote[],
  places: readonly (number | null)[],
  signatureAt: (note: PlacedNote) => number,
): readonly number[] {
  const order = notes.map((_, i) => i);
  const timeOf = (note: PlacedNote) => note.position ?? note.onset * RUBATO_QUARTERS;
  order.sort((a, b) => timeOf(notes[a]!) - timeOf(notes[b]!));
  const named = spellTonally(
    order.map((i) => ({
      pitch: notes[i]!.pitch,
      at: timeOf(notes[i]!),
      signature: signatureAt(notes[i]!),
      place: places[i]!,
    })),
  );
  const all: number[] = [];
  order.forEach((i, at) => {
    all[i] = named[at]!;
  });
  return all;
}

/**
 * The name that leans on the next note: a diatonic half step below or above it, on the neighbouring letter. White
 * keys keep their white names (no B sharp for C).
 */
function byDirection(pitch: number, key: Key, ahead: Ahead | null): number | null {
  const step = ahead === null ? 0 : ahead.pitch - pitch;
  if (ahead === null || Math.abs(step) !== 1) return null;
  const next = ahead.place ?? nearestTo(ahead.pitch % 12, signatureOf(key));
  const place = next + (step === 1 ? 5 : -5);
  return !isBlackKey(pitch) ? nearestTo(pitch % 12, NATURALS_CENTRE) : withoutDoubles(place);
}

function withoutDoubles(place: number): number {
  const accidental = accidentalOf(place);
  if (accidental >= 2) return place - TWIN;
  if (accidental <= -2) return place + TWIN;
  return place;
}
