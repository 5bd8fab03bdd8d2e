/**
 * What each chord does in its key: tonic, II-V, secondary dominant, tritone substitute, backdoor, ... The rules look
 * at the chord, its distance from the tonic, and the chords around it; the form comes round, so that the chord after
 * the last is the first.
 *
 * Source of the functions and numerals: Nettles & Graf, The Chord Scale Theory and Jazz Harmony, 1997 [memory].
 */
import { mod12 } from "../pitch/index.ts";
import { isKey } from "./key.ts";
import { degreeNumeral, kindOf, numeralOf } from "./numerals.ts";
import type { Chord, ChordFunction, Idiom, Key } from "./types.ts";

export interface FunctionInKey {
  readonly function: ChordFunction;
  /** "IIm7", "V7/II", "subV7"; "" for N.C. */
  readonly numeral: string;
  /** The chord that it leads to by a fifth or a half step down, where its function is to lead there; else null. */
  readonly target: Chord | null;
}

export interface Setting {
  readonly key: Key;
  readonly idiom: Idiom;
}

/** What stands around a chord. */
interface Context extends Setting {
  readonly chord: Chord;
  /** Semitones of the root above the tonic, 0 to 11. */
  readonly above: number;
  readonly before: Chord | null;
  readonly after: Chord | null;
  /** The chord after `after`. */
  readonly later: Chord | null;
}

const NONE: FunctionInKey = { function: "none", numeral: "", target: null };

/** Function and numeral of every chord of a form, parallel to `chords`; null (N.C.) has none. */
export function functionsOf(chords: readonly (Chord | null)[], { key, idiom }: Setting): FunctionInKey[] {
  return functionsInKeys(
    chords.map((chord) => ({ chord, key })),
    idiom,
  );
}

/** The same for a form whose key changes: each chord in the key of its own bar, beside the chords around it. */
export function functionsInKeys(written: readonly KeyedChord[], idiom: Idiom): FunctionInKey[] {
  const runs = runsOf(written);
  const values = runs.map(({ chord, key }, index) => {
    if (chord === null) return NONE;
    const at = (distance: number) => runs[(index + distance + 2 * runs.length) % runs.length]!.chord;
    const above = mod12(chord.rootClass - key.tonicClass);
    return functionOf({ key, idiom, chord, above, before: at(-1), after: at(1), later: at(2) });
  });
  return runs.flatMap((run, index) => Array.from({ length: run.count }, () => values[index]!));
}

interface KeyedChord {
  readonly chord: Chord | null;
  readonly key: Key;
}

/** Chords struck again in one key are one: what matters is the change. */
function runsOf(written: readonly KeyedChord[]): (KeyedChord & { count: number })[] {
  const runs: (KeyedChord & { count: number })[] = [];
  for (const { chord, key } of written) {
    const last = runs.at(-1);
    if (last !== undefined && last.chord?.symbol === chord?.symbol && isKey(key, last.key)) last.count += 1;
    else runs.push({ chord, key, count: 1 });
  }
  return runs;
}

/** True for chords with a major third (or its stand-in) and a minor seventh. */
export function isDominant(chord: Chord | null): boolean {
  return chord?.quality === "dominant" || (chord?.quality === "suspended" && hasTone(chord, 10));
}

/** True for chords with a minor third and a perfect fifth: what a II or a minor tonic can be. */
export function isMinor(chord: Chord | null): boolean {
  switch (chord?.quality) {
    case "minor":
    case "minor-seventh":
    case "minor-sixth":
    case "minor-major":
      return true;
    default:
      return false;
  }
}

export function hasTone(chord: Chord, semitones: number): boolean {
  return chord.tones.some((tone) => tone.semitones === semitones);
}

function functionOf(context: Context): FunctionInKey {
  const { chord } = context;
  if (isDominant(chord)) return dominantFunction(context);
  switch (chord.quality) {
    case "minor":
    case "minor-seventh":
    case "minor-sixth":
    case "minor-major":
    case "half-diminished":
      return minorFunction(context);
    case "diminished":
    case "diminished-seventh":
      return diminishedFunction(context);
    case "augmented":
      return augmentedFunction(context);
    default:
      return majorFunction(context);
  }
}

const BLUES_DEGREES: Readonly<Record<number, ChordFunction>> = {
  0: "blues-one",
  5: "blues-four",
  7: "blues-five",
};

/**
 * In order: I, IV and V of a blues; V; a fifth down to the next chord (or to the one after, when the next is the II
 * on the same root); a half step down; backdoor; the places that are secondary dominants even when the resolution is
 * deceptive; colours from the minor key.
 */
function dominantFunction(context: Context): FunctionInKey {
  const { above, idiom, key } = context;
  const blues = idiom === "blues" ? BLUES_DEGREES[above] : undefined;
  const target = fifthBelow(context);
  if (blues !== undefined) return named(context, blues, target);
  if (above === 7) return named(context, "dominant", target);
  if (above === 5 && target === null) return named(context, "subdominant");
  if (target !== null) return secondary(context, target);
  const below = halfStepBelow(context);
  if (below !== null && above !== 0) return substitute(context, below);
  if (above === 0) return named(context, "tonic");
  if (above === 1) return named(context, "tritone-substitute");
  if (above === 10) {
    const home = context.after !== null && mod12(context.after.rootClass - key.tonicClass) === 0;
    return named(context, home ? "backdoor" : "modal-interchange");
  }
  if (above === 8) return named(context, "modal-interchange");
  if (key.mode === "major" && (above === 2 || above === 4 || above === 9 || above === 11)) {
    return {
      function: "secondary-dominant",
      numeral: `V${kindOf(context.chord)}/${DIATONIC_TARGET[above]}`,
      target: null,
    };
  }
  return named(context, "none");
}

/** The degree a fifth below a secondary dominant, by semitones of the dominant above a major tonic. */
const DIATONIC_TARGET: Readonly<Record<number, string>> = { 2: "V", 4: "VI", 9: "II", 11: "III" };

/**
 * The chord a fifth down that comes next, or that comes after another chord on the same root: the II of the next
 * dominant ("D7 Dm7 G7") or a suspension let go ("A7sus4 A7 Dm7").
 */
function fifthBelow({ chord, after, later }: Context): Chord | null {
  const isBelow = (other: Chord | null) => other !== null && mod12(chord.rootClass - other.rootClass) === 7;
  if (isBelow(after)) return after;
  const delayed =
    after?.rootClass === chord.rootClass &&
    (isMinor(after) || isDominant(after) || after.quality === "half-diminished");
  return delayed && isBelow(later) ? later : null;
}

function halfStepBelow({ chord, after }: Context): Chord | null {
  return after !== null && mod12(chord.rootClass - after.rootClass) === 1 ? after : null;
}

function secondary(context: Context, target: Chord): FunctionInKey {
  const numeral = `V${kindOf(context.chord)}/${degreeNumeral(target, context.key)}`;
  return { function: "secondary-dominant", numeral, target };
}

function substitute(context: Context, target: Chord): FunctionInKey {
  const home = mod12(target.rootClass - context.key.tonicClass) === 0;
  const numeral = `subV${kindOf(context.chord)}${home ? "" : `/${degreeNumeral(target, context.key)}`}`;
  return { function: "tritone-substitute", numeral, target };
}

/**
 * II before V first in the key, then the degrees of the key, then II of another dominant. A chord that is both a
 * degree of the key and the II of a secondary dominant keeps its place in the key (dual function).
 */
function minorFunction(context: Context): FunctionInKey {
  const { above, key, idiom, chord } = context;
  const half = chord.quality === "half-diminished";
  const { after } = context;
  const dominant =
    after !== null && isDominant(after) && mod12(after.rootClass - chord.rootClass) === 5 ? after : null;
  if (above === 2) return named(context, "two");
  if (above === 0 && !half && key.mode === "minor")
    return named(context, idiom === "blues" ? "blues-one" : "tonic");
  if (above === 5 && !half && key.mode === "minor")
    return named(context, idiom === "blues" ? "blues-four" : "subdominant");
  if (above === 4 && !half && key.mode === "major") return named(context, "mediant");
  if (above === 9 && !half && key.mode === "major") return named(context, "submediant");
  if (above === 9 && half && key.mode === "minor" && dominant === null) return named(context, "submediant");
  if (dominant !== null) {
    const goal = context.later;
    const lands = goal !== null && mod12(dominant.rootClass - goal.rootClass) === 7;
    const numeral = lands ? `II${kindOf(chord)}/${degreeNumeral(goal, key)}` : numeralOf(chord, key);
    return { function: "secondary-two", numeral, target: dominant };
  }
  if (above === 7 && !half && key.mode === "minor") return named(context, "dominant");
  if (above === 11 && half) return named(context, "dominant");
  if (!half && (above === 0 || above === 5 || above === 7)) {
    return named(context, "modal-interchange");
  }
  return named(context, "none");
}

/** VII of the tonic, or a chord that fills the step between its neighbours. */
function diminishedFunction(context: Context): FunctionInKey {
  const { above, chord, after, before, key } = context;
  const toTonic = after !== null && mod12(after.rootClass - key.tonicClass) === 0;
  if (above === 11 && toTonic) return named(context, "dominant", after);
  const steps = [after?.rootClass, after?.bassClass, before?.rootClass, before?.bassClass].map((root) =>
    root === undefined ? 6 : mod12(root - chord.rootClass),
  );
  return named(
    context,
    steps.some((step) => step === 1 || step === 11 || step === 0) ? "passing-diminished" : "none",
  );
}

function augmentedFunction(context: Context): FunctionInKey {
  const target = fifthBelow(context);
  if (context.above === 7) return named(context, "dominant", target);
  if (context.above === 0 && target === null) return named(context, "tonic");
  if (target !== null) return secondary(context, target);
  return named(context, "none");
}

/** Major triads, sixths and major sevenths, sus and power chords. */
function majorFunction(context: Context): FunctionInKey {
  const { above, key, chord, idiom } = context;
  const triad = chord.quality === "major" || chord.quality === "suspended" || chord.quality === "power";
  if (idiom === "blues" && (above === 0 || (triad && BLUES_DEGREES[above] !== undefined))) {
    return named(context, BLUES_DEGREES[above]!);
  }
  if (above === 0) return named(context, "tonic");
  if (above === 7 && triad) return named(context, "dominant", fifthBelow(context));
  if (above === 5) return named(context, "subdominant");
  const target = fifthBelow(context);
  if (triad && target !== null && DIATONIC_TARGET[above] !== undefined) {
    return secondary(context, target);
  }
  if (key.mode === "minor" && above === 3) return named(context, "mediant");
  if (key.mode === "minor" && above === 8) return named(context, "submediant");
  if (above === 1 || above === 3 || above === 8 || above === 10) return named(context, "modal-interchange");
  return named(context, "none");
}

function named(context: Context, name: ChordFunction, target: Chord | null = null): FunctionInKey {
  const sub =
    name === "tritone-substitute" ? `subV${kindOf(context.chord)}` : numeralOf(context.chord, context.key);
  return { function: name, numeral: sub, target };
}
