/** Whether one hand could have played all of a track, so that it need not be parted. */
import type { Note } from "../take/index.ts";
import { PARTING_COSTS } from "./costs.ts";
import { groupNotes } from "./strokes.ts";
import { middleOf } from "./viterbi.ts";

/** What sounds together above and below the middle of a track, as a share of its notes, where two hands may play. */
const TOGETHER = 0.06;
/**
 * Share of the strokes that one hand cannot reach with what it holds, or finds no fingers for, from which two hands
 * play. Of 83 pieces on two staves, performances of people and simulated pairs of hands the least has .22; of 52
 * single staves, chords and all, 49 have at most .042, and the others hold what only a pedal holds (report `parting`). The bound lies near the
 * single staves: a chord now and then under a long line is another hand's.
 */
const OUT_OF_REACH = 0.06;
/** Keys of a legato overlap by up to so many seconds, and by no more of them is a key held. [practice] */
const LEGATO = 0.08;
const FINGERS = 5;

/** True when a track needs two hands: many of its notes sound together, far apart, and beyond what one hand holds. */
export function needsTwoHands(notes: readonly Note[]): boolean {
  return soundsApart(notes) && beyondOneHand(notes) > OUT_OF_REACH;
}

/** True where notes below the middle of a track sound together with notes above it. */
function soundsApart(notes: readonly Note[]): boolean {
  if (notes.length < 2) return false;
  const middle = middleOf(notes);
  let together = 0;
  let latestLow = Number.NEGATIVE_INFINITY;
  let latestHigh = Number.NEGATIVE_INFINITY;
  for (const note of notes) {
    const end = note.onset + note.duration - LEGATO;
    if (note.pitch < middle) {
      if (latestHigh > note.onset) together++;
      latestLow = Math.max(latestLow, end);
    } else {
      if (latestLow > note.onset) together++;
      latestHigh = Math.max(latestHigh, end);
    }
  }
  return together / notes.length > TOGETHER;
}

/**
 * Share of the strokes, 0 to 1, at which more sounds than one hand can hold: keys farther apart than it reaches with
 * ease, or more than it has fingers.
 *
 * @param notes sorted by onset
 */
export function beyondOneHand(notes: readonly Note[]): number {
  const strokes = groupNotes(notes);
  let held: Note[] = [];
  let beyond = 0;
  for (const stroke of strokes) {
    const at = Math.min(...stroke.map((i) => notes[i]!.onset));
    held = held.filter(({ onset, duration }) => onset + duration - LEGATO > at);
    held.push(...stroke.map((i) => notes[i]!));
    const keys = new Set(held.map(({ pitch }) => pitch));
    const span = Math.max(...keys) - Math.min(...keys);
    if (span > PARTING_COSTS.comfortable || keys.size > FINGERS) beyond++;
  }
  return strokes.length === 0 ? 0 : beyond / strokes.length;
}
