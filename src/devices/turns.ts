/** Devices of a few notes around chord tones: added passing note, chain of approaches, blues turn. */
import {
  type DeviceLine,
  type DeviceNote,
  goesOn,
  isJoined,
  isOneChord,
  move,
  type Stretch,
} from "./device-line.ts";
import { stretches } from "./outlines.ts";

/** Where the added half step lies, in semitones above the root: between b7 and 1, between 5 and 6, between b3 and 11. */
const ADDED: Readonly<Record<string, number>> = {
  dominant: 11,
  "major-seventh": 8,
  sixth: 8,
  major: 8,
  "minor-seventh": 4,
};
const RUN = 6;
const ON_BEAT = 3;

/**
 * Added passing note: six notes or more of the scale in one direction by step, with one half step more in it, so that
 * every beat falls on a chord tone. Source: Baker, How to Play Bebop [memory].
 */
export function addedPassingNote(line: DeviceLine): Stretch[] {
  return stretches(line, RUN, (first, last) => {
    const { span } = line[first]!;
    const added = ADDED[span.chord?.quality ?? ""];
    if (added === undefined || !isOneChord(line, first, last)) return false;
    if (!isRun(line, first, last)) return false;
    const notes = line.slice(first, last + 1);
    const foreign = notes.filter(({ above }) => !span.scaleTones.includes(above!) && above !== added);
    const at = notes.findIndex(({ above }) => above === added);
    if (foreign.length > 0 || at < 1 || at > notes.length - 2) return false;
    const onBeat = notes.filter(({ note }) => note.beat !== null && Number.isInteger(note.beat));
    return onBeat.length >= ON_BEAT && onBeat.every(({ label }) => isChordTone(label.role));
  }).map((found) => ({ name: "added passing note", ...found }));
}

function isChordTone(role: string | null): boolean {
  return role === "root" || role === "third" || role === "fifth" || role === "seventh";
}

const TARGETS = 3;

/**
 * Chain of approaches: three targets or more in a row, each a chord tone come to by a half step from a note that is
 * none. No target is the one before it again, which is a trill, and the whole turns or leaps: a run by step in one
 * direction is a scale. Source: Coker [memory].
 */
export function chainOfApproaches(line: DeviceLine): Stretch[] {
  const found: Stretch[] = [];
  for (let first = 0; first + 2 * TARGETS <= line.length; first++) {
    let last = first - 1;
    while (isPair(line, last + 1) && (last < first || isFresh(line, last))) last += 2;
    if (last - first + 1 < 2 * TARGETS || isRun(line, first, last)) continue;
    found.push({ name: "chain of approaches", first, last });
    first = last;
  }
  return found;
}

/** True when all goes by step in one direction. */
function isRun(line: DeviceLine, first: number, last: number): boolean {
  const way = Math.sign(move(line, first));
  for (let i = first; i < last; i++) {
    const size = move(line, i) * way;
    if (size < 1 || size > 2) return false;
  }
  return true;
}

function isPair(line: DeviceLine, at: number): boolean {
  const [approach, target] = [line[at], line[at + 1]];
  if (approach === undefined || target === undefined || !goesOn(line, at)) return false;
  return (
    Math.abs(move(line, at)) === 1 && !isChordTone(approach.label.role) && isChordTone(target.label.role)
  );
}

/**
 * From a target to the next approach: joined, to another target, and not on by half step in the same direction; nor by
 * whole step where the line falls, since that is how scales fall through half steps.
 */
function isFresh(line: DeviceLine, target: number): boolean {
  if (!goesOn(line, target)) return false;
  const [into, out] = [move(line, target - 1), move(line, target)];
  if (line[target]!.note.pitch === line[target + 2]?.note.pitch) return false;
  return Math.abs(out) > (into < 0 ? 2 : 1) || into * out < 0;
}

/**
 * Blues turn: over a dominant the blue third rises into the third, which goes home to root or fifth. In a blues the
 * blue third is shorter or on a weaker place than the third; elsewhere, where it may be a sharp ninth, it is clearly shorter. [practice]
 */
export function bluesTurn(line: DeviceLine): Stretch[] {
  return stretches(
    line,
    3,
    (first, last) => {
      const [blue, third, home] = [line[first]!, line[first + 1]!, line[last]!];
      if (blue.span.chord?.quality !== "dominant" || !isJoined(line, first, last)) return false;
      if (blue.span.symbol !== third.span.symbol || home.span.symbol !== blue.span.symbol) return false;
      if (blue.above !== 3 || move(line, first) !== 1 || !isBlue(blue, third)) return false;
      return (home.above === 0 || home.above === 7) && Math.abs(move(line, first + 1)) <= 5;
    },
    3,
  ).map((found) => ({ name: "blues turn", ...found }));
}

function isBlue(blue: DeviceNote, third: DeviceNote): boolean {
  const share = blue.note.duration / third.note.duration;
  const leads = share <= 0.8 || (share <= 1.1 && blue.label.strength < third.label.strength);
  return blue.label.role === "blue" ? leads : share <= 0.6;
}
