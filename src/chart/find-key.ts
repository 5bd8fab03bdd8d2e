import { mod12 } from "../pitch/index.ts";
import { type FunctionInKey, functionsOf, isDominant, isMinor, type Setting } from "./functions.ts";
import { keyOn } from "./key.ts";
import type { ChartBar, Chord, ChordFunction, Idiom, Key, Quality } from "./types.ts";

/** How much a chord of each function, per beat, speaks for a key. */
const WEIGHTS: Readonly<Record<ChordFunction, number>> = {
  tonic: 1,
  "blues-one": 1,
  "blues-four": 0.9,
  "blues-five": 0.9,
  dominant: 0.8,
  two: 0.8,
  subdominant: 0.6,
  submediant: 0.6,
  mediant: 0.5,
  "secondary-dominant": 0.4,
  "secondary-two": 0.3,
  "tritone-substitute": 0.3,
  backdoor: 0.3,
  "passing-diminished": 0.2,
  "modal-interchange": 0,
  none: -0.2,
};

/** What a chord on the tonic weighs that is no point of rest. */
const RESTLESS_TONIC = 0.6;

/** What it speaks for a key that its tonic is the first chord, or the last, or comes right after its V7. */
const FIRST_AT_HOME = 0.3;
const LAST_AT_HOME = 0.15;
const CADENCE = 0.2;

interface Candidate extends Setting {
  readonly score: number;
}

/**
 * The key and idiom in which the chords make most sense: that in which most beats have a strong function, with a
 * word for the first and the last chord and for cadences. What is `given` is kept.
 *
 * Without chords the key is C major.
 */
export function findKey(
  bars: readonly ChartBar[],
  given: { readonly key: Key | null; readonly idiom: Idiom | null },
): Setting {
  return rankKeys(bars, given)[0]!;
}

/** All keys and idioms that are possible, the best first; at least one. */
export function rankKeys(
  bars: readonly ChartBar[],
  given: { readonly key: Key | null; readonly idiom: Idiom | null },
): Candidate[] {
  const written = bars.flatMap((bar) => bar.chords);
  const chords = written.map(({ chord }) => chord);
  const beats = written.map((chord) => chord.beats);
  const keys = given.key === null ? allKeys(chords) : [given.key];
  const candidates = keys.flatMap((key) => {
    const idioms: readonly Idiom[] =
      given.idiom !== null
        ? [given.idiom]
        : bluesIsPossible(bars, key)
          ? ["blues", "standard"]
          : ["standard"];
    return idioms.map((idiom) => ({ key, idiom, score: scoreOf(chords, beats, { key, idiom }) }));
  });
  return candidates.sort((a, b) => b.score - a.score);
}

function scoreOf(chords: readonly (Chord | null)[], beats: readonly number[], setting: Setting): number {
  const functions = functionsOf(chords, setting);
  const total = beats.reduce((sum, length) => sum + length, 0);
  const isTonic = (index: number) => {
    const name = functions.at(index)?.function;
    return name === "tonic" || name === "blues-one";
  };
  const rests = (index: number) => isTonic(index) && isPointOfRest(chords.at(index)!, setting);
  const weightOf = (place: FunctionInKey, index: number) =>
    isTonic(index) && !rests(index) ? RESTLESS_TONIC : WEIGHTS[place.function];
  let score =
    functions.reduce((sum, place, index) => sum + weightOf(place, index) * beats[index]!, 0) / total;
  if (rests(0)) score += FIRST_AT_HOME;
  if (rests(-1)) score += LAST_AT_HOME;
  const cadences = functions.some((place, index) => {
    const chord = chords[index]!;
    return place.target !== null && isDominant(chord) && isTonic((index + 1) % functions.length);
  });
  if (cadences) score += CADENCE;
  return score;
}

/** Outside the blues a dominant seventh on the tonic does not rest, nor does a major chord in a minor key. */
function isPointOfRest(tonic: Chord, { key, idiom }: Setting): boolean {
  if (key.mode === "minor") return isMinor(tonic) || tonic.quality === "power";
  return idiom === "blues" || !isDominant(tonic);
}

/** Each tonic in both modes, spelled as the chart spells it, else as keys are usually signed. */
function allKeys(chords: readonly (Chord | null)[]): Key[] {
  const roots = new Map<number, string>();
  for (const chord of chords)
    if (chord !== null && !roots.has(chord.rootClass)) roots.set(chord.rootClass, chord.root);
  const modes = ["major", "minor"] as const;
  return Array.from({ length: 12 }, (_, tonicClass) => tonicClass).flatMap((tonicClass) =>
    modes.map((mode) => {
      const tonic = roots.get(tonicClass);
      return tonic === undefined ? keyOn(tonicClass, mode) : { tonic, tonicClass, mode };
    }),
  );
}

/**
 * A blues has a tonic with a minor seventh, answered by the same on IV, or the way of the twelve bars: I, in the fifth
 * bar IV, in the seventh I again, or is a vamp on one such chord. A tonic with a sixth or a major seventh is no blues.
 */
function bluesIsPossible(bars: readonly ChartBar[], key: Key): boolean {
  const chords = bars.flatMap((bar) => bar.chords.map(({ chord }) => chord));
  const has = (above: number, qualities: readonly Quality[]) =>
    chords.some((chord) => isOn(chord, key, above) && qualities.includes(chord!.quality));
  const twelve =
    bars.length % 12 === 0 &&
    [0, 6].every((bar) => isOn(bars[bar]!.chords[0]!.chord, key, 0)) &&
    isOn(bars[4]!.chords[0]!.chord, key, 5);
  if (key.mode === "minor") return twelve && has(0, MINOR_TONICS) && has(5, MINOR_TONICS);
  const sevenths = [has(0, ["dominant"]), has(5, ["dominant"])];
  if (has(0, ["major-seventh", "sixth"])) return false;
  if (chords.every((chord) => chord === null || isOn(chord, key, 0))) return sevenths[0]!;
  return twelve ? sevenths.includes(true) : !sevenths.includes(false);
}

const MINOR_TONICS: readonly Quality[] = ["minor", "minor-seventh", "minor-sixth"];

function isOn(chord: Chord | null, key: Key, above: number): boolean {
  return chord !== null && mod12(chord.rootClass - key.tonicClass) === above;
}
