/** All devices of a solo, in order. */
import type { ChordSpan } from "../chart/types.ts";
import type { NoteLabel } from "../harmony/index.ts";
import type { PlacedNote } from "../take/index.ts";
import { certaintyOf } from "./certainty.ts";
import { type DeviceLine, deviceLine, type Stretch } from "./device-line.ts";
import { answeringEnd, pedal, sequence, sideSlip } from "./figures.ts";
import type { DeviceName } from "./names.ts";
import { otherPentatonic, thirdToFlatNinth, tritoneOutline, upperStructure } from "./outlines.ts";
import { addedPassingNote, bluesTurn, chainOfApproaches } from "./turns.ts";
import { deviceInWords } from "./words.ts";

/** A named figure and where it lies. */
export interface Device {
  readonly name: DeviceName;
  /** Ids of its notes, in order. */
  readonly notes: readonly string[];
  readonly firstNote: string;
  readonly lastNote: string;
  readonly chorus: number;
  readonly bar: number;
  readonly beat: number | null;
  /** 0 to 1: of devices said so surely, so many are what they are called (`certainty.ts`). */
  readonly certainty: number;
  /** One sentence that says where it lies and what it is. */
  readonly account: string;
}

/**
 * The devices of a solo, by onset. A pure function; linear in the notes but for the length of a figure.
 *
 * @param notes all notes, parallel to `labels`; those outside the solo are passed over
 * @param phrases the phrases of the solo, in order
 */
export function findDevices(
  notes: readonly PlacedNote[],
  labels: readonly NoteLabel[],
  spans: readonly ChordSpan[],
  phrases: readonly { readonly firstNote: string; readonly lastNote: string }[],
): Device[] {
  const line = deviceLine(notes, labels, spans);
  const found = [
    ...sideSlip(line),
    ...thirdToFlatNinth(line),
    ...tritoneOutline(line),
    ...upperStructure(line),
    ...otherPentatonic(line),
    ...addedPassingNote(line),
    ...sequence(line),
    ...pedal(line),
    ...chainOfApproaches(line),
    ...bluesTurn(line),
    ...answeringEnd(line, phrases),
  ];
  return found.sort((a, b) => a.first - b.first || a.last - b.last).map((stretch) => deviceOf(line, stretch));
}

function deviceOf(line: DeviceLine, stretch: Stretch): Device {
  const { name, first, last } = stretch;
  const { chorus, bar, beat, id } = line[first]!.note;
  return {
    name,
    notes: line.slice(first, last + 1).map(({ note }) => note.id),
    firstNote: id,
    lastNote: line[last]!.note.id,
    chorus,
    bar,
    beat,
    certainty: certaintyOf(name),
    account: deviceInWords(line, stretch),
  };
}
