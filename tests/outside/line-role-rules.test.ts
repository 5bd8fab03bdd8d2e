/**
 * Each line role by textbook example: what is one, and what only looks like one. Definitions of the non-chord tones
 * are those of Kostka & Payne, Tonal Harmony [memory]; enclosures and approach notes those of Coker, Elements of the
 * Jazz Language, Ligon, Connecting Chords with Linear Harmony, and Levine, The Jazz Theory Book [memory].
 */
import { describe, expect, it } from "vitest";
import type { LineRole } from "../../src/harmony/index.ts";
import { asked, type Setting } from "../harmony/notation.ts";

const BLUES: Setting = { idiom: "blues" };

interface Example {
  readonly why: string;
  readonly text: string;
  /** The role that it has. */
  readonly role: LineRole;
  /** Name of the note that it leads to; left out where it does not matter. */
  readonly to?: string | null;
  readonly manner?: string | null;
  readonly setting?: Setting;
}

interface Rule {
  readonly role: LineRole;
  readonly source: string;
  readonly is: readonly Omit<Example, "role">[];
  readonly isNot: readonly Example[];
}

const RULES: readonly Rule[] = [
  {
    role: "anticipation",
    source: "Kostka & Payne [memory]; the eighth-note push of swing [practice]",
    is: [
      {
        why: "the cadence: tonic struck early",
        text: "G7 | C // D4@4 *C4@4.5 | C4@1",
        to: "C4",
        manner: "repeated",
      },
      {
        why: "an eighth early and held over the bar line",
        text: "Cm7 | F7 // G4@4 *A4@4.5:1.5 | G4@2.5",
        setting: { key: "Bb" },
        to: null,
        manner: "held",
      },
      { why: "on the last triplet", text: "G7 | C // G4@4 *E4@4.667 | G4@1", manner: "struck" },
      {
        why: "the form goes round: the next chord is the first",
        text: "C | G7 // C4@1 | D4@4 *C4@4.5 | E4@1",
        manner: "struck",
      },
      {
        why: "struck twice before the change",
        text: "G7 | C // G4@4 *C4@4.5 C4@4.75 | C4@1",
        to: null,
        manner: "struck",
      },
      { why: "a change in the middle of the bar", text: "Dm7 G7 // F4@2 *B3@2.5 G3@3" },
      {
        why: "in a later chorus of a form of three chords",
        text: "Dm7 | G7 | C // F4@1 | G4@1 | E4@1 | F4@1 | D4@4 *C4@4.5 | E4@1",
        manner: "struck",
      },
      { why: "the last eighth of 6/8", text: "G7 | C // D4@5 *C4@6 | C4@1", setting: { meter: "6/8" } },
      { why: "an enclosing note too is heard as early first", text: "G7 | C // F4@3 B3@4 *C4@4.5 | E4@1" },
      {
        why: "in rubato: struck again as the next chord begins",
        text: "G7 | C // D4@3 *C4@3.5 | C4@1",
        setting: { rubato: true },
      },
      {
        why: "in rubato: held over the change that the other hand plays",
        text: "G7 | C // D4@3 *C4@3.5:3 | <C2@1 G4@3",
        setting: { rubato: true },
        manner: "held",
      },
    ],
    isNot: [
      {
        why: "a whole beat before the change is too early",
        text: "G7 | Cmaj7 // D4@3 *C4@4 | B3@1",
        role: "passing",
      },
      {
        why: "it belongs to the chord that sounds already",
        text: "G7 | C // *G4@4.5 | G4@1",
        role: "chord tone",
      },
      {
        why: "it is foreign to the next chord too",
        text: "G7 | C // G4@4 *A4@4.5 | G4@1",
        role: "neighbour",
      },
      {
        why: "three sixteenths before the change is too early",
        text: "G7 | C // D4@4 *C4@4.25 | G4@1",
        role: "escape",
      },
      { why: "the chord does not change", text: "C | C // C4@4 *D4@4.5 | E4@1", role: "passing" },
      { why: "no chord follows", text: "G7 | N.C. // G4@4 *C4@4.5 | C4@1", role: "free" },
      {
        why: "in rubato: left before the chord changes",
        text: "G7 | C // G4@3 *C4@3.5 | <C2@1 G4@3",
        role: "free",
        setting: { rubato: true },
      },
    ],
  },
  {
    role: "suspension",
    source: "Kostka & Payne [memory]",
    is: [
      {
        why: "4-3, the preparation struck again",
        text: "G7 | C // F4@4 | *F4@1 E4@2",
        to: "E4",
        manner: "repeated",
      },
      { why: "4-3, the preparation tied over", text: "G7 | C // *F4@3:3 | E4@2", to: "E4", manner: "held" },
      { why: "9-8", text: "G | C // D5@4 | *D5@1 C5@2", to: "C5" },
      { why: "upwards, a retardation", text: "G7 | C // B3@4 | *B3@1 C4@2", to: "C4" },
      { why: "from the last chord of the form into the first", text: "C | G7 // C4@1 | F4@4 | *F4@1 E4@2" },
      {
        why: "the resolution comes when the bar, not the chord, has changed",
        text: "G7 | C | C // *F4@1:8 | | E4@1",
        to: "E4",
        manner: "held",
      },
      { why: "held just half a beat into the new chord", text: "Dm7 | G7 // *C4@4:1.5 | B3@1.5", to: "B3" },
      { why: "struck twice before it resolves", text: "G7 | C // F4@4 | F4@1 *F4@2 E4@3", to: "E4" },
      { why: "in rubato, repeated", text: "G7 | C // F4@4 | *F4@1 E4@2", setting: { rubato: true } },
      {
        why: "in rubato, held over the other hand's new chord",
        text: "G7 | C // *F4@3:3 | <C2@1 E4@2",
        setting: { rubato: true },
        manner: "held",
      },
      {
        why: "in rubato, held into it for a quarter of a second",
        text: "G7 | C // *F4@3:2.5 | <C2@1 E4@2",
        setting: { rubato: true, tempo: 120 },
        manner: "held",
      },
      {
        why: "in rubato, the other hand strikes the old chord once more before the new one",
        text: "G7 | C // *F4@3:3 <G2@4 | <C2@1 E4@2",
        setting: { rubato: true },
        manner: "held",
      },
    ],
    isNot: [
      { why: "not prepared: an appoggiatura", text: "G7 | C // B3@4 | *F4@1 E4@2", role: "appoggiatura" },
      { why: "left by leap", text: "G7 | C // F4@4 | *F4@1 C4@2", role: "free" },
      {
        why: "prepared in the same chord, where it was foreign already",
        text: "C // G4@2 F4@3 *F4@3.5 E4@4",
        role: "passing",
      },
      {
        why: "a legato overlap of a sixteenth is none",
        text: "Dm7 | G7 // *C4@4:1.25 | B3@1",
        role: "chord tone",
      },
      { why: "held into a chord that it belongs to", text: "Am7 | C // *C4@4:2 | D4@2", role: "chord tone" },
      {
        why: "resolves only two chords later",
        text: "G7 | C | Am // *F4@1:8 | | E4@1",
        role: "chord tone",
      },
      {
        why: "held from two chords before, foreign to the one between",
        text: "G7 | Am7 | C // F4@4:4 | | *F4@1 E4@2",
        role: "appoggiatura",
      },
      {
        why: "in rubato, left as the chord changes",
        text: "G7 | C // *F4@3:2.4 | <C2@1 E4@2",
        setting: { rubato: true },
        role: "chord tone",
      },
      {
        why: "in rubato, held over a new note of the same chord only",
        text: "G7 | C // *F4@3:2 <G2@4 | E4@2",
        setting: { rubato: true },
        role: "chord tone",
      },
      {
        why: "prepared two chords before",
        text: "G7 | Am7 | C // F4@4 | E4@1 F4@4 | *F4@1 E4@2",
        role: "neighbour",
      },
    ],
  },
  {
    role: "enclosure",
    source: "Coker; Ligon [memory]",
    is: [
      { why: "first note, above", text: "C // *F4@1 D#4@1.5 E4@2", to: "E4" },
      { why: "second note, below", text: "C // F4@1 *D#4@1.5 E4@2", to: "E4" },
      { why: "from below first", text: "Cmaj7 // *B3@3 D4@3.5 C4@4", to: "C4" },
      {
        why: "across the bar line into the next chord, by two tones of the old one",
        text: "G7 | C // *F4@4 D4@4.5 | E4@1",
        to: "E4",
      },
      { why: "the same, second note", text: "G7 | C // F4@4 *D4@4.5 | E4@1", to: "E4" },
      { why: "over the end of the form", text: "C | G7 // C4@1 | *F4@4 D4@4.5 | E4@1", to: "E4" },
      {
        why: "double neighbour: it leaves the note that it returns to",
        text: "C // C4@1 *D4@1.5 B3@2 C4@2.5",
        to: "C4",
        manner: "double neighbour",
      },
      {
        why: "three notes: above, then two half steps from below",
        text: "C // *F4@1 D4@1.5 D#4@2 E4@2.5",
        to: "E4",
      },
      { why: "three notes, the last", text: "C // F4@1 D4@1.5 *D#4@2 E4@2.5", to: "E4" },
      {
        why: "three notes: two half steps from above, then below",
        text: "C // *F#4@1 F4@1.5 D#4@2 E4@2.5",
        to: "E4",
      },
      { why: "in rubato as well", text: "C // *F4@1 D#4@1.5 E4@2", setting: { rubato: true } },
      {
        why: "three notes in a later bar",
        text: "C | C // | *F4@1 D4@1.5 D#4@2 E4@2.5",
        to: "E4",
      },
      { why: "the nearer note struck twice", text: "C // *F4@1 D#4@1.5 D#4@2 E4@2.5", to: "E4" },
      {
        why: "three notes that leave the target's pitch are no double neighbour",
        text: "C // E4@1 *F4@1.5 D4@2 D#4@2.5 E4@3",
        to: "E4",
        manner: null,
      },
      {
        why: "come to from another note it is no double neighbour",
        text: "C // G4@1 *F4@1.5 D#4@2 E4@2.5",
        to: "E4",
        manner: null,
      },
      { why: "in quarter notes of 6/8", text: "C // *F4@1 D#4@3 E4@5", to: "E4", setting: { meter: "6/8" } },
      {
        why: "in half notes of 2/2, where they are the beat",
        text: "C | C // *F4@1:2 D#4@2:2 | E4@1",
        to: "E4",
        setting: { meter: "2/2" },
      },
      { why: "in quarter notes", text: "C // *F4@1 D#4@2 E4@3", to: "E4" },
      {
        why: "in quarter notes of 2/2",
        text: "C // *F4@1 D#4@1.5 E4@2",
        setting: { meter: "2/2" },
      },
    ],
    isNot: [
      { why: "both from above: a double approach", text: "C // *F#4@1 F4@1.5 E4@2", role: "approach" },
      { why: "what it encloses is no chord tone", text: "Cmaj7 // *E4@1 C4@1.5 D4@2", role: "chord tone" },
      { why: "three semitones away", text: "C // *A#4@1 F#4@1.5 G4@2", role: "free" },
      {
        why: "in rubato, a breath lies between",
        text: "C // *F4@1:0.5 D#4@4.75 E4@4.9",
        role: "free",
        setting: { rubato: true },
      },
      { why: "a long note stands by itself", text: "C // *F4@1 D#4@2 E4@3.5", role: "free" },
      {
        why: "three notes that take longer than a beat and a half",
        text: "C // *F4@1 D4@2 D#4@2.5 E4@3",
        role: "free",
      },
      { why: "a breath lies between", text: "C // *F4@1:0.5 D#4@4 E4@4.5", role: "free" },
      { why: "the target is not the next note", text: "C // *F4@1 D#4@1.5 C4@2 E4@2.5", role: "free" },
      {
        why: "three notes, two of which move away from the target",
        text: "C // *F4@1 D#4@1.5 D4@2 E4@2.5",
        role: "free",
      },
      {
        why: "three notes that do not close in by half steps",
        text: "C // *F4@1 D4@1.5 F4@2 G4@2.5",
        role: "free",
      },
    ],
  },
  {
    role: "approach",
    source: "Coker; Ligon; Levine [memory]",
    is: [
      {
        why: "chromatic: the blue third pushed up into the third",
        text: "C7 // G3@2 *Eb4@2.5 E4@3",
        setting: BLUES,
        to: "E4",
        manner: "chromatic",
      },
      { why: "chromatic from below", text: "C // C4@1 *F#4@1.5 G4@2", to: "G4", manner: "chromatic" },
      {
        why: "chromatic, although a step leads to it",
        text: "C7 // D4@2 *Eb4@2.5 E4@3",
        setting: BLUES,
        to: "E4",
        manner: "chromatic",
      },
      {
        why: "chromatic, right after a stronger place",
        text: "C7 // D4@2.5 *Eb4@3 E4@3.5",
        setting: BLUES,
        to: "E4",
      },
      {
        why: "diatonic, leapt to, into a stronger place",
        text: "C // E4@1 *A4@1.5 G4@2",
        to: "G4",
        manner: "diatonic",
      },
      {
        why: "into a chord that has just changed",
        text: "Dm7 | G7 // D4@4 *A#3@4.5 | B3@1",
        to: "B3",
        manner: "chromatic",
      },
      {
        why: "a scale step of the new chord, played before it",
        text: "C | Fm7 // E4@4 *Bb4@4.5 | C5@1",
        to: "C5",
        manner: "diatonic",
      },
      {
        why: "double chromatic, first note",
        text: "C // G4@1 *D4@1.5 D#4@2 E4@2.5",
        to: "E4",
        manner: "double chromatic",
      },
      {
        why: "double by scale steps, first note",
        text: "C // E4@1 *A4@1.5 B4@2 C5@2.5",
        to: "C5",
        manner: "double diatonic",
      },
      { why: "the first note of a phrase", text: "C // *F#4@2.5 G4@3", to: "G4" },
      {
        why: "where no chord sounds, a step of the key",
        text: "N.C. // D5@1 *F#4@1.5 G4@2",
        setting: { key: "G" },
        manner: "diatonic",
      },
      {
        why: "where no chord sounds, a half step from outside the key",
        text: "N.C. // D5@1 *F#4@1.5 G4@2",
        setting: { key: "C" },
        manner: "chromatic",
      },
      { why: "a grace note", text: "C // C4@1 ~*D#4@2 E4@2", to: "E4" },
      {
        why: "in rubato, short before long",
        text: "C // C4@1 *F#4@1.5:0.5 G4@2:1",
        setting: { rubato: true },
      },
    ],
    isNot: [
      {
        why: "a diatonic step between two chord tones is passing",
        text: "C // C4@1 *D4@1.5 E4@2",
        role: "passing",
      },
      {
        why: "back to where it came from is a neighbour",
        text: "C // G4@1 *F#4@1.5 G4@2",
        role: "neighbour",
      },
      {
        why: "leapt to and stronger than its resolution",
        text: "C // C4@2 *F4@3 E4@3.5",
        role: "appoggiatura",
      },
      { why: "left by leap", text: "C // E4@1 *A4@1.5 C5@2", role: "held colour" },
      { why: "a chord tone itself", text: "Cmaj7 // *B3@1.5 C4@2", role: "chord tone" },
      { why: "a whole step from outside the scale", text: "C // C4@1 *F#4@1.5 E4@2", role: "free" },
      { why: "a step, then a leap into the chord tone", text: "C // E4@1 *A4@1.5 B4@2 E5@2.5", role: "free" },
      { why: "two steps that turn", text: "C // E4@1 *A4@1.5 B4@2 A4@2.5", role: "free" },
    ],
  },
  {
    role: "passing",
    source: "Kostka & Payne [memory]",
    is: [
      { why: "between two chord tones", text: "C // C4@1 *D4@1.5 E4@2", to: "E4", manner: "diatonic" },
      { why: "on a stronger place (accented)", text: "C // E4@1.5 *D4@2 C4@2.5", to: "C4" },
      {
        why: "in a chromatic run, on the way to the next chord tone",
        text: "C // C4@1 *C#4@1.5 D4@2 D#4@2.5 E4@3",
        to: "E4",
        manner: "chromatic",
      },
      { why: "struck twice", text: "C // G4@1 F4@1.5 *F4@2 E4@2.5", to: "E4" },
      { why: "struck twice, the first time", text: "C // G4@1 *F4@1.5 F4@2 E4@2.5", to: "E4" },
      { why: "struck three times, the first time", text: "C // G4@1 *F4@1.5 F4@2 F4@2.5 E4@3", to: "E4" },
      { why: "over the bar line", text: "C | Am // G4@4 *F4@4.5 | E4@1", to: "E4" },
      {
        why: "a run that turns before it reaches a chord tone leads to its next note",
        text: "C // G4@1 *A4@1.5 B4@2 A4@2.5",
        to: "B4",
      },
    ],
    isNot: [
      { why: "a chord tone in a run", text: "C7 // A4@1 *Bb4@1.5 C5@2", role: "chord tone" },
      { why: "left by leap", text: "C // E4@1 *F4@1.5 C4@2", role: "escape" },
      { why: "it turns back", text: "C // C4@1 *D4@1.5 C4@2", role: "neighbour" },
      { why: "leapt to", text: "C // G4@1 *D4@1.5 E4@2", role: "approach" },
      { why: "after a breath nothing leads to it", text: "C // C4@1:0.5 *D4@4 E4@4.5", role: "appoggiatura" },
    ],
  },
  {
    role: "neighbour",
    source: "Kostka & Payne [memory]",
    is: [
      { why: "upper", text: "C // E4@1 *F4@1.5 E4@2", to: "E4", manner: "upper" },
      { why: "lower and chromatic", text: "C // G4@1 *F#4@1.5 G4@2", to: "G4", manner: "lower" },
      { why: "over a change of chord", text: "C | Am // E4@4 *D4@4.5 | E4@1", to: "E4", manner: "lower" },
      { why: "struck twice", text: "C // E4@1 F4@1.5 *F4@2 E4@2.5", to: "E4" },
    ],
    isNot: [
      { why: "another octave is another pitch", text: "C // E4@1 *F4@1.5 E5@2", role: "escape" },
      {
        why: "the sixth of a sixth chord is a chord tone",
        text: "C6 // G4@1 *A4@1.5 G4@2",
        role: "chord tone",
      },
      { why: "it goes on in the same direction", text: "C // E4@1 *F4@1.5 G4@2", role: "passing" },
      { why: "there and back by leap", text: "C // C4@1 *F4@1.5 C4@2", role: "free" },
    ],
  },
  {
    role: "appoggiatura",
    source: "Kostka & Payne [memory]",
    is: [
      { why: "leap up, step down, on beat 3", text: "C // C4@2 *F4@3 E4@3.5", to: "E4", manner: null },
      { why: "the sixth sinking to the fifth", text: "C // C4@2 *A4@3 G4@3.5", to: "G4" },
      { why: "chromatic, on the bar's first beat", text: "C | C // G4@4 | *D#4@1 E4@2", to: "E4" },
      { why: "into a new chord", text: "Dm7 | G7 // F4@4 | *C5@1 B4@2", to: "B4" },
      { why: "a phrase that begins on it", text: "C // *F4@1 E4@2", to: "E4", manner: "unprepared" },
      {
        why: "in rubato the longer note is the stronger",
        text: "C // C4@2 *F4@3:1 E4@4:0.5",
        setting: { rubato: true },
      },
    ],
    isNot: [
      { why: "on a weaker place it is an approach", text: "C // C4@1 *F4@1.5 E4@2", role: "approach" },
      { why: "stepped to: accented passing", text: "C // G4@2.5 *F4@3 E4@3.5", role: "passing" },
      { why: "left by leap", text: "C // C4@2 *A4@3 E4@3.5", role: "held colour" },
      { why: "no chord tone follows", text: "C // C4@2 *A4@3 B4@3.5", role: "free" },
      { why: "a chord tone itself", text: "C // C4@2 *E4@3 D4@3.5", role: "chord tone" },
    ],
  },
  {
    role: "escape",
    source: "Kostka & Payne [memory]",
    is: [
      { why: "step up, leap down", text: "C // E4@1 *F4@1.5 C4@2", to: null },
      { why: "the ninth's sixth, G7", text: "G7 // D5@1 *E5@1.5 B4@2" },
      { why: "step down, leap up", text: "C // G4@1 *F4@1.5 C5@2" },
      { why: "step and leap the same way", text: "C // C4@1 *D4@1.5 G4@2" },
    ],
    isNot: [
      { why: "a chord tone", text: "C // F4@1 *E4@1.5 C4@2", role: "chord tone" },
      { why: "leapt to", text: "C // G4@1 *D4@1.5 G4@2", role: "held colour" },
      { why: "left by step", text: "C // E4@1 *F4@1.5 G4@2", role: "passing" },
      { why: "a breath follows: it is not left at all", text: "C // E4@1 *F4@1.5:0.5 | C4@2", role: "free" },
    ],
  },
  {
    role: "chord tone",
    source: "Kostka & Payne [memory]; stand-ins of sixth and suspended chords: Levine [memory]",
    is: [
      { why: "root", text: "C7 // G4@1 *C5@2" },
      { why: "seventh", text: "C7 // G4@1 *Bb4@2" },
      { why: "the sixth on a sixth chord", text: "C6 // E4@1 *A4@2" },
      { why: "the fourth on a suspended chord", text: "G7sus4 // G4@1 *C5@2" },
      { why: "the tonic triad where no chord sounds", text: "N.C. // G4@1 *E5@2" },
      { why: "although it moves on by step", text: "Cmaj7 // *B4@1 C5@2" },
    ],
    isNot: [
      { why: "a tension that the symbol names is a colour", text: "C9 // G4@1 *D5@2", role: "held colour" },
      { why: "the third of a suspended chord", text: "G7sus4 // G4@1 *B4@2", role: "free" },
      { why: "the blue third", text: "C7 // G4@1 *Eb5@2", role: "held colour", setting: BLUES },
      { why: "the natural third over a minor chord", text: "Cm7 // G4@1 *E5@2", role: "free" },
    ],
  },
  {
    role: "held colour",
    source: "tensions as colours: Nettles & Graf [memory]; blue notes [practice]",
    is: [
      { why: "a ninth left by leap", text: "C // G4@1 *D4@1.5 G4@2" },
      { why: "a blue third left by leap", text: "C7 // G4@1 *Eb4@1.5 C4@2", setting: BLUES },
      { why: "the last note of the solo", text: "Cmaj7 // G4@1 *D5@2" },
      { why: "a breath follows", text: "Cmaj7 | Cmaj7 // G4@1 *D5@2 | C5@2" },
      {
        why: "a sharp eleventh over the tritone substitute",
        text: "Dm7 | Db7 | Cmaj7 // A4@1 | *G4@1 B4@3 | C5@1",
      },
    ],
    isNot: [
      { why: "an avoid note is no colour", text: "C // C4@1 *F4@1.5 C4@2", role: "free" },
      { why: "it moves by step to a chord tone", text: "C // G4@1 *D4@1.5 C4@2", role: "approach" },
      { why: "it moves by step to another colour", text: "C // C4@2 *A4@3 B4@3.5", role: "free" },
      { why: "a chord tone", text: "Cmaj7 // D5@1 *G4@2", role: "chord tone" },
      { why: "outside the chord", text: "C // G4@1 *C#4@1.5 G4@2", role: "free" },
    ],
  },
  {
    role: "free",
    source: "what remains [practice]",
    is: [
      { why: "an avoid note between leaps", text: "C // C4@1 *F4@1.5 C4@2" },
      { why: "outside the chord between leaps", text: "C // G4@1 *C#4@1.5 G4@2" },
      { why: "a colour that moves to another colour", text: "C // C4@2 *A4@3 B4@3.5" },
      { why: "an avoid note that ends the phrase", text: "C // C4@1 *F4@2" },
    ],
    isNot: [
      { why: "a chord tone", text: "C // C4@1 *G4@2", role: "chord tone" },
      { why: "a colour", text: "C // C4@1 *A4@2", role: "held colour" },
      { why: "outside, but it leads", text: "C // G4@1 *C#4@1.5 C4@2", role: "approach" },
    ],
  },
];

describe.each(RULES)("line role: $role ($source)", ({ role, is, isNot }) => {
  it.each(is)("$text is one: $why", ({ text, setting, to, manner }) => {
    const label = asked(text, setting);
    expect(label.lineRole).toBe(role);
    if (to !== undefined) expect(label.leadsTo).toBe(to);
    if (manner !== undefined) expect(label.manner).toBe(manner);
  });
  it.each(isNot)("$text is none: $why", (row) => {
    expect(asked(row.text, row.setting).lineRole).toBe(row.role);
    expect(row.role).not.toBe(role);
  });
  it("has at least three examples of either kind", () => {
    expect(is.length).toBeGreaterThanOrEqual(3);
    expect(isNot.length).toBeGreaterThanOrEqual(3);
  });
});
