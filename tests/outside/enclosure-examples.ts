/**
 * Fifty enclosures and fifty figures that only look like one. An enclosure is two notes right before a chord tone, one
 * above and one below it, each a half or a whole step away, of which at least one is foreign to its chord and none an
 * arpeggio note of it. Sources: Coker, Elements of the Jazz Language; Ligon, Connecting Chords with Linear Harmony;
 * Levine, The Jazz Theory Book [memory]; turns, arpeggios and scales as in any harmony textbook [practice].
 *
 * `*` marks the notes asked about: those that enclose, or those that would if the figure were one.
 */
import type { Setting } from "../harmony/notation.ts";

export interface Figure {
  readonly why: string;
  readonly text: string;
  readonly setting?: Setting;
}

const BLUES: Setting = { idiom: "blues" };
const IN_F: Setting = { key: "F" };
const IN_BB: Setting = { key: "Bb" };
const IN_EB: Setting = { key: "Eb" };
const IN_AM: Setting = { key: "Am" };
const IN_CM: Setting = { key: "Cm" };

export const ENCLOSURES: readonly Figure[] = [
  // Scale step above, half step below: the form that is taught first (Coker).
  { why: "third of a triad", text: "C // C4@1 *F4@2 *D#4@2.5 E4@3" },
  { why: "third of a major seventh", text: "Cmaj7 // G4@1 *F4@2 *D#4@2.5 E4@3" },
  { why: "fifth of a major seventh", text: "Cmaj7 // C5@1 *A4@2 *F#4@2.5 G4@3" },
  { why: "root of a minor seventh", text: "Dm7 // F4@1 *E4@2 *C#4@2.5 D4@3" },
  { why: "third of a minor seventh", text: "Dm7 // A4@1 *G4@2 *E4@2.5 F4@3" },
  { why: "fifth of a minor seventh", text: "Dm7 // D4@1 *B4@2 *G#4@2.5 A4@3" },
  { why: "third of a dominant", text: "G7 // G4@1 *C5@2 *A#4@2.5 B4@3" },
  { why: "root of a dominant", text: "G7 // D5@1 *A4@2 *F#4@2.5 G4@3" },
  { why: "fifth of a dominant", text: "G7 // B4@1 *E5@2 *C#5@2.5 D5@3" },
  {
    why: "third of F7 in a blues",
    text: "F7 // F4@1 *Bb4@2 *G#4@2.5 A4@3",
    setting: { key: "F", idiom: "blues" },
  },
  {
    why: "third of Bb7 in a blues",
    text: "Bb7 // Bb4@1 *Eb5@2 *C#5@2.5 D5@3",
    setting: { key: "Bb", idiom: "blues" },
  },
  { why: "seventh of a major seventh", text: "Cmaj7 // D5@1 *C5@2 *A#4@2.5 B4@3" },
  // Half step below, scale step above.
  { why: "from below first, third of a triad", text: "C // G4@1 *D#4@2 *F4@2.5 E4@3" },
  { why: "from below first, fifth", text: "Cmaj7 // C4@1 *F#4@2 *A4@2.5 G4@3" },
  { why: "from below first, root", text: "Dm7 // A3@1 *C#4@2 *E4@2.5 D4@3" },
  { why: "from below first, fifth of a dominant", text: "G7 // G4@1 *C#5@2 *E5@2.5 D5@3" },
  { why: "from below first, third in E flat", text: "Ebmaj7 // Bb4@1 *F#4@2 *Ab4@2.5 G4@3", setting: IN_EB },
  // Half steps on both sides.
  { why: "half steps on both sides of the fifth", text: "C7 // C5@1 *Ab4@2 *F#4@2.5 G4@3", setting: IN_F },
  { why: "half steps on both sides of the root", text: "C7 // E4@1 *Db4@2 *B3@2.5 C4@3", setting: IN_F },
  {
    why: "half steps on both sides of the fifth of a minor chord",
    text: "Am7 // C5@1 *F5@2 *D#5@2.5 E5@3",
    setting: IN_AM,
  },
  { why: "half steps on both sides of the root, from below", text: "C // A3@1 *B3@2.25 *C#4@2.5 C4@3" },
  // Scale steps on both sides.
  { why: "scale steps around the third", text: "C // G4@1 *F4@2 *D4@2.5 E4@3" },
  { why: "scale steps around the fifth", text: "C // C5@1 *A4@2 *F4@2.5 G4@3" },
  { why: "scale steps around the root", text: "C // E4@1 *D4@2 *B3@2.5 C4@3" },
  { why: "scale steps around the third of a minor seventh", text: "Dm7 // C4@1 *E4@2 *G4@2.5 F4@3" },
  {
    why: "scale steps around the root of a minor chord",
    text: "Am // C5@1 *B4@2 *G#4@2.5 A4@3",
    setting: IN_AM,
  },
  // Across the bar line into the next chord.
  { why: "into the third of I", text: "G7 | Cmaj7 // A4@3 *F4@4 *D#4@4.5 | E4@1" },
  { why: "into the third of I, scale step below", text: "Dm7 | G7 // D5@3 *C5@4 *A#4@4.5 | B4@1" },
  {
    why: "into the third of V from the scale",
    text: "Cm7 | F7 // C5@3 *G#4@4 *Bb4@4.5 | A4@1",
    setting: IN_BB,
  },
  { why: "into the fifth of I", text: "G7 | C // G4@3 *A4@4 *F#4@4.5 | G4@1" },
  { why: "into the root of I", text: "G7 | C // G4@3 *Db5@4 *B4@4.5 | C5@1" },
  {
    why: "into the third of a minor I",
    text: "Dm7b5 | G7 | Cm // F4@1 | G4@3 *E4@4 *D4@4.5 | Eb4@1:2",
    setting: IN_CM,
  },
  { why: "into the root of II", text: "A7 | Dm7 // A4@3 *Eb5@4 *C#5@4.5 | D5@1" },
  { why: "into the fifth of IV", text: "C7 | Fmaj7 // E4@3 *D4@4 *B3@4.5 | C4@1", setting: IN_F },
  { why: "into the seventh of V", text: "Dm7 | G7 // A4@3 *G4@4 *E4@4.5 | F4@1" },
  { why: "over the end of the form", text: "C | G7 // E4@1 | G4@3 *F4@4 *D#4@4.5 | E4@1" },
  // Other lengths and places.
  { why: "in sixteenths", text: "C // G4@1 *F4@1.5 *D#4@1.75 E4@2" },
  { why: "in triplets", text: "C // G4@1 *F4@1.333 *D#4@1.667 E4@2" },
  { why: "in quarter notes", text: "C // *F4@2 *D#4@3 E4@4:2" },
  { why: "at the start of a phrase", text: "Cmaj7 // *A4@2 *F#4@2.5 G4@3" },
  { why: "after a rest", text: "Cmaj7 // C5@1:0.5 *A4@2.5 *F#4@2.75 G4@3" },
  { why: "on beat 1, the target is longer", text: "C // *F4@1 *D#4@1.5 E4@2:2" },
  { why: "in 3/4", text: "C // G4@1 *F4@2 *D#4@2.5 E4@3:1", setting: { meter: "3/4" } },
  { why: "in 6/8", text: "C // G4@1 *F4@2 *D#4@3 E4@4:1.5", setting: { meter: "6/8" } },
  { why: "in a slow 2/2", text: "C // G4@1 *F4@1.5 *D#4@1.75 E4@2", setting: { meter: "2/2" } },
  // The target anew on a stronger place.
  { why: "the target anew on beat 3", text: "C // E4@1.5 *F4@2 *D#4@2.5 E4@3" },
  { why: "the target anew on the bar line", text: "C | C // E4@3.5 *F4@4 *D#4@4.5 | E4@1" },
  // Two half steps on one side (Coker's longer form).
  { why: "above, then two half steps from below", text: "C // G4@1 *F4@1.5 *D4@2 *D#4@2.5 E4@3" },
  { why: "two half steps from above, then below", text: "C // C5@1 *A4@1.5 *Ab4@2 *F#4@2.5 G4@3" },
  {
    why: "the blue third and the fourth around the third",
    text: "C7 // G4@1 *F4@2 *Eb4@2.5 E4@3",
    setting: BLUES,
  },
];

export const NEAR_MISSES: readonly Figure[] = [
  // Arpeggios through the target.
  { why: "3 5 b7 b9 1 over a dominant", text: "G7 | C // B3@1 D4@1.5 *F4@2 *Ab4@2.5 G4@3" },
  { why: "b7 b9 1 alone", text: "G7 | C // *F4@2 *Ab4@2.5 G4@3" },
  { why: "b9 b7 1", text: "G7 | C // B4@1 *Ab4@2 *F4@2.5 G4@3" },
  {
    why: "5 b7 | 3 of the next chord, Cm7 F7",
    text: "Cm7 | F7 // Eb4@3.5 *G4@4 *Bb4@4.5 | A4@1",
    setting: IN_BB,
  },
  {
    why: "b7 5 | root of the next chord's third, A7 Dm7",
    text: "A7 | Dm7 // C#5@3 A4@3.5 *G4@4 *E4@4.5 | F4@1",
  },
  { why: "5 b7 | 3, Bb7 Eb7", text: "Bb7 | Eb7 // D4@3.5 *F4@4 *Ab4@4.5 | G4@1", setting: IN_EB },
  { why: "b7 5 | 3, G7 C", text: "G7 | C // B4@3 G4@3.5 *F4@4 *D4@4.5 | E4@1" },
  { why: "5 3 | root, G7 C", text: "G7 | C // G5@3 F5@3.5 *D5@4 *B4@4.5 | C5@1" },
  { why: "3 5 | root, G7 C", text: "G7 | C // G4@3 *B4@4 *D5@4.5 | C5@1" },
  { why: "3 1 | 5, Am7 Em7", text: "Am7 | Em7 // E5@3 *C5@4 *A4@4.5 | B4@1" },
  { why: "5 7 | 5, Cmaj7 F", text: "Cmaj7 | F // E4@3 *B4@4 *G4@4.5 | A4@1" },
  { why: "root and third | third, Dm7 Cmaj7", text: "Dm7 | Cmaj7 // A4@3 *F4@4 *D4@4.5 | E4@1" },
  {
    why: "an arpeggio note above, then a half step: an approach alone",
    text: "Cm7 | F7 // Eb4@3 G4@3.5 *Bb4@4 G#4@4.5 | A4@1",
    setting: IN_BB,
  },
  {
    why: "an arpeggio note above: the half step is an approach",
    text: "Cm7 | F7 // Eb4@3 G4@3.5 Bb4@4 *G#4@4.5 | A4@1",
    setting: IN_BB,
  },
  {
    why: "an arpeggio note below: the other is an approach",
    text: "G7 | C // G4@3 B4@3.5 D5@4 *Ab4@4.5 | G4@1",
  },
  { why: "dim7 arpeggio into the chord", text: "Bdim7 | C // B3@3 D4@3.5 *F4@4 *Ab4@4.5 | G4@1" },
  // Chord tones on both sides.
  { why: "third and root around a ninth that the symbol names", text: "C9 // *E4@2 *C4@2.5 D4@3" },
  { why: "fifth and seventh of a sixth chord's sixth", text: "Cmaj7 // *B4@2 *G4@2.5 A4@3" },
  {
    why: "root and seventh of the old chord around the root of the new one",
    text: "Am7 | Bb // E5@3 *C5@4 *A4@4.5 | Bb4@1",
  },
  { why: "third and fifth around the fourth", text: "C // *E4@2 *G4@2.5 F4@3" },
  // The target is no chord tone.
  { why: "a ninth", text: "Cmaj7 // G4@1 *E4@2 *C#4@2.5 D4@3" },
  { why: "a fourth over a major chord", text: "C // C4@1 *G4@2 *E4@2.5 F4@3" },
  { why: "a sixth over a major seventh", text: "Cmaj7 // C5@1 *B4@2 *G#4@2.5 A4@3" },
  { why: "a note outside the chord", text: "C // C4@1 *D4@2 *C4@2.5 C#4@3" },
  { why: "a flat ninth", text: "G7 | C // D5@1 *A4@2 *G4@2.5 Ab4@3" },
  // Turns around the target.
  { why: "a turn on weaker places", text: "C // E4@1 *F4@1.5 *D4@2 E4@2.5" },
  { why: "a turn by half steps", text: "C // G4@1 *Ab4@1.5 *F#4@2 G4@2.5" },
  { why: "a turn from below", text: "C // G4@1 *F#4@1.5 *A4@2 G4@2.5" },
  { why: "an ornament in sixteenths on the beat", text: "C // C5@1 *D5@1.25 *B4@1.5 C5@1.75" },
  { why: "the turn of a minor root", text: "Dm7 // D4@1 *E4@1.5 *C#4@2 D4@2.5" },
  { why: "a turn back to beat 3", text: "C | C // E4@1 *F4@2 *D#4@2.5 E4@3" },
  // Scales and chromatic runs.
  { why: "a scale downwards", text: "C // G4@1 *F4@1.5 *E4@2 D4@2.5 C4@3" },
  { why: "a scale upwards", text: "C // C4@1 *D4@1.5 *E4@2 F4@2.5 G4@3" },
  { why: "a chromatic fall", text: "C7 // C5@1 *B4@1.5 *Bb4@2 A4@2.5 Ab4@3 G4@3.5", setting: IN_F },
  { why: "a scale that turns back", text: "C // E4@1 *F4@1.5 *G4@2 F4@2.5 E4@3" },
  // Wrong order.
  { why: "above, target, below", text: "C // C4@1 *F4@2 E4@2.5 *D#4@3 C4@3.5" },
  { why: "below, target, above", text: "C // C4@1 *D#4@2 E4@2.5 *F4@3 G4@3.5" },
  { why: "both from above", text: "C // C4@1 *F#4@2 *F4@2.5 E4@3" },
  { why: "both from below", text: "C // C4@1 *D4@2 *D#4@2.5 E4@3" },
  // A rest between.
  { why: "an eighth rest before the target", text: "C // G4@1 *F4@2 *D#4@2.5:0.5 E4@3.5" },
  { why: "a rest between the two sides", text: "C // G4@1 *F4@1.5:0.5 *D#4@2.5 E4@3" },
  { why: "a long rest", text: "C | C // G4@1 *F4@2 *D#4@2.5:0.5 | E4@1" },
  // The target is not reached, or too late, or too far.
  { why: "another note comes between", text: "C // G4@1 *F4@2 *D#4@2.5 C4@3 E4@3.5" },
  { why: "it goes elsewhere", text: "C // G4@1 *F4@2 *D#4@2.5 G4@3" },
  { why: "the target an octave higher", text: "C // G4@1 *F4@2 *D#4@2.5 E5@3" },
  { why: "three semitones above", text: "C // C5@1 *Bb4@2 *F#4@2.5 G4@3" },
  { why: "three semitones below", text: "C // C4@1 *A4@2 *E4@2.5 G4@3" },
  { why: "a long note above stands by itself", text: "C // G4@1 *F4@1.5:1.5 *D#4@3 E4@3.5:0.5" },
  // The weight lies on a side.
  {
    why: "the side below falls on the beat, the target after it",
    text: "C // G4@1 *F4@1.5 *D#4@2 E4@2.5:0.5",
  },
  {
    why: "the sides are long and strong, the target short and weak",
    text: "C // G4@2 *F4@2.5 *D#4@3 E4@3.5:0.5",
  },
];
