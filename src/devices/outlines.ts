/** Devices that outline another chord or scale than the one that sounds. */
import { mod12 } from "../pitch/index.ts";
import { type DeviceLine, isJoined, isOneChord, move, type Stretch } from "./device-line.ts";

const rising = (line: DeviceLine, first: number, moves: readonly number[]) =>
  moves.every((semitones, k) => move(line, first + k) === semitones);

/** Third to flat ninth: 3 5 b7 b9 rising over one dominant. Source: Ligon; Levine [memory]. */
export function thirdToFlatNinth(line: DeviceLine): Stretch[] {
  return stretches(
    line,
    4,
    (first, last) => {
      const { span, above } = line[first]!;
      return (
        span.chord?.quality === "dominant" &&
        above === 4 &&
        isOneChord(line, first, last) &&
        rising(line, first, [3, 3, 3])
      );
    },
    4,
  ).map((found) => ({ name: "third to flat ninth", ...found }));
}

/** Root, third, fifth and seventh of the dominant a tritone away, as semitones above the root that sounds. */
const TRITONE_CHORD: readonly number[] = [6, 10, 1, 4];

/**
 * Tritone outline: four or more notes of a broken chord that are all tones of the dominant a tritone away, its root
 * and its fifth among them, over one dominant; the line goes on down a half step. Source: Levine [memory].
 */
export function tritoneOutline(line: DeviceLine): Stretch[] {
  return stretches(line, 4, (first, last) => {
    if (line[first]!.span.chord?.quality !== "dominant" || !isOneChord(line, first, last)) return false;
    const heard = line.slice(first, last + 1).map(({ above }) => above!);
    if (!heard.every((above) => TRITONE_CHORD.includes(above)) || !heard.includes(6) || !heard.includes(1))
      return false;
    if (!isBroken(line, first, last)) return false;
    return isJoined(line, last, last + 1) && move(line, last) === -1;
  }).map((found) => ({ name: "tritone outline", ...found }));
}

const TRIADS: readonly (readonly number[])[] = [
  [4, 3],
  [3, 4],
  [3, 5],
  [5, 4],
  [4, 5],
  [5, 3],
];
const SEVENTH_CHORDS: readonly string[] = ["major-seventh", "dominant", "minor-seventh", "suspended"];

/**
 * Upper structure: a major or minor triad in one direction and back, four notes or more, over one seventh chord of
 * which at least two of its three tones are tensions and none is foreign. Source: Levine [memory].
 */
export function upperStructure(line: DeviceLine): Stretch[] {
  return stretches(line, 4, (first, last) => {
    if (!SEVENTH_CHORDS.includes(line[first]!.span.chord?.quality ?? "")) return false;
    if (!isOneChord(line, first, last) || !isBroken(line, first, last)) return false;
    const tones = new Map(line.slice(first, last + 1).map((one) => [one.above!, one.label.role]));
    if (tones.size !== 3 || !isTriad([...tones.keys()])) return false;
    const roles = [...tones.values()];
    const tensions = roles.filter((role) => role === "tension").length;
    return tensions >= 2 && !roles.some((role) => role === "outside" || role === "avoid");
  }).map((found) => ({ name: "upper structure", ...found }));
}

function isTriad(classes: readonly number[]): boolean {
  const [a, b, c] = [...classes].sort((x, y) => x - y) as [number, number, number];
  return TRIADS.some(([low, high]) => b - a === low && c - b === high);
}

/** Every move is a leap of a third to a fifth or so: the chord is broken, not run through. */
function isBroken(line: DeviceLine, first: number, last: number): boolean {
  for (let i = first; i < last; i++) {
    const size = Math.abs(move(line, i));
    if (size < 3 || size > 7) return false;
  }
  return true;
}

const PENTATONIC: readonly number[] = [0, 2, 4, 7, 9];
/** Degrees (semitones) whose major pentatonic is the chord's own: on the root, or the minor one of the root. */
const OWN: readonly number[] = [0, 3];
/** Notes of the least figure: all five tones and one come back to. [practice] */
const PENTATONIC_LEAST = 6;

/**
 * Other pentatonic: six notes or more under one chord that hold all five tones of a pentatonic scale and no other,
 * on another degree than the root, no note foreign to the chord. Source: Levine [memory].
 */
export function otherPentatonic(line: DeviceLine): Stretch[] {
  return stretches(line, PENTATONIC_LEAST, (first, last) => {
    if (!isOneChord(line, first, last)) return false;
    const notes = line.slice(first, last + 1);
    const tones = new Set(notes.map(({ above }) => above!));
    if (tones.size !== 5 || notes.some(({ label }) => label.role === "outside")) return false;
    const root = [...tones].find((tone) => PENTATONIC.every((step) => tones.has(mod12(tone + step))));
    return root !== undefined && !OWN.includes(root) && isRun(line, first, last);
  }).map((found) => ({ name: "other pentatonic", ...found }));
}

/** Neighbours in a pentatonic scale lie a whole step to a fourth apart. */
function isRun(line: DeviceLine, first: number, last: number): boolean {
  for (let i = first; i < last; i++) if (Math.abs(move(line, i)) > 5 || move(line, i) === 0) return false;
  return true;
}

/** Longest stretches from `least` notes on for which `holds`, in order and without overlap. */
export function stretches(
  line: DeviceLine,
  least: number,
  holds: (first: number, last: number) => boolean,
  most = 16,
): { first: number; last: number }[] {
  const found: { first: number; last: number }[] = [];
  for (let first = 0; first + least <= line.length; first++) {
    for (let last = Math.min(line.length, first + most) - 1; last >= first + least - 1; last--) {
      if (!holds(first, last)) continue;
      found.push({ first, last });
      first = last;
      break;
    }
  }
  return found;
}
