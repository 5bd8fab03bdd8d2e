/**
 * How much of what sounds lies beyond one hand: single staves, pieces on two staves, performances with both hands and
 * simulated pairs of hands. Three staves of two samples hold what only the pedal can hold.
 */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { readTake } from "../../src/ingest/index.ts";
import { beyondOneHand } from "../../src/parting/one-hand.ts";
import type { Note } from "../../src/take/index.ts";
import { MEETINGS, meetingHands } from "../hands/meeting-hands.ts";
import { STAFF_SCORES } from "./doubt-figures.ts";
import { openTake } from "./open-take.ts";
import { NOT_TWO_HANDS, SAMPLES } from "./parting-pieces.ts";
import { hasPerformances, PERFORMANCES } from "./performed-hands.ts";

const FOLDERS = [new URL("v2/", SAMPLES), new URL("v3/", SAMPLES), STAFF_SCORES];
/** Fewer notes say nothing. */
const LEAST_NOTES = 12;

export interface ReachRows {
  /** Shares of strokes beyond one hand, rising. */
  readonly one: readonly number[];
  readonly two: readonly number[];
}

export function reachRows(): ReachRows {
  const scores = FOLDERS.filter((folder) => existsSync(folder)).flatMap((folder) =>
    readdirSync(folder)
      .filter((file) => file.endsWith("xml"))
      .flatMap((file) => staves(readFileSync(new URL(file, folder)), file)),
  );
  const played = (hasPerformances ? readdirSync(PERFORMANCES) : [])
    .filter((file) => file.endsWith(".mid"))
    .map((file) => readTake(readFileSync(new URL(file, PERFORMANCES)), { name: file }).notes);
  const simulated = MEETINGS.flatMap((kind) =>
    [1, 2, 3, 4, 5, 6].map((seed) => openTake(meetingHands(kind, seed).notes).notes),
  );
  const shares = (all: readonly (readonly Note[])[]) =>
    all
      .filter(({ length }) => length >= LEAST_NOTES)
      .map((notes) => beyondOneHand(notes))
      .sort((a, b) => a - b);
  return {
    one: shares(scores.flatMap(({ hands }) => hands)),
    two: shares([...scores.map(({ both }) => both), ...played, ...simulated]),
  };
}

function staves(bytes: Uint8Array, name: string): { both: Note[]; hands: Note[][] }[] {
  const take = readTake(bytes, { name });
  return take.parts
    .filter((part) => part.staves === 2 && !NOT_TWO_HANDS.includes(part.name))
    .map(({ id }) => {
      const both = take.notes.filter((note) => note.part === id && note.printed !== null);
      return { both, hands: [1, 2].map((staff) => both.filter(({ printed }) => printed!.staff === staff)) };
    });
}
