/** What a listener keeps of an idea, and the way in which it comes back. */
import type { MotifWay } from "../account.ts";
import type { SoloLine } from "./solo-line.ts";
import type { Variant } from "./variants.ts";

/** What an idea is kept by, each 0 to 1. */
export interface Salience {
  /** Its notes, of as many as a listener keeps as one figure. */
  readonly length: number;
  /** Share of its occurrences that open a phrase. */
  readonly openings: number;
  /** Share of the line from its first to its last occurrence. */
  readonly spread: number;
  /** Share of its occurrences that are the idea itself and no variant of it. */
  readonly exactness: number;
}

/** Notes that are held in mind as one figure: seven, give or take two. [lit: Miller 1956, memory] */
const ONE_FIGURE = 7;

/** What an idea weighs of its rank however little a listener keeps of it. [practice] */
const LEAST = 0.5;

export function salienceOf(notes: number, matches: readonly Variant[], line: SoloLine): Salience {
  const [first, last] = [matches[0]!, matches.at(-1)!];
  return {
    length: Math.min(1, notes / ONE_FIGURE),
    openings: matches.filter(({ start }) => opensPhrase(start, line)).length / matches.length,
    spread: (last.start + last.notes - first.start) / line.heads.length,
    exactness: matches.filter(({ kind }) => kind === "same").length / matches.length,
  };
}

/** What of an idea's rank a listener keeps, from `LEAST` to 1: length, openings, spread and exactness alike. */
export function keptOf({ length, openings, spread, exactness }: Salience): number {
  return LEAST + ((1 - LEAST) * (length + openings + spread + exactness)) / 4;
}

/** A formula opens phrases in at most this share of its occurrences, and lies over at least so much of the line. [practice] */
const FORMULA = { openings: 0.25, spread: 0.4 } as const;

/**
 * How an idea comes back: as a `sequence`, when half of its returns or more take it up at another pitch right where it
 * ended; as a `formula`, when lines run through it here and there and hardly begin with it; else as an idea that is
 * taken up again, a `return`. [practice]
 */
export function wayOf(salience: Salience, matches: readonly Variant[], line: SoloLine): MotifWay {
  const moved = matches.filter((match, i) => follows(matches[i - 1], match, line)).length;
  if (2 * moved >= matches.length - 1) return "sequence";
  const isFormula = salience.openings <= FORMULA.openings && salience.spread >= FORMULA.spread;
  return isFormula ? "formula" : "return";
}

/** True when a match begins at another pitch where the one before it ended, or on the note after. */
export function follows(before: Variant | undefined, match: Variant, line: SoloLine): boolean {
  if (before === undefined || before.kind !== "same") return false;
  if (match.start - (before.start + before.notes) > 1) return false;
  return line.heads[match.start]!.pitch !== line.heads[before.start]!.pitch;
}

function opensPhrase(place: number, { heads, breath }: SoloLine): boolean {
  const before = heads[place - 1];
  return before === undefined || breath[place - 1] === 1 || before.phrase !== heads[place]!.phrase;
}
