import { functionsOf, type Setting } from "./functions.ts";
import { mod12, nameOf } from "./pitch-name.ts";
import type { ChartBar, Chord, ChordFunction, Idiom, Key } from "./types.ts";

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
  "modal-interchange": 0.1,
  none: 0,
};

interface Candidate extends Setting {
  readonly score: number;
}

/**
 * The key and idiom in which the chords make most sense: that in which most beats have a strong function, with a
 * word for the first and the last chord and for cadences. What is `given` is kept.
 *
 * A blues is only thought of where the tonic chord has a minor seventh, or is minor, and a chord on IV of the same
 * kind answers it.
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
        : bluesIsPossible(chords, key)
          ? ["blues", "standard"]
          : ["standard"];
    return idioms.map((idiom) => ({ key, idiom, score: scoreOf(chords, beats, { key, idiom }) }));
  });
  return candidates.sort((a, b) => b.score - a.score);
}

function scoreOf(chords: readonly (Chord | null)[], beats: readonly number[], setting: Setting): number {
  const functions = functionsOf(chords, setting);
  const total = beats.reduce((sum, length) => sum + length, 0);
  let score =
    functions.reduce((sum, place, index) => sum + WEIGHTS[place.function] * beats[index]!, 0) / total;
  const isHome = (index: number) => {
    const name = functions.at(index)?.function;
    return name === "tonic" || name === "blues-one";
  };
  if (isHome(0)) score += 0.15;
  if (isHome(-1)) score += 0.15;
  const cadences = functions.filter(
    (place, index) =>
      (place.function === "dominant" || place.function === "blues-five") &&
      isHome((index + 1) % functions.length),
  ).length;
  if (cadences > 0) score += 0.2;
  return score;
}

/** Each tonic in both modes, spelled as the chart spells it, else as keys are usually signed. */
function allKeys(chords: readonly (Chord | null)[]): Key[] {
  const roots = new Map<number, string>();
  for (const chord of chords)
    if (chord !== null && !roots.has(chord.rootClass)) roots.set(chord.rootClass, chord.root);
  const modes = ["major", "minor"] as const;
  return Array.from({ length: 12 }, (_, tonicClass) => tonicClass).flatMap((tonicClass) =>
    modes.map((mode) => ({ tonic: roots.get(tonicClass) ?? nameOf(tonicClass, "flats"), tonicClass, mode })),
  );
}

function bluesIsPossible(chords: readonly (Chord | null)[], key: Key): boolean {
  const on = (above: number, qualities: readonly Chord["quality"][]) =>
    chords.some(
      (chord) =>
        chord !== null &&
        mod12(chord.rootClass - key.tonicClass) === above &&
        qualities.includes(chord.quality),
    );
  if (key.mode === "major") return on(0, ["dominant"]) && on(5, ["dominant"]);
  const minor: readonly Chord["quality"][] = ["minor", "minor-seventh", "minor-sixth"];
  return on(0, minor) && on(5, minor) && chords.length > 0 && !on(0, ["major", "major-seventh", "sixth"]);
}
