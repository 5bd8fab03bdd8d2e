/** Where it is doubtful which hand played which note: the hands cross there, or share a register. */
import type { Hand, Warning } from "../take/index.ts";
import { clock, counted, listInWords } from "../words/index.ts";
import { PARTING_COSTS } from "./costs.ts";

/** What a passage is told from. */
export interface PartedNote {
  /** Seconds. */
  readonly onset: number;
  /** MIDI number. */
  readonly pitch: number;
  readonly hand: Hand;
  /** 0 to 1, how clearly the note belongs to its hand. */
  readonly margin: number;
}

export interface Passage {
  /** Indices of its first and last note. */
  readonly first: number;
  readonly last: number;
}

/** Notes to each side that a note's doubt is shared with: hands are exchanged by the phrase, not by the note. */
const AROUND = 6;
/**
 * A passage whose margins are below this on the average is doubtful. On keyboard scores on two staves every fourth
 * note of such passages lies in the wrong hand, and one in thirty of the others (report `parting`).
 */
export const DOUBTFUL = 0.75;
/** Fewer notes are single slips, which their own margins tell. */
const SHORTEST = 6;
/** Passages that are named; the rest are counted. */
const MOST_NAMED = 5;

/**
 * Stretches of notes, in time order, that may as well have been played by the other hand, in which the hands meet: where
 * one keeps above the other, or plays alone, a low margin says only that a hand could have reached further.
 */
export function doubtfulPassages(notes: readonly PartedNote[]): Passage[] {
  const passages: Passage[] = [];
  let sum = notes.slice(0, AROUND).reduce((all, { margin }) => all + margin, 0);
  let start = -1;
  for (let i = 0; i <= notes.length; i++) {
    sum += (notes[i + AROUND]?.margin ?? 0) - (notes[i - AROUND - 1]?.margin ?? 0);
    const around = Math.min(notes.length, i + AROUND + 1) - Math.max(0, i - AROUND);
    const doubted = i < notes.length && sum / around < DOUBTFUL;
    if (doubted && start < 0) start = i;
    if (doubted || start < 0) continue;
    if (i - start >= SHORTEST && doMeet(notes, start, i)) passages.push({ first: start, last: i - 1 });
    start = -1;
  }
  return passages;
}

/**
 * True where, from one note to before another, the hands come so near that each gets to the other's keys at once. Of
 * 1,816 notes of low margins on two staves 38 lie where they are farther apart, none of them in the wrong hand.
 */
function doMeet(notes: readonly PartedNote[], from: number, to: number): boolean {
  let [highestLeft, lowestRight] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let i = from; i < to; i++) {
    const { pitch, hand } = notes[i]!;
    if (hand === "left") highestLeft = Math.max(highestLeft, pitch);
    else lowestRight = Math.min(lowestRight, pitch);
  }
  return lowestRight - highestLeft <= PARTING_COSTS.atHand;
}

/** One warning for all of them, with their places in seconds; none where nothing is doubtful. */
export function doubtfulWarning(notes: readonly PartedNote[]): Warning[] {
  const passages = doubtfulPassages(notes);
  if (passages.length === 0) return [];
  const size = ({ first, last }: Passage) => last - first + 1;
  const longest = [...passages].sort((a, b) => size(b) - size(a)).slice(0, MOST_NAMED);
  const places = longest
    .sort((a, b) => a.first - b.first)
    .map(({ first, last }) => `${clock(notes[first]!.onset)} to ${clock(notes[last]!.onset)}`);
  const others = passages.length - places.length;
  const all = passages.reduce((total, passage) => total + size(passage), 0);
  return [
    {
      code: "hands-doubtful",
      message:
        `The hands cross or lie in one register in ${counted(passages.length, "passage")} (${counted(all, "note")}):` +
        " which hand played which note is doubtful there; give single notes to the other hand where it is wrong",
      where: listInWords(others === 0 ? places : [...places, counted(others, "other")]),
    },
  ];
}
