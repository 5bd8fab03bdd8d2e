/**
 * The scale that a chord takes by its function, and what follows from it: available tensions, avoid notes and blue
 * notes. Nettles & Graf 1997; Levine 1995 [memory].
 */
import { mod12 } from "../pitch/index.ts";
import { type FunctionInKey, hasTone, isDominant, isMinor, type Setting } from "./functions.ts";
import { SCALES, type Scale, type ScaleName, scaleNamed } from "./scale.ts";
import type { Chord, Degree } from "./types.ts";

export interface Colour {
  readonly semitones: number;
  readonly degree: Degree;
}

/**
 * The scale of a chord: the first of those that suit its function which holds every tone of the symbol.
 */
export function scaleOf(chord: Chord, place: FunctionInKey, setting: Setting): Scale {
  const wanted = candidates(chord, place, setting);
  const named = wanted.map(scaleNamed);
  const holds = (scale: Scale) =>
    chord.tones.every(
      ({ semitones }) => scale.tones.includes(semitones) || alsoAvailable(scale).includes(semitones),
    );
  return named.find(holds) ?? SCALES.find(holds) ?? named[0]!;
}

/** Scales that suit a chord, the first choice first. */
function candidates(chord: Chord, place: FunctionInKey, setting: Setting): readonly ScaleName[] {
  switch (chord.quality) {
    case "dominant":
      return dominantScales(chord, place, setting);
    case "suspended":
      return suspendedScales(chord, place);
    case "power":
      return setting.key.mode === "minor" ? minorScales(place) : majorScales(chord, place, setting);
    case "major":
    case "sixth":
    case "major-seventh":
      return majorScales(chord, place, setting);
    case "minor-seventh":
    case "minor":
      return minorScales(place);
    case "minor-sixth":
    case "minor-major":
      return ["melodic minor", "Dorian", "harmonic minor"];
    case "half-diminished":
      return ["Locrian", "Locrian natural 9"];
    case "diminished":
    case "diminished-seventh":
      return ["whole-half"];
    case "augmented":
      return ["whole tone"];
    case "augmented-major":
      return ["Lydian augmented"];
  }
}

/** A suspended dominant is Mixolydian, with a flat ninth Phrygian (Levine 1995 [memory]); other chords are in the key. */
function suspendedScales(chord: Chord, place: FunctionInKey): readonly ScaleName[] {
  const dominant = hasTone(chord, 10) || place.function === "dominant" || place.function.startsWith("blues");
  return dominant ? ["Mixolydian", "Phrygian"] : ["Ionian", "Lydian"];
}

function dominantScales(chord: Chord, place: FunctionInKey, setting: Setting): readonly ScaleName[] {
  if (hasTone(chord, 8) && !hasTone(chord, 7)) return ["whole tone", "altered", "Mixolydian b13"];
  const bySymbol: readonly ScaleName[] = [
    "Mixolydian",
    "Lydian b7",
    "Mixolydian b13",
    "half-whole",
    "Mixolydian b9 b13",
    "altered",
    "whole tone",
  ];
  const first = dominantScale(chord, place, setting);
  return first === "Mixolydian b13" ? [first, "Mixolydian b9 b13", ...bySymbol] : [first, ...bySymbol];
}

function dominantScale(chord: Chord, place: FunctionInKey, { key }: Setting): ScaleName {
  const above = mod12(chord.rootClass - key.tonicClass);
  switch (place.function) {
    case "blues-five":
    case "dominant":
      return leadsToMinor(place, key.mode === "minor") ? "Mixolydian b9 b13" : "Mixolydian";
    case "secondary-dominant": {
      const toTwo = key.mode === "major" && above === 9 && place.target?.quality !== "half-diminished";
      if (toTwo) return leadsToMinor(place, true) ? "Mixolydian b13" : "Mixolydian";
      return leadsToMinor(place, above === 4 || above === 11) ? "Mixolydian b9 b13" : "Mixolydian";
    }
    case "subdominant":
      // The IV7 of a minor tonic is that tonic's Dorian.
      return key.mode === "minor" ? "Mixolydian" : "Lydian b7";
    case "tritone-substitute":
    case "backdoor":
    case "modal-interchange":
      return "Lydian b7";
    default:
      return "Mixolydian";
  }
}

/** Whether a dominant leads to a minor chord; `byPlace` when it leads to none that can be seen. */
function leadsToMinor(place: FunctionInKey, byPlace: boolean): boolean {
  const { target } = place;
  if (target === null) return byPlace;
  return isMinor(target) || target.quality === "half-diminished";
}

function majorScales(chord: Chord, place: FunctionInKey, setting: Setting): readonly ScaleName[] {
  switch (place.function) {
    case "tonic":
      return ["Ionian", "Lydian"];
    case "dominant":
    case "secondary-dominant":
      return [dominantScale(chord, place, setting), "Mixolydian"];
    case "blues-one":
      return chord.quality === "sixth" || chord.quality === "major-seventh"
        ? ["Ionian", "Lydian"]
        : ["Mixolydian"];
    case "blues-four":
    case "blues-five":
      return ["Mixolydian"];
    default:
      return ["Lydian", "Ionian"];
  }
}

function minorScales(place: FunctionInKey): readonly ScaleName[] {
  const others: readonly ScaleName[] = ["Dorian", "Aeolian", "Phrygian"];
  if (place.function === "mediant") return ["Phrygian", "Aeolian", ...others];
  if (place.function === "submediant") return ["Aeolian", ...others];
  // The minor V of a minor key is the III of its relative major.
  if (place.function === "dominant") return ["Phrygian", ...others];
  return others;
}

/** Beside the seven tones of V7(b9,b13) the sharp ninth is at hand (Nettles & Graf 1997 [memory]). */
function alsoAvailable(scale: Scale): readonly number[] {
  return scale.name === "Mixolydian b9 b13" ? [3] : [];
}

/** True for a plain I of a minor key; in a major key a minor chord on I is borrowed. */
function isMinorTonic({ quality }: Chord, { function: name }: FunctionInKey): boolean {
  return (quality === "minor" || quality === "minor-seventh") && (name === "tonic" || name === "blues-one");
}

const ALTERED_TENSIONS: readonly number[] = [1, 3, 6, 8];

/**
 * What a chord's scale offers beside the chord. A scale tone a half step above a chord tone is an avoid note, except
 * the altered tensions of dominants; so are the sixth of a II, which sounds the dominant early, the eleventh of a
 * dominant that keeps its third and its natural fifth under altered ninths, the flat sixth of a minor key over its
 * tonic (Aeolian, Nettles & Graf [memory]), and, softly, the third over a suspended fourth. What the symbol names is never avoided.
 */
export function coloursOf(
  chord: Chord,
  scale: Scale,
  place: FunctionInKey,
): { tensions: Colour[]; avoid: Colour[] } {
  const tones = new Set(chord.tones.map(({ semitones }) => semitones));
  const dominant = (chord.quality === "dominant" || tones.has(4)) && scale.tones.includes(10);
  const avoided = new Set<number>();
  for (const tone of scale.tones) {
    const altered = dominant && ALTERED_TENSIONS.includes(tone);
    if (tones.has(mod12(tone - 1)) && !altered) avoided.add(tone);
  }
  const leadsOn = place.function === "two" || place.function === "secondary-two";
  if (leadsOn && isMinor(chord)) avoided.add(9);
  if (isMinorTonic(chord, place) && tones.has(7)) avoided.add(8);
  if (scale.name === "half-whole" && tones.has(4)) avoided.add(5);
  if (chord.quality === "suspended" && hasTone(chord, 5)) avoided.add(4);
  for (const tone of tones) avoided.delete(tone);
  const offered = [...scale.tones, ...alsoAvailable(scale)].filter(
    (tone) => !tones.has(tone) && !avoided.has(tone),
  );
  const named = chord.tones.filter(({ role }) => role === "tension").map(({ semitones }) => semitones);
  const colours = (set: Iterable<number>) =>
    [...new Set(set)]
      .sort((a, b) => a - b)
      .map((semitones) => ({ semitones, degree: colourDegree(semitones, chord) }));
  return { tensions: colours([...offered, ...named]), avoid: colours(avoided) };
}

/**
 * What a dominant that resolves takes besides its scale: flat and sharp ninth, sharp eleventh and flat thirteenth,
 * where neither the chord nor `taken` has them. It resolves down a fifth or a half step, or is the V of the key. One
 * that stays (I and IV of a blues, a vamp) takes only what its symbol names. [practice; Levine 1995, memory]
 */
export function alteredTensions(chord: Chord, place: FunctionInKey, taken: readonly Colour[]): Colour[] {
  if (chord.quality !== "dominant" || !resolves(place)) return [];
  const known = new Set([...chord.tones, ...taken].map(({ semitones }) => semitones));
  return ALTERED_TENSIONS.filter((semitones) => !known.has(semitones)).map((semitones) => ({
    semitones,
    degree: colourDegree(semitones, chord),
  }));
}

function resolves(place: FunctionInKey): boolean {
  switch (place.function) {
    case "blues-one":
    case "blues-four":
      return false;
    case "dominant":
    case "blues-five":
      return true;
    default:
      return place.target !== null;
  }
}

/**
 * The blue third and the blue fifth, over a dominant or the tonic of a blues, where neither the symbol nor the
 * function's tensions have them already.
 */
export function blueNotes(
  chord: Chord,
  place: FunctionInKey,
  tensions: readonly Colour[],
  setting: Setting,
): Colour[] {
  if (setting.idiom !== "blues") return [];
  if (!isDominant(chord) && place.function !== "blues-one") return [];
  const taken = new Set([...chord.tones, ...tensions].map(({ semitones }) => semitones));
  const blue: Colour[] = [
    { semitones: 3, degree: "b3" },
    { semitones: 6, degree: "b5" },
  ];
  return blue.filter(({ semitones }) => !taken.has(semitones));
}

/** How a tone that is no chord tone is called over a chord. */
function colourDegree(semitones: number, chord: Chord): Degree {
  const named = chord.tones.find((tone) => tone.semitones === semitones);
  if (named !== undefined) return named.degree;
  switch (semitones) {
    case 1:
      return "b9";
    case 2:
      return "9";
    case 3:
      return hasTone(chord, 4) ? "#9" : "b3";
    case 4:
      return "3";
    case 5:
      return "11";
    case 6:
      return "#11";
    case 7:
      return "5";
    case 8:
      return "b13";
    case 9:
      return hasTone(chord, 10) || hasTone(chord, 11) ? "13" : "6";
    case 10:
      return "b7";
    default:
      return "7";
  }
}
